import type { Plan } from '../../../src/plan/plan.ts';
import { aBlock, anEntry, aPlan, aTalk, aWait } from '../../builders/small-plan.ts';

/** Seconds of a move. */
const doing = (moveId: string, seconds: number, change: Parameters<typeof anEntry>[1] = {}) =>
  anEntry(moveId, { dose: { kind: 'seconds', seconds }, ...change });

/** A class of two minutes with one of everything: sides, kit, straight in, both wait points, breather, water, stretch. */
export function everythingClass(): Plan {
  const warmUp = aBlock([doing('march', 7)], { id: 'warm-up', part: 'warmUp', cueStyle: 'soft' });
  const circuit = aBlock(
    [
      doing('one-arm-row', 6, { swapSeconds: 2 }),
      doing('press-up', 6, { changeoverSeconds: 3 }),
      aWait({ id: 'hook', seconds: 4 }),
      doing('band-row', 6),
      aWait({ id: 'look', seconds: 5, goesOn: 'whenAsked', why: 'look at the next move together' }),
      doing('squat', 5, { changeoverSeconds: 3 }),
      doing('back-lunge', 5),
    ],
    { id: 'circuit', rounds: 2, leadInSeconds: 5, breatherSeconds: 6 },
  );
  const stretch = aBlock(
    [aTalk({ id: 'drink', kind: 'water', seconds: 5 }), doing('hamstring-stretch', 5, { swapSeconds: 2 })],
    {
      id: 'stretch',
      part: 'stretch',
      cueStyle: 'soft',
      leadInSeconds: 4,
    },
  );
  return aPlan([warmUp, circuit, stretch], { id: 'everything', name: 'One of everything', countInSeconds: 5 });
}

/** A class whose spans are long enough to be found again in them: work, way in, both kinds of wait points, many rounds. */
export function longSpansClass(): Plan {
  const entries = [
    doing('squat', 90, { changeoverSeconds: 60 }),
    aWait({ id: 'stand', seconds: 30, goesOn: 'whenAsked', why: 'find a partner' }),
    doing('one-arm-row', 60, { changeoverSeconds: 45, swapSeconds: 30 }),
    aWait({ id: 'hook', seconds: 90, why: 'hook the band' }),
    doing('band-row', 90, { changeoverSeconds: 40 }),
  ];
  const block = aBlock(entries, { id: 'circuit', rounds: 10, breatherSeconds: 60 });
  return aPlan([block], { id: 'long-spans', name: 'Long spans', countInSeconds: 5 });
}

/** A class to try every press on: sides, floor and standing, both wait points; nothing in it is over soon. */
export function pressedClass(): Plan {
  const entries = [
    doing('squat', 40, { changeoverSeconds: 5 }),
    doing('one-arm-row', 30, { changeoverSeconds: 8, swapSeconds: 5 }),
    aWait({ id: 'stand', seconds: 10, goesOn: 'whenAsked', why: 'find a partner' }),
    doing('press-up', 30, { changeoverSeconds: 6 }),
    aWait({ id: 'hook', seconds: 40, why: 'hook the band' }),
    doing('band-row', 30),
    doing('star-jump', 6),
    doing('back-lunge', 30),
  ];
  const block = aBlock(entries, { id: 'circuit', rounds: 2, breatherSeconds: 20 });
  return aPlan([block], { id: 'pressed', name: 'Every press', countInSeconds: 5 });
}

/** Short moves straight in, for what happens near an end. */
export function shortMovesClass(): Plan {
  const entries = [doing('star-jump', 6), doing('squat', 10), doing('back-lunge', 30)];
  return aPlan([aBlock(entries, { id: 'circuit' })], { id: 'short', name: 'Short moves', countInSeconds: 5 });
}

/** Standing moves of five seconds straight in, so that hardly a second is without a cue. */
export function tickingClass(): Plan {
  const entries = ['squat', 'back-lunge', 'star-jump'].map((moveId) => doing(moveId, 5));
  const block = aBlock(entries, { id: 'circuit', rounds: 8 });
  return aPlan([block], { id: 'ticking', name: 'Ticking', countInSeconds: 5 });
}
