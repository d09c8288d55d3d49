import fc from 'fast-check';
import type { Move } from '../../src/moves/move.ts';
import type { Block, Dose, Entry, Format, Plan } from '../../src/plan/plan.ts';

// Plans and plan files of every shape that may be written, and the same with one thing in them bent.

const anId = fc.stringMatching(/^[A-Za-z0-9][A-Za-z0-9_-]{0,11}$/);
const aName = fc.stringMatching(/^[A-Za-zäß✓🙂][A-Za-zäß✓🙂 ,.<>&"'/-]{0,20}[A-Za-zäß✓🙂]$/u);
const aLine = fc.oneof(fc.constant(''), aName);
const aRest = fc.integer({ min: 0, max: 600 });

const aDose: fc.Arbitrary<Dose> = fc.oneof(
  fc.record({ kind: fc.constant('seconds' as const), seconds: fc.integer({ min: 5, max: 3600 }) }),
  fc.record({
    kind: fc.constant('count' as const),
    count: fc.integer({ min: 20, max: 60 }),
    secondsEach: fc.constantFrom(0.25, 0.75, 1.2, 2, 4.8, 60),
  }),
);

const aFormat: fc.Arbitrary<Format> = fc.oneof(
  { weight: 4, arbitrary: fc.constant<Format>({ kind: 'allTogether' }) },
  fc.record({ kind: fc.constantFrom('onTheMinute' as const, 'stations' as const) }),
  fc.record({ kind: fc.constant('roundsInTheTime' as const), forSeconds: fc.integer({ min: 5, max: 3600 }) }),
  fc.record({
    kind: fc.constant('ladder' as const),
    of: fc.constantFrom('work' as const, 'changeover' as const),
    stepSeconds: fc.integer({ min: 1, max: 600 }),
  }),
);

const MOVE_IDS = ['squat-1', 'row', 'plank'] as const;

/** Moves by which the plans below stand. */
export const ANY_PLAN_MOVES: readonly Move[] = MOVE_IDS.map((id) => ({
  id,
  name: `The ${id}`,
  hallName: id,
  part: 'circuit',
  pattern: 'squat',
  regions: ['legs', 'hips'],
  position: 'standing',
  impact: 'none',
  effort: 'moderate',
  sides: 'inTurn',
  kit: { mat: 1, handWeight: 2 },
  options: [{ level: 'lower', name: 'Smaller', hallName: 'Smaller', how: 'Half as far.', figure: 'halfSquat' }],
  formPoints: ['Stand tall.'],
  takeCareIf: [],
  figure: 'squat',
}));

function aByRound(rounds: number): fc.Arbitrary<{ round: number; dose: Dose | null }[]> {
  // Never all rounds, so that the plan always has work.
  const round = fc.integer({ min: 1, max: Math.max(1, rounds - 1) });
  const one = fc.record({ round, dose: fc.option(aDose) });
  return rounds === 1
    ? fc.constant([])
    : fc.uniqueArray(one, { selector: (dose) => dose.round, maxLength: rounds - 1 });
}

function anEntry(id: string, rounds: number): fc.Arbitrary<Entry> {
  const named = fc.constant(id);
  return fc.oneof(
    {
      weight: 4,
      arbitrary: fc.record({
        kind: fc.constant('move' as const),
        id: named,
        moveId: fc.constantFrom(...MOVE_IDS),
        dose: aDose,
        byRound: aByRound(rounds),
        forSome: fc.option(fc.record({ who: aName, doing: aName, dose: fc.option(aDose) })),
        sides: fc.option(
          fc.constantFrom('both' as const, 'alternating' as const, 'inTurn' as const, 'reverse' as const),
        ),
        swapSeconds: aRest,
        changeoverSeconds: aRest,
        locked: fc.boolean(),
        dropIfLate: fc.option(fc.integer({ min: 1, max: 200 })),
      }),
    },
    fc.record({
      kind: fc.constantFrom('talk' as const, 'water' as const),
      id: named,
      seconds: fc.integer({ min: 1, max: 600 }),
      about: aLine,
    }),
    fc.record({
      kind: fc.constant('wait' as const),
      id: named,
      seconds: fc.integer({ min: 1, max: 600 }),
      goesOn: fc.constantFrom('byItself' as const, 'whenAsked' as const),
      why: aLine,
    }),
  );
}

function aBlock(at: number): fc.Arbitrary<Block> {
  return fc
    .record({ rounds: fc.integer({ min: 1, max: 20 }), entryCount: fc.integer({ min: 1, max: 4 }) })
    .chain(({ rounds, entryCount }) =>
      fc.record({
        id: fc.constant(`block-${at}`),
        part: fc.constantFrom('warmUp' as const, 'circuit' as const, 'stretch' as const),
        name: aName,
        format: aFormat,
        rounds: fc.constant(rounds),
        cueStyle: fc.constantFrom('sharp' as const, 'soft' as const, 'silent' as const),
        leadInSeconds: aRest,
        breatherSeconds: aRest,
        closingRestSeconds: aRest,
        entries: fc.tuple(...Array.from({ length: entryCount }, (_, i) => anEntry(`entry-${at}-${i}`, rounds))),
      }),
    );
}

/** A plan that may be written, with work in it. */
export const anyPlan: fc.Arbitrary<Plan> = fc.integer({ min: 1, max: 3 }).chain((blockCount) =>
  fc
    .record({
      id: anId,
      rev: anId,
      parentRev: fc.option(anId),
      name: aName,
      about: aLine,
      countInSeconds: aRest,
      blocks: fc.tuple(...Array.from({ length: blockCount }, (_, at) => aBlock(at))),
    })
    .filter(({ blocks }) => blocks.some(({ entries }) => entries.some(({ kind }) => kind === 'move'))),
);

/** The value of a plan file that may be written. */
export const anyPlanFile = anyPlan.map((plan) => ({ format: 'hallpace-plan', v: 1, plan, moves: ANY_PLAN_MOVES }));

/** What a careless or hostile hand puts where something else belongs. */
const ODD_VALUES: readonly unknown[] = [
  null,
  true,
  '',
  ' ',
  'x',
  'x'.repeat(81),
  'x'.repeat(241),
  'move',
  'lower',
  'circuit',
  'constructor',
  '__proto__',
  '\ud800',
  'a\nb',
  'a\u202eb',
  '<b>&</b>',
  -1,
  0,
  0.5,
  1,
  4,
  5,
  20,
  21,
  200,
  201,
  600,
  601,
  3600,
  3601,
  1e21,
  -0,
  Number.POSITIVE_INFINITY,
  [],
  {},
  [null],
  [[[[]]]],
  { kind: 'seconds', seconds: 30 },
  { kind: 'count', count: 1, secondsEach: 1 },
];

/** One way to bend a value: where (a random walk from the top), how, and with what. */
export type Bend = {
  readonly walk: readonly number[];
  readonly how: 'replace' | 'remove' | 'add' | 'repeat';
  readonly odd: number;
  readonly key: string;
};

/** Bends of every kind. */
export const anyBend: fc.Arbitrary<Bend> = fc.record({
  walk: fc.array(fc.nat(30), { maxLength: 9 }),
  how: fc.constantFrom('replace', 'remove', 'add', 'repeat'),
  odd: fc.nat(ODD_VALUES.length - 1),
  key: fc.constantFrom('extra', '__proto__', 'constructor', 'toString', 'kind', 'id'),
});

/** A copy of `value` with one thing bent. */
export function bend(value: unknown, how: Bend, depth = 0): unknown {
  const step = how.walk[depth];
  if (step === undefined || typeof value !== 'object' || value === null) return bendHere(value, how);
  const keys = Object.keys(value);
  const key = keys[step % Math.max(1, keys.length)];
  if (key === undefined) return bendHere(value, how);
  const isHere = depth === how.walk.length - 1;
  if (isHere && how.how === 'remove') return without(value, key);
  if (Array.isArray(value)) return value.map((one, at) => (String(at) === key ? bend(one, how, depth + 1) : one));
  return withKeys(Object.entries(value).map(([name, one]) => [name, name === key ? bend(one, how, depth + 1) : one]));
}

function bendHere(value: unknown, { how, odd, key }: Bend): unknown {
  if (how === 'add' && typeof value === 'object' && value !== null && !Array.isArray(value)) {
    return withKeys([...Object.entries(value), [key, ODD_VALUES[odd]]]);
  }
  if (how === 'repeat' && Array.isArray(value)) return Array.from({ length: odd + 1 }, () => value).flat();
  return ODD_VALUES[odd];
}

function without(value: object, key: string): unknown {
  if (Array.isArray(value)) return value.filter((_, at) => String(at) !== key);
  return withKeys(Object.entries(value).filter(([name]) => name !== key));
}

/** As `JSON.parse` makes it: `__proto__` becomes a key like any other. */
function withKeys(entries: readonly (readonly [string, unknown])[]): unknown {
  return Object.fromEntries(entries);
}
