import { libraryOf } from '../../src/moves/library.ts';
import type { Move, MoveLibrary } from '../../src/moves/move.ts';
import type { Block, Entry, MoveEntry, PauseEntry, Plan, WaitEntry } from '../../src/plan/plan.ts';

/** A standing move with one lower option and no kit; change what the test is about. */
export function aMove(id: string, change: Partial<Move> = {}): Move {
  return {
    id,
    name: `The ${id}`,
    hallName: id.slice(0, 10),
    part: 'circuit',
    pattern: 'squat',
    regions: ['legs'],
    position: 'standing',
    impact: 'none',
    effort: 'moderate',
    sides: 'both',
    kit: {},
    options: [{ level: 'lower', name: `Easy ${id}`, hallName: 'easy', how: 'smaller', figure: 'halfSquat' }],
    formPoints: [`${id} set-up`, `${id} point one`, `${id} point two`],
    takeCareIf: [],
    figure: 'squat',
    ...change,
  };
}

/** The moves that `anEntry` names by letter: a, b, c stand; `low` lies; `jump` jumps; `sided` has sides in turn; `band` needs a band. */
export const SMALL_LIBRARY: MoveLibrary = libraryOf([
  aMove('a'),
  aMove('b'),
  aMove('c'),
  aMove('low', { position: 'lyingBack' }),
  aMove('jump', { impact: 'jump' }),
  aMove('sided', { sides: 'inTurn' }),
  aMove('turned', { sides: 'reverse' }),
  aMove('swapping', { sides: 'alternating' }),
  aMove('band', { kit: { band: 1 } }),
]);

/** 30 s of a move, straight in. Its id is the move's unless told otherwise. */
export function anEntry(moveId: string, change: Partial<MoveEntry> = {}): MoveEntry {
  return {
    kind: 'move',
    id: moveId,
    moveId,
    dose: { kind: 'seconds', seconds: 30 },
    byRound: [],
    forSome: null,
    sides: null,
    swapSeconds: 3,
    changeoverSeconds: 0,
    locked: false,
    dropIfLate: null,
    ...change,
  };
}

/** A planned minute without a move. */
export function aTalk(change: Partial<PauseEntry> = {}): PauseEntry {
  return { kind: 'talk', id: 'talk', seconds: 20, about: 'today', ...change };
}

/** A wait point of 20 s that goes on by itself unless told otherwise. */
export function aWait(change: Partial<WaitEntry> = {}): WaitEntry {
  return { kind: 'wait', id: 'wait', seconds: 20, goesOn: 'byItself', why: 'hook the band', ...change };
}

/** One sharp circuit block, all together, one round. */
export function aBlock(entries: readonly Entry[], change: Partial<Block> = {}): Block {
  return {
    id: 'block',
    part: 'circuit',
    name: 'Circuit',
    format: { kind: 'allTogether' },
    rounds: 1,
    cueStyle: 'sharp',
    leadInSeconds: 0,
    breatherSeconds: 0,
    closingRestSeconds: 0,
    entries,
    ...change,
  };
}

/** A plan of the blocks given, with a count-in of 10 s. */
export function aPlan(blocks: readonly Block[], change: Partial<Plan> = {}): Plan {
  return {
    id: 'plan',
    rev: 'rev-1',
    parentRev: null,
    name: 'Small class',
    about: '',
    countInSeconds: 10,
    blocks,
    ...change,
  };
}
