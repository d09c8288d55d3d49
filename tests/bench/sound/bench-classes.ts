import type { Move } from '../../../src/moves/move.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import { aBlock, anEntry, aPlan } from '../../builders/small-plan.ts';
import { movesIn } from '../../builders/starter-moves.ts';

/** Plans that run in real time, with cues at least a second apart. */
export const benchMoves: readonly Move[] = [...movesIn('warm-up'), ...movesIn('circuit'), ...movesIn('stretch')];

const COUNT_IN_SECONDS = 4;

const doing = (moveId: string, seconds: number, change: Parameters<typeof anEntry>[1] = {}) =>
  anEntry(moveId, { dose: { kind: 'seconds', seconds }, ...change });

/** Start, tick, heads-up, down, up, change, other side, finish, sharp and soft; halfway too when the first move is 45 s or more. */
export function everyCueClass(firstMoveSeconds: number): Plan {
  const circuit = aBlock(
    [
      doing('squat', firstMoveSeconds),
      doing('press-up', 8, { changeoverSeconds: 3 }),
      doing('one-arm-row', 5, { changeoverSeconds: 3, swapSeconds: 2 }),
    ],
    { id: 'circuit' },
  );
  const stretch = aBlock([doing('hamstring-stretch', 4, { swapSeconds: 2 })], {
    id: 'stretch',
    part: 'stretch',
    cueStyle: 'soft',
    leadInSeconds: 3,
  });
  return aPlan([circuit, stretch], { id: 'every-cue', name: 'Every cue', countInSeconds: COUNT_IN_SECONDS });
}

/** Three ticks and a start every 5 s, straight in, for so many moves. */
export function denseClass(moves: number): Plan {
  const block = aBlock([doing('squat', 5)], { id: 'circuit', rounds: moves });
  return aPlan([block], { id: 'dense', name: 'Every few seconds', countInSeconds: COUNT_IN_SECONDS });
}
