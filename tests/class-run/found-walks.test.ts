import { test } from 'vitest';
import type { AnyClass, BlockSketch, EntrySketch, Press } from '../oracle/any-class.ts';
import { realMachine } from '../oracle/machine.ts';
import { walk } from '../oracle/walk.ts';

const move = (id: string, work: EntrySketch['work'], over = 0): EntrySketch => ({
  is: 'move',
  move: id,
  work,
  over,
  swap: 3,
  rounds: [],
});
const stand = (seconds: number): EntrySketch => ({ ...move('a', seconds), is: 'stand' });

const block = (entries: readonly EntrySketch[], change: Partial<BlockSketch> = {}): BlockSketch => ({
  rounds: 1,
  leadIn: 0,
  breather: 0,
  rest: 0,
  cues: 'sharp',
  entries,
  ...change,
});

/** A press `after` ticks of a quarter second. */
const press = (deed: Press['deed'], after: number, change: Partial<Press> = {}): Press => ({
  deed,
  from: 'now',
  after,
  late: 0,
  isStale: false,
  n: 0,
  ...change,
});

const walked = (blocks: readonly BlockSketch[], presses: readonly Press[], countIn = 0): AnyClass => ({
  tickMs: 250,
  countIn,
  blocks,
  before: [],
  presses,
  bend: 0,
});

/**
 * What walks have found wrong with the machine, smallest form; the first four broke a first cut of it. Each says what
 * the class did.
 */
const FOUND: readonly { readonly fault: string; readonly any: AnyClass }[] = [
  {
    fault: 'next on the last move while paused left no way out',
    any: walked([block([move('a', 30)])], [press('pause', 40), press('next', 20)]),
  },
  {
    fault: 'going back copied what was run, and made sides unequal',
    any: walked(
      [block([move('sided', 30), move('b', 30)])],
      [press('next', 40), press('back', 20), press('give', 8), press('back', 8, { n: 1 })],
    ),
  },
  {
    fault: 'a press dated before the last look ran the run clock back under what was shown',
    any: walked([block([move('a', 30)])], [press('pause', 40), press('carryOn', 20, { late: 60 }), press('look', 4)]),
  },
  {
    fault: 'carrying on past the derived end moved the finish',
    any: walked([block([move('a', 5)])], [press('gap', 8), press('ranOn', 2400)]),
  },
  {
    fault: 'a note written while asking moved the finish of a class that had run on',
    any: walked([block([move('a', 1, 1)], { rest: 1 })], [press('gap', 0), press('away', 68), press('ranOn', 64)], 10),
  },
  {
    fault: 'an option shown while asking dated the answer before it',
    any: walked(
      [block([move('a', 1)], { breather: 1 })],
      [press('gap', -1, { from: 'end' }), press('show', 2, { n: 2 }), press('ranOn', 0)],
    ),
  },
  {
    fault: 'going back left the current move beside its copy where a dropped one stood between',
    any: walked(
      [block([move('a', [1, 0.5]), move('a', 1), stand(1)], { rounds: 2, leadIn: 1 })],
      [press('drop', 0), press('carryOn', 4, { n: 1 }), press('back', -1, { from: 'end' })],
      10,
    ),
  },
  {
    fault: 'the start of where three presses in a row led was drowned by the starts they passed',
    any: walked(
      [block([move('a', 1)], { rounds: 2 }), block([move('a', 1)])],
      [press('pause', 43), press('carryOn', 0, { n: 1 }), press('pause', 22), press('next', 0)],
      10,
    ),
  },
  {
    fault: 'a class abandoned at a gate that stood over its time lost that time from its run clock',
    any: walked([block([stand(1), move('a', 1)])], [press('abandon', 9)]),
  },
];

test.each(FOUND)('no more: $fault', ({ any }) => {
  walk(realMachine, any);
});
