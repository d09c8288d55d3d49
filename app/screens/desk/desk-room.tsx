import { useEffect, useState } from 'preact/hooks';
import type { Kept } from '../../../src/ports/class-store.ts';
import { planFileSentence } from '../../words/plan-file-words.ts';
import { NO_SUCH_PLAN } from '../../words/plan-words.ts';
import { storeText } from '../../words/record-words.ts';
import { NotBuilt, NothingHere } from '../not-built.tsx';
import type { PlanOpened } from '../plans/open-plan-file.tsx';
import { planLine } from '../plans/plan-line.ts';
import { PlanSheet } from '../plans/plan-sheet.tsx';
import { Plans } from '../plans/plans.tsx';
import { Record } from '../review/record.tsx';
import type { KeptClass } from '../review/record-facts.ts';
import { Records } from '../review/records.tsx';
import type { DeskProps } from './desk-props.ts';

/** Every screen that is neither the start page nor the hall, by its address. */
export function DeskRoom({ route, shelf, store }: DeskProps) {
  switch (route.at) {
    case 'plans':
      return <PlanList shelf={shelf} />;
    case 'plan':
      return <OnePlan shelf={shelf} planId={route.planId} />;
    case 'review':
      return <Records listRecords={store.listRecords} />;
    case 'record':
      return <OneRecord key={route.recordId} store={store} recordId={route.recordId} />;
    case 'moves':
      return <NotBuilt title="Moves" />;
    case 'courses':
      return <NotBuilt title="Courses" />;
    case 'backups':
      return <NotBuilt title="Backups" />;
    default:
      return <NothingHere title="Nothing here" text="This address leads nowhere in Hallpace." />;
  }
}

function PlanList({ shelf }: Pick<DeskProps, 'shelf'>) {
  const open = async (file: File): Promise<PlanOpened> => {
    const opened = await shelf.openFile(await file.text());
    if (opened.ok) return { ok: true, planId: opened.plan.id, name: opened.plan.name };
    return { ok: false, sentence: 'refused' in opened ? planFileSentence(opened.refused) : storeText(opened.notKept) };
  };
  const plans = shelf.plans.value.map(({ plan, library }) => planLine(plan, library));
  return <Plans plans={plans} unreadable={shelf.unreadable.value} onOpenFile={open} />;
}

function OnePlan({ shelf, planId }: Pick<DeskProps, 'shelf'> & { readonly planId: string }) {
  const shelved = shelf.plans.value.find(({ plan }) => plan.id === planId);
  if (shelved !== undefined) return <PlanSheet plan={shelved.plan} library={shelved.library} />;
  return <NothingHere title="Plan" text={shelf.isRead.value ? NO_SUCH_PLAN : ''} />;
}

function OneRecord({ store, recordId }: Pick<DeskProps, 'store'> & { readonly recordId: string }) {
  const [kept, setKept] = useState<Kept<KeptClass | null> | null>(null);
  useEffect(() => {
    let isGone = false;
    void store.readClass(recordId).then((found) => {
      if (!isGone) setKept(found);
    });
    return () => {
      isGone = true;
    };
  }, [store, recordId]);
  return <Record kept={kept} />;
}
