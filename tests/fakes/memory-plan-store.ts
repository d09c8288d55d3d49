import type { KeptPlan, PlanStore } from '../../src/ports/plan-store.ts';
import { parseKeptPlan } from '../../src/records/paper.ts';
import { type MemoryDisk, memoryDisk } from './memory-disk.ts';
import { type Told, wilful } from './wilful.ts';

export type MemoryPlanStore = PlanStore & Told & { readonly disk: MemoryDisk };

/** A plan store without a database; does as it is told. */
export function memoryPlanStore(disk: MemoryDisk = memoryDisk()): MemoryPlanStore {
  const will = wilful();

  const lastSavedFirst = (): readonly unknown[] =>
    [...disk.plans.values()].sort((a, b) => roughly(b).savedWallMs - roughly(a).savedWallMs);

  return {
    ...will,
    disk,
    list: () =>
      will.act(() => {
        const rows = lastSavedFirst();
        const plans = rows.map(parseKeptPlan).flatMap((row) => (row.ok ? [withoutVersion(row.value)] : []));
        return { ok: true, value: { plans, unreadable: rows.length - plans.length } };
      }),
    get: (planId) =>
      will.act(() => {
        const last = lastSavedFirst().find((row) => roughly(row).plan.id === planId);
        if (last === undefined) return { ok: true, value: null };
        const row = parseKeptPlan(last);
        return row.ok ? { ok: true, value: withoutVersion(row.value) } : { ok: false, reason: row.reason };
      }),
    put: (kept) =>
      will.act(() => {
        const key = `${kept.plan.id} ${kept.plan.rev}`;
        if (!disk.plans.has(key)) disk.plans.set(key, structuredClone({ v: 1, ...kept }));
        return { ok: true, value: null };
      }),
  };
}

/** What the store itself reads of a row that it may not understand. */
function roughly(row: unknown): KeptPlan {
  return row as KeptPlan;
}

function withoutVersion({ plan, ownMoves, savedWallMs }: KeptPlan): KeptPlan {
  return { plan, ownMoves, savedWallMs };
}
