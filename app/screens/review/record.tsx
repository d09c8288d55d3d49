import type { Kept } from '../../../src/ports/class-store.ts';
import { PageTop } from '../../parts/page-top.tsx';
import { outcomeText, storeText } from '../../words/record-words.ts';
import { clockText, dayText, timeOfDayText } from '../../words/time-words.ts';
import { hashOf } from '../router.ts';
import { RealAgainstPlan } from './real-against-plan.tsx';
import { type KeptClass, type RecordFacts, readFacts } from './record-facts.ts';
import './record.css';

/** What is kept of one class. `kept` null: still being read; a value of null: there is no such class. */
export function Record({ kept }: { readonly kept: Kept<KeptClass | null> | null }) {
  const back = { href: hashOf({ at: 'review' }), name: 'Classes that ran' };
  if (kept === null || !kept.ok || kept.value === null) {
    return (
      <main class="page">
        <PageTop title="A class that ran" back={back} />
        <p role="status">
          {kept === null ? '' : kept.ok ? 'There is no such class on this phone.' : storeText(kept.reason)}
        </p>
      </main>
    );
  }
  return <Facts kept={kept.value} back={back} />;
}

type FactsProps = { readonly kept: KeptClass; readonly back: { readonly href: string; readonly name: string } };

function Facts({ kept, back }: FactsProps) {
  const { head } = kept;
  const facts = readFacts(kept);
  return (
    <main class="page record">
      <PageTop title={head.planName} back={back} />
      <div class="record-sheet">
        <section>
          <p class="record-on">
            {dayText(head.startedWallMs, head.zone)}, {outcomeText(head.outcome)}
          </p>
          <RealAgainstPlan plannedMs={facts.plannedMs} realMs={facts.realMs} />
          <dl class="record-sums">
            {sumsOf(facts).map(([name, ms]) => (
              <div key={name}>
                <dt>{name}</dt>
                <dd>{clockText(ms)}</dd>
              </div>
            ))}
          </dl>
          {facts.bentAt !== null && (
            <p role="alert">From the {facts.bentAt + 1}. mark on, what is kept of this class does not fit together.</p>
          )}
        </section>
        <section>
          <h2>What happened</h2>
          <p class="quiet">
            Started {timeOfDayText(head.startedWallMs, head.zone)}
            {head.endedWallMs !== null && `, ended ${timeOfDayText(head.endedWallMs, head.zone)}`} ({head.zone}). Times
            below are minutes and seconds since the start.
          </p>
          <ol class="record-marks">
            {facts.lines.map((line) => (
              <li key={line.seq}>
                <span class="record-at">{clockText(line.atMs)}</span>
                <span>{line.text}</span>
              </li>
            ))}
          </ol>
        </section>
      </div>
    </main>
  );
}

function sumsOf(facts: RecordFacts): readonly (readonly [string, number])[] {
  const { books } = facts;
  const booked: readonly (readonly [string, number])[] =
    books === null
      ? []
      : [
          ['Given', books.givenMs],
          ['Skipped', books.skippedMs],
          ['Shortened', books.trimmedMs],
          ['Stood still', facts.pausedMs],
        ];
  return [['Planned', facts.plannedMs], ...booked.filter(([, ms]) => ms !== 0), ['Real', facts.realMs]];
}
