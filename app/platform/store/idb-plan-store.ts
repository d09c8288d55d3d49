import type { KeptPlan, PlanStore } from '../../../src/ports/plan-store.ts';
import { parseKeptPlan } from '../../../src/records/paper.ts';
import { type KeptPlanRow, STORED_VERSION } from '../../../src/records/stored-shapes.ts';
import { keysOf } from './class-rows.ts';
import { kept, NOTHING, no } from './store-answer.ts';
import type { StoreTransactions } from './store-transactions.ts';

/** Plans in the browser's database, one row a text: key `[plan.id, plan.rev]`. */
export function idbPlanStore(db: StoreTransactions): PlanStore {
  return {
    list: () =>
      db.read(['plans'], async (tx) => {
        const rows: readonly unknown[] = await tx.objectStore('plans').index('savedWallMs').getAll();
        const plans = rows.map(parseKeptPlan).flatMap((row) => (row.ok ? [planIn(row.value)] : []));
        return kept({ plans: plans.reverse(), unreadable: rows.length - plans.length });
      }),

    get: (planId) =>
      db.read(['plans'], async (tx) => {
        const last = await tx.objectStore('plans').index('byPlan').openCursor(keysOf(planId), 'prev');
        if (last === null) return kept(null);
        const row = parseKeptPlan(last.value);
        return row.ok ? kept(planIn(row.value)) : no(row.reason);
      }),

    put: ({ plan, ownMoves, savedWallMs }) =>
      db.write(['plans'], 'strict', async (tx) => {
        const plans = tx.objectStore('plans');
        const there = await plans.getKey([plan.id, plan.rev]);
        if (there === undefined) await plans.put({ v: STORED_VERSION, plan, ownMoves, savedWallMs });
        return NOTHING;
      }),
  };
}

function planIn({ plan, ownMoves, savedWallMs }: KeptPlanRow): KeptPlan {
  return { plan, ownMoves, savedWallMs };
}
