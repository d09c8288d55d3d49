import { beforeEach, describe, expect, test } from 'vitest';
import type { PlanStore } from '../../src/ports/plan-store.ts';
import { A_START_WALL_MS, aKeptPlan } from '../builders/kept-class.ts';
import { takeValue } from './class-store.ts';

export type PlanStoreHarness = {
  readonly store: PlanStore;
  /** Another window over the same data. */
  readonly again: () => PlanStore;
  /** Replaces the raw row of that plan and rev. */
  readonly spoil: (planId: string, rev: string, change: (row: object) => object) => Promise<void>;
};

/** What every plan store promises, whatever keeps the rows. */
export function planStoreContract(name: string, open: () => Promise<PlanStoreHarness>): void {
  describe(`plan store: ${name}`, () => {
    let harness: PlanStoreHarness;
    let store: PlanStore;

    beforeEach(async () => {
      harness = await open();
      store = harness.store;
    });

    test('gives a plan back to another window with the moves it brings', async () => {
      takeValue(await store.put(aKeptPlan('hill')));
      expect(takeValue(await harness.again().get('hill'))).toEqual(aKeptPlan('hill'));
    });

    test('has nothing where nothing was put', async () => {
      expect(takeValue(await store.get('hill'))).toBeNull();
      expect(takeValue(await store.list())).toEqual({ plans: [], unreadable: 0 });
    });

    test('lists newest saved first, whatever the names', async () => {
      for (const [id, at] of [
        ['b', 2],
        ['c', 1],
        ['a', 3],
      ] as const) {
        takeValue(await store.put(aKeptPlan(id, 'rev-1', A_START_WALL_MS + at)));
      }
      const { plans } = takeValue(await store.list());
      expect(plans.map((kept) => kept.plan.id)).toEqual(['a', 'b', 'c']);
    });

    test('the same id and rev again changes nothing', async () => {
      takeValue(await store.put(aKeptPlan('hill', 'rev-1', A_START_WALL_MS)));
      takeValue(await store.put(aKeptPlan('hill', 'rev-1', A_START_WALL_MS + 9)));
      expect(takeValue(await store.list()).plans).toEqual([aKeptPlan('hill', 'rev-1', A_START_WALL_MS)]);
    });

    test('another rev is kept beside, and the one saved last is the one given', async () => {
      takeValue(await store.put(aKeptPlan('hill', 'rev-a', A_START_WALL_MS + 1)));
      takeValue(await store.put(aKeptPlan('hill', 'rev-b', A_START_WALL_MS)));
      takeValue(await store.put(aKeptPlan('hill-2', 'rev-c', A_START_WALL_MS + 5)));
      expect(takeValue(await store.get('hill'))?.plan.rev).toBe('rev-a');
      expect(takeValue(await store.list()).plans.map((kept) => kept.plan.rev)).toEqual(['rev-c', 'rev-a', 'rev-b']);
    });

    test('unreadable plans and those of a newer version are left out of the list and counted', async () => {
      for (const [id, at] of [
        ['a', 1],
        ['b', 2],
        ['c', 3],
      ] as const) {
        takeValue(await store.put(aKeptPlan(id, 'rev-1', A_START_WALL_MS + at)));
      }
      await harness.spoil('a', 'rev-1', (row) => ({ ...row, v: 99 }));
      await harness.spoil('c', 'rev-1', (row) => ({ ...row, ownMoves: 'none' }));
      const answer = takeValue(await store.list());
      expect([answer.plans.map((kept) => kept.plan.id), answer.unreadable]).toEqual([['b'], 2]);
    });

    test.each([
      ['torn', { ownMoves: 'none' }, 'unreadable'],
      ['of a newer version', { v: 99 }, 'tooNew'],
    ] as const)('a plan that is %s is said to be, not replaced by an older rev', async (_what, change, reason) => {
      takeValue(await store.put(aKeptPlan('hill', 'rev-1', A_START_WALL_MS)));
      takeValue(await store.put(aKeptPlan('hill', 'rev-2', A_START_WALL_MS + 1)));
      await harness.spoil('hill', 'rev-2', (row) => ({ ...row, ...change }));
      expect(await store.get('hill')).toEqual({ ok: false, reason });
    });
  });
}
