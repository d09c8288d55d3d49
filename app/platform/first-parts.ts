import { browserClocks } from './browser-clocks.ts';
import { browserTimers } from './browser-timers.ts';
import { localText } from './local-text.ts';
import { browserPageLife } from './page-life.ts';
import { ringLog } from './ring-log.ts';
import { idbClassStore } from './store/idb-class-store.ts';
import { idbPlanStore } from './store/idb-plan-store.ts';
import { storeTransactions } from './store/store-transactions.ts';

/** What the first picture needs: clocks and stores. Loaded before it, so nothing may come in here that it can do without. */
export function firstParts() {
  const log = ringLog(browserClocks);
  const db = storeTransactions({ timers: browserTimers, log });
  return {
    log,
    clocks: browserClocks,
    timers: browserTimers,
    pageLife: browserPageLife({ document, window }),
    store: idbClassStore(db),
    planStore: idbPlanStore(db),
    choices: localText(() => localStorage, 'hallpace-hall-choices', log),
    zone: zoneHere,
  };
}

export type FirstParts = ReturnType<typeof firstParts>;

function zoneHere(): string {
  return Intl.DateTimeFormat().resolvedOptions().timeZone ?? 'UTC';
}
