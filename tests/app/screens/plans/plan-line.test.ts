import { describe, expect, it } from 'vitest';
import { planLine } from '../../../../app/screens/plans/plan-line.ts';
import { aBlock, aMove, anEntry, aPlan, aTalk, SMALL_LIBRARY } from '../../../builders/small-plan.ts';

describe('a plan summed up', () => {
  it('counts the moves alone on paper, and every change in the hall, from the first work on', () => {
    const plan = aPlan([aBlock([anEntry('a'), anEntry('sided', { changeoverSeconds: 8, swapSeconds: 3 })])]);
    const line = planLine(plan, SMALL_LIBRARY);
    expect(line.paperMs).toBe(90_000);
    expect(line.hallMs).toBe(101_000);
  });

  it('cuts the hall into blocks that add up to it', () => {
    const plan = aPlan([
      aBlock([aTalk(), anEntry('a')], { id: 'one' }),
      aBlock([anEntry('b'), anEntry('c')], { id: 'two', rounds: 2, leadInSeconds: 20, breatherSeconds: 40 }),
    ]);
    const line = planLine(plan, SMALL_LIBRARY);
    expect(line.blockMs).toEqual([30_000, 20_000 + 4 * 30_000 + 40_000]);
    expect(line.blockMs.reduce((sum, one) => sum + one, 0)).toBe(line.hallMs);
  });

  it('stands for a class with the first move of its circuit', () => {
    const library = new Map([
      ['a', aMove('a', { figure: 'march' })],
      ['b', aMove('b', { figure: 'press' })],
    ]);
    const warmUp = aBlock([anEntry('a')], { id: 'w', part: 'warmUp' });
    expect(planLine(aPlan([warmUp, aBlock([aTalk(), anEntry('b')])]), library).figure).toBe('press');
    expect(planLine(aPlan([warmUp]), library).figure).toBe('march');
  });

  it('knows that stations cannot be run yet', () => {
    const entries = [anEntry('a')];
    expect(planLine(aPlan([aBlock(entries)]), SMALL_LIBRARY).canRun).toBe(true);
    expect(planLine(aPlan([aBlock(entries, { format: { kind: 'stations' } })]), SMALL_LIBRARY).canRun).toBe(false);
  });

  it('is nothing long without any work', () => {
    const line = planLine(aPlan([aBlock([aTalk()])]), SMALL_LIBRARY);
    expect(line).toMatchObject({ paperMs: 0, hallMs: 0, blockMs: [0], figure: '' });
  });
});
