import { useState } from 'preact/hooks';
import { ClassFloor } from '../../parts/class-floor.tsx';
import { Figure } from '../../parts/figure.tsx';
import { PageTop } from '../../parts/page-top.tsx';
import { minutesOf, minutesText } from '../../words/time-words.ts';
import { hashOf } from '../router.ts';
import { OpenPlanFile, type PlanOpened } from './open-plan-file.tsx';
import type { PlanLine } from './plan-line.ts';
import './plans.css';

export type PlansProps = {
  readonly plans: readonly PlanLine[];
  /** Kept plans that this version cannot read. */
  readonly unreadable: number;
  /** Takes a plan file in, and tells what became of it; the list then holds it. Never rejects. */
  readonly onOpenFile: (file: File) => Promise<PlanOpened>;
};

/** The plans of this phone. */
export function Plans({ plans, unreadable, onOpenFile }: PlansProps) {
  const [last, setLast] = useState<PlanOpened | null>(null);
  const longest = Math.max(...plans.map((plan) => plan.hallMs), 0);
  return (
    <main class="page plans">
      <PageTop title="Plans" back={{ href: hashOf({ at: 'start' }), name: 'Start' }} />
      <ul class="plans-list">
        {plans.map((plan) => (
          <PlanRow key={plan.planId} plan={plan} longest={longest} />
        ))}
      </ul>
      {unreadable > 0 && <p class="plans-unreadable">{unreadableText(unreadable)}</p>}
      <OpenPlanFile last={last} onOpenFile={onOpenFile} onOpened={setLast} />
    </main>
  );
}

function PlanRow({ plan, longest }: { readonly plan: PlanLine; readonly longest: number }) {
  return (
    <li>
      <a class="plan-row" href={hashOf({ at: 'plan', planId: plan.planId })}>
        <Figure figure={plan.figure} />
        <span class="plan-row-name">{plan.name}</span>
        <span class="plan-row-minutes" aria-hidden="true">
          {minutesOf(plan.hallMs)}
        </span>
        <ClassFloor paper={plan.paperMs} blocks={plan.blockMs} whole={longest} />
        <span class="plan-row-paper quiet">{minutesOf(plan.paperMs)} on paper</span>
        <span class="plan-row-hall quiet">
          <span class="spoken-only">{minutesText(plan.hallMs)} </span>in the hall
        </span>
      </a>
    </li>
  );
}

function unreadableText(count: number): string {
  const which = count === 1 ? 'One more plan is kept' : `${count} more plans are kept`;
  return `${which} that this version cannot read. Nothing was deleted.`;
}
