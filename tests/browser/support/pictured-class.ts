import type { Plan } from '../../../src/plan/plan.ts';
import { aBlock, anEntry, aPlan, aWait } from '../../builders/small-plan.ts';

const doing = (moveId: string, seconds: number, change: Parameters<typeof anEntry>[1] = {}) =>
  anEntry(moveId, { dose: { kind: 'seconds', seconds }, ...change });

/** A class to be looked at: everything that the hall has to show stands in it once. */
export function picturedClass(): Plan {
  const entries = [
    doing('squat', 24, { changeoverSeconds: 5 }),
    doing('press-up', 20, { changeoverSeconds: 6 }),
    doing('bridge', 15, { changeoverSeconds: 5 }),
    doing('one-arm-row', 20, { changeoverSeconds: 8 }),
    aWait({ id: 'partner', seconds: 20, goesOn: 'whenAsked', why: 'find a partner' }),
    doing('overhead-press', 15),
    aWait({ id: 'hook', seconds: 15, why: 'hook the band' }),
    doing('band-row', 12),
    doing('back-lunge', 95),
  ];
  const block = aBlock(entries, { id: 'circuit', rounds: 2, breatherSeconds: 30 });
  return aPlan([block], { id: 'pictured', name: 'To be looked at', countInSeconds: 10 });
}
