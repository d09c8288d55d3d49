import fc from 'fast-check';
import type { Block, CueStyle, Dose, Entry, Plan } from '../../src/plan/plan.ts';
import { aBlock, anEntry, aPlan, aTalk, aWait } from '../builders/small-plan.ts';

/** One entry in few words, so that a found class can be written down. Seconds, or a count and its seconds each. */
export type EntrySketch = {
  readonly is: 'move' | 'talk' | 'water' | 'wait' | 'stand';
  readonly move: string;
  readonly work: number | readonly [number, number];
  readonly over: number;
  readonly swap: number;
  /** Work of a later round, by round; null leaves it out. */
  readonly rounds: readonly (readonly [number, number | null])[];
};

/** One block in few words. */
export type BlockSketch = {
  readonly rounds: number;
  readonly leadIn: number;
  readonly breather: number;
  readonly rest: number;
  readonly cues: CueStyle;
  readonly entries: readonly EntrySketch[];
};

/** Everything that a hand or the clock rule can do in a walk. `crash` throws the state away. */
export const DEEDS = [
  'look',
  'pause',
  'hurt',
  'carryOn',
  'next',
  'back',
  'give',
  'drop',
  'trim',
  'show',
  'finishEarly',
  'abandon',
  'away',
  'wallMoved',
  'gap',
  'ranOn',
  'toStop',
  'crash',
  'start',
] as const;

/**
 * One thing that happens in a walk. `after` counts ticks from the last instant, or from the end of the stretch that runs
 * (then it may be below zero); `late` ticks the press is dated back; `n` says which of the things this deed could be.
 */
export type Press = {
  readonly deed: (typeof DEEDS)[number];
  readonly from: 'now' | 'end';
  readonly after: number;
  readonly late: number;
  readonly isStale: boolean;
  readonly n: number;
};

/** A class and what becomes of it: plain values, equal through JSON. */
export type AnyClass = {
  readonly tickMs: number;
  readonly countIn: number;
  readonly blocks: readonly BlockSketch[];
  readonly before: readonly Press[];
  readonly presses: readonly Press[];
  /** Chooses what is bent in its marks at the end. */
  readonly bend: number;
};

const MOVES = ['a', 'b', 'low', 'jump', 'sided', 'turned', 'swapping', 'band'] as const;

/** The plan of a sketch. A class without any work gets one entry of it at the end, as plans must have. */
export function planOf({ countIn, blocks }: Pick<AnyClass, 'countIn' | 'blocks'>): Plan {
  const made = blocks.map((sketch, at) => blockOf(sketch, at));
  const hasWork = made.some((block) => block.entries.some((entry) => isInSomeRound(entry, block.rounds)));
  const rest = hasWork ? [] : [aBlock([anEntry('a', { id: 'only' })], { id: 'only-block' })];
  return aPlan([...made, ...rest], { countInSeconds: countIn });
}

function isInSomeRound(entry: Entry, rounds: number): boolean {
  return entry.kind === 'move' && entry.byRound.filter((one) => one.dose === null).length < rounds;
}

function blockOf(sketch: BlockSketch, at: number): Block {
  return aBlock(
    sketch.entries.map((entry, place) => entryOf(entry, `e${at}-${place}`, sketch.rounds)),
    {
      id: `b${at}`,
      rounds: sketch.rounds,
      cueStyle: sketch.cues,
      leadInSeconds: sketch.leadIn,
      breatherSeconds: sketch.breather,
      closingRestSeconds: sketch.rest,
    },
  );
}

function entryOf(sketch: EntrySketch, id: string, rounds: number): Entry {
  const seconds = typeof sketch.work === 'number' ? sketch.work : sketch.work[0];
  if (sketch.is === 'talk' || sketch.is === 'water') return aTalk({ kind: sketch.is, id, seconds });
  if (sketch.is !== 'move') return aWait({ id, seconds, goesOn: sketch.is === 'stand' ? 'whenAsked' : 'byItself' });
  return anEntry(sketch.move, {
    id,
    dose: doseOf(sketch.work),
    changeoverSeconds: sketch.over,
    swapSeconds: sketch.swap,
    byRound: sketch.rounds
      .filter(([round]) => round <= rounds)
      .map(([round, work]) => ({ round, dose: work === null ? null : doseOf(work) })),
  });
}

function doseOf(work: number | readonly [number, number]): Dose {
  if (typeof work === 'number') return { kind: 'seconds', seconds: work };
  return { kind: 'count', count: work[0], secondsEach: work[1] };
}

const rarely = <T>(often: T, other: fc.Arbitrary<T>): fc.Arbitrary<T> =>
  fc.oneof({ weight: 2, arbitrary: fc.constant(often) }, { weight: 1, arbitrary: other });

const anEntrySketch = (most: number): fc.Arbitrary<EntrySketch> =>
  fc.record({
    is: fc.oneof(
      { weight: 8, arbitrary: fc.constant<EntrySketch['is']>('move') },
      { weight: 3, arbitrary: fc.constantFrom<EntrySketch['is']>('talk', 'water', 'wait', 'stand') },
    ),
    move: fc.constantFrom<string>(...MOVES),
    work: fc.oneof(
      { weight: 4, arbitrary: fc.integer({ min: 1, max: most }) },
      { weight: 1, arbitrary: fc.tuple(fc.integer({ min: 1, max: 16 }), fc.constantFrom(0.5, 0.75, 1, 1.25, 2, 2.5)) },
    ),
    over: rarely(0, fc.integer({ min: 1, max: 12 })),
    swap: fc.constantFrom(3, 0, 5, 1),
    rounds: rarely<EntrySketch['rounds']>(
      [],
      fc.uniqueArray<readonly [number, number | null], number>(
        fc.tuple(fc.integer({ min: 1, max: 3 }), fc.option(fc.integer({ min: 1, max: most }), { nil: null })),
        { maxLength: 2, selector: ([round]) => round },
      ),
    ),
  });

const aBlockSketch = (mostWork: number, mostEntries: number): fc.Arbitrary<BlockSketch> =>
  fc.record({
    rounds: rarely(1, fc.integer({ min: 2, max: 4 })),
    leadIn: rarely(0, fc.integer({ min: 1, max: 20 })),
    breather: rarely(0, fc.integer({ min: 1, max: 45 })),
    rest: rarely(0, fc.integer({ min: 1, max: 10 })),
    cues: fc.constantFrom<CueStyle>('sharp', 'sharp', 'soft', 'silent'),
    entries: fc.array(anEntrySketch(mostWork), { minLength: 1, maxLength: mostEntries }),
  });

const WEIGHTS: { readonly [deed in Press['deed']]: number } = {
  look: 6,
  pause: 7,
  hurt: 2,
  carryOn: 16,
  next: 10,
  back: 8,
  give: 7,
  drop: 4,
  trim: 4,
  show: 3,
  finishEarly: 0.5,
  abandon: 0.3,
  away: 2,
  wallMoved: 1,
  gap: 3,
  ranOn: 3,
  toStop: 3,
  crash: 5,
  start: 0.5,
};

const A_LATE_LOOK_TICKS = 144_000;

const anAfter: fc.Arbitrary<Pick<Press, 'from' | 'after'>> = fc.oneof(
  { weight: 40, arbitrary: fc.record({ from: fc.constant('now' as const), after: fc.integer({ min: 0, max: 160 }) }) },
  { weight: 25, arbitrary: fc.record({ from: fc.constant('end' as const), after: fc.integer({ min: -16, max: 4 }) }) },
  { weight: 15, arbitrary: fc.constant({ from: 'now' as const, after: 0 }) },
  { weight: 1, arbitrary: fc.constant({ from: 'now' as const, after: A_LATE_LOOK_TICKS }) },
);

const aPress: fc.Arbitrary<Press> = fc
  .tuple(
    fc.oneof(...DEEDS.map((deed) => ({ weight: WEIGHTS[deed] * 10, arbitrary: fc.constant(deed) }))),
    anAfter,
    rarely(0, fc.integer({ min: 1, max: 60 })),
    fc.integer({ min: 0, max: 9 }).map((one) => one === 9),
    fc.integer({ min: 0, max: 30 }),
  )
  .map(([deed, when, late, isStale, n]) => ({ deed, ...when, late, isStale, n }));

/** Any class of up to about 25 entries on a grid of a quarter second, with up to 40 presses. */
export const anyClass: fc.Arbitrary<AnyClass> = fc.record({
  tickMs: fc.constant(250),
  countIn: rarely(10, fc.integer({ min: 0, max: 12 })),
  blocks: fc.array(aBlockSketch(60, 9), { minLength: 1, maxLength: 3 }),
  before: rarely<readonly Press[]>([], fc.array(aPress, { maxLength: 2 })),
  presses: fc.array(aPress, { maxLength: 40, size: 'max' }),
  bend: fc.nat(),
});

/** A short class ticked by the millisecond, so that presses fall between seconds and quarters of them. */
export const anyShortClass: fc.Arbitrary<AnyClass> = fc.record({
  tickMs: fc.constant(1),
  countIn: fc.integer({ min: 0, max: 2 }),
  blocks: fc.array(aBlockSketch(5, 3), { minLength: 1, maxLength: 2 }),
  before: fc.constant([]),
  presses: fc.array(
    aPress.chain((press) =>
      press.after === A_LATE_LOOK_TICKS
        ? fc.constant(press)
        : fc.integer({ min: press.from === 'end' ? -3100 : 0, max: 3100 }).map((after) => ({ ...press, after })),
    ),
    { maxLength: 25, size: 'max' },
  ),
  bend: fc.nat(),
});
