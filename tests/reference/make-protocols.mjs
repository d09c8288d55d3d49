// Published protocols as plan files: node tests/reference/make-protocols.mjs writes tests/fixtures/protocols/*.json.
// Numbers and names of exercises are facts from the sources named in protocol-totals.test.ts; all wording is ours.
import { mkdir, writeFile } from 'node:fs/promises';
import { fileURLToPath, pathToFileURL } from 'node:url';

/** @typedef {import('../../src/moves/move.ts').Move} Move */
/** @typedef {import('../../src/plan/plan.ts').MoveEntry} MoveEntry */
/** @typedef {import('../../src/plan/plan.ts').Block} Block */
/** @typedef {import('../../src/plan/plan.ts').Dose} Dose */

/**
 * The least that a move can say of itself.
 * @param {string} id
 * @param {string} name
 * @param {Partial<Move>} [more]
 * @returns {Move}
 */
const tiny = (id, name, more = {}) => ({
  id: `ref-${id}`,
  name,
  hallName: name.slice(0, 10).trim(),
  part: 'circuit',
  pattern: 'run',
  regions: ['heartAndLungs'],
  position: 'standing',
  impact: 'low',
  effort: 'hard',
  sides: 'both',
  kit: {},
  options: [
    { level: 'lower', name: 'Own pace', hallName: 'Own pace', how: 'The same, smaller and slower.', figure: 'march' },
  ],
  formPoints: [],
  takeCareIf: [],
  figure: 'stand',
  ...more,
});

/** @param {number} seconds @returns {Dose} */
const seconds = (seconds) => ({ kind: 'seconds', seconds });

/**
 * @param {Move} move
 * @param {Dose} dose
 * @param {Partial<MoveEntry>} [more]
 * @returns {MoveEntry}
 */
const entry = (move, dose, more = {}) => ({
  kind: 'move',
  id: move.id,
  moveId: move.id,
  dose,
  byRound: [],
  forSome: null,
  sides: null,
  swapSeconds: 0,
  changeoverSeconds: 0,
  locked: false,
  dropIfLate: null,
  ...more,
});

/**
 * @param {string} id
 * @param {readonly MoveEntry[]} entries
 * @param {Partial<Block>} [more]
 * @returns {Block}
 */
const block = (id, entries, more = {}) => ({
  id,
  part: 'circuit',
  name: 'Protocol',
  format: { kind: 'allTogether' },
  rounds: 1,
  cueStyle: 'sharp',
  leadInSeconds: 0,
  breatherSeconds: 0,
  closingRestSeconds: 0,
  entries,
  ...more,
});

/**
 * @param {string} name
 * @param {readonly Block[]} blocks
 * @param {readonly Move[]} moves
 */
const file = (name, blocks, moves) => ({
  format: 'hallpace-plan',
  v: 1,
  plan: {
    id: `ref-${name}`,
    rev: '1',
    parentRev: null,
    name: `Reference: ${name}`,
    about: '',
    countInSeconds: 7,
    blocks,
  },
  moves,
});

const sprint = tiny('bout', 'All-out bout');
const stations = [
  'Jumping jacks',
  'Wall sit',
  'Push-up',
  'Abdominal crunch',
  'Step-up on chair',
  'Squat',
  'Triceps dip on chair',
  'Plank',
  'High knees',
  'Lunge',
  'Push-up and rotation',
  'Side plank',
];

/** @param {string} prefix @param {readonly string[]} names @param {Partial<Move>} [more] */
const movesOf = (prefix, names, more = {}) => names.map((name, at) => tiny(`${prefix}-${at + 1}`, name, more));

/** Bouts with a rest between: n times work, n - 1 times rest. @param {string} name @param {number} n @param {number} work @param {number} rest */
const bouts = (name, n, work, rest) => ({
  [name]: file(
    name,
    [block('bouts', [entry(sprint, seconds(work), { changeoverSeconds: rest })], { rounds: n })],
    [sprint],
  ),
});

/** @param {number} rounds */
function twelveStations(rounds) {
  const moves = movesOf('station', stations).map((move) =>
    move.name === 'Side plank' ? { ...move, sides: /** @type {const} */ ('inTurn') } : move,
  );
  // The split of the last station is not published: half its time on each side, straight over.
  const entries = moves.map((move) =>
    entry(move, seconds(move.sides === 'inTurn' ? 15 : 30), { changeoverSeconds: 10 }),
  );
  const name = `twelve-stations-${rounds}`;
  return { [name]: file(name, [block('stations', entries, { rounds })], moves) };
}

/** @param {number} count */
function low20High10(count) {
  const [low, moderate, high] = [tiny('low', 'Low'), tiny('moderate', 'Moderate'), tiny('high', 'Above 90%')];
  const blocks = Array.from({ length: count }, (_, at) => {
    const place = (/** @type {Move} */ move) => ({ id: `${move.id}-${at + 1}` });
    const entries = [
      entry(low, seconds(30), place(low)),
      entry(moderate, seconds(20), place(moderate)),
      entry(high, seconds(10), place(high)),
    ];
    return block(`block-${at + 1}`, entries, { rounds: 5, leadInSeconds: at === 0 ? 0 : 120 });
  });
  const name = `ten-twenty-thirty-${count}`;
  return { [name]: file(name, blocks, [low, moderate, high]) };
}

/** Fixed circuit: 15 s to move, within a round as the changeover, between rounds as the breather. @param {string} name @param {number} later */
function fixedCircuit(name, later, endSeconds = 0) {
  const moves = movesOf(
    'fixed',
    Array.from({ length: 10 }, (_, at) => `Station ${at + 1}`),
  );
  const byRound = later === 30 ? [] : [2, 3].map((round) => ({ round, dose: seconds(later) }));
  const entries = moves.map((move, at) => entry(move, seconds(30), { byRound, changeoverSeconds: at === 0 ? 0 : 15 }));
  const circuit = block('circuit', entries, { rounds: 3, breatherSeconds: 15 });
  if (endSeconds === 0) return { [name]: file(name, [circuit], moves) };
  const [warm, cool] = [
    tiny('warm-up', 'Warm-up', { part: 'warmUp' }),
    tiny('cool-down', 'Cool-down', { part: 'stretch' }),
  ];
  const blocks = [
    block('warm-up', [entry(warm, seconds(endSeconds))], { part: 'warmUp', cueStyle: 'soft' }),
    circuit,
    block('cool-down', [entry(cool, seconds(endSeconds))], { part: 'stretch', cueStyle: 'soft' }),
  ];
  return { [name]: file(name, blocks, [...moves, warm, cool]) };
}

/** Four holds; `perSide` gives the two one-sided ones their full time on each side. @param {string} name @param {boolean} perSide */
function fourHolds(name, perSide) {
  const [raise, side, back, reach] = [
    tiny('bent-leg-raise', 'Bent-leg raise', { pattern: 'brace', position: 'lyingBack' }),
    tiny('side-bridge', 'Side bridge', { pattern: 'brace', position: 'lyingSide', sides: 'inTurn' }),
    tiny('back-bridge', 'Back bridge', { pattern: 'brace', position: 'lyingBack' }),
    tiny('quadraplex', 'Quadraplex', { pattern: 'brace', position: 'allFours', sides: 'inTurn' }),
  ];
  const sided = perSide ? {} : { sides: /** @type {const} */ ('alternating') };
  const entries = [
    entry(raise, seconds(60)),
    entry(side, seconds(60), sided),
    entry(back, seconds(60)),
    entry(reach, seconds(60), sided),
  ];
  return { [name]: file(name, [block('holds', entries)], [raise, side, back, reach]) };
}

/** Two positions each, held in turn. @param {string} name @param {readonly string[]} names @param {number} hold */
function twoPositions(name, names, hold) {
  const moves = movesOf('hold', names, { pattern: 'stretch', sides: 'inTurn', impact: 'none', effort: 'light' });
  const entries = moves.map((move) => entry(move, seconds(hold), { swapSeconds: 3, changeoverSeconds: 5 }));
  return { [name]: file(name, [block('holds', entries, { cueStyle: 'soft' })], moves) };
}

const recovery2012 = ['Overhead arm pull', 'Rear lunge', 'Extend and flex', 'Thigh stretch', 'Single-leg over'];
const recovery2020 = [...recovery2012, 'Groin stretch', 'Calf stretch', 'Hamstring stretch'];

/** @param {number} rotations */
function strengthCircuit(rotations) {
  const names = [
    'Sumo squat',
    'Straight-leg deadlift',
    'Forward lunge',
    '8-count step-up',
    'Pull-up',
    'Supine chest press',
    'Bent-over row',
    'Overhead push-press',
    'Supine body twist',
    'Leg tuck',
  ];
  const moves = movesOf('strength', names);
  const entries = moves.map((move) => entry(move, seconds(60), { changeoverSeconds: 15 }));
  const name = `strength-circuit-${rotations}`;
  return { [name]: file(name, [block('stations', entries, { rounds: rotations })], moves) };
}

/** Counts at a cadence: 50 a minute slow, 80 a minute moderate, four counts a repetition. @param {number} repetitions */
function preparationDrill(repetitions) {
  const names = [
    'Bend and reach',
    'Rear lunge',
    'High jumper',
    'Rower',
    'Squat bender',
    'Windmill',
    'Forward lunge',
    'Prone row',
    'Bent-leg body twist',
    'Push-up',
  ];
  const moderate = new Set(['High jumper', 'Push-up']);
  const moves = movesOf('drill', names);
  const entries = moves.map((move) => {
    const secondsEach = (4 * 60) / (moderate.has(move.name) ? 80 : 50);
    return entry(move, { kind: 'count', count: repetitions, secondsEach });
  });
  const name = `preparation-drill-${repetitions}`;
  return { [name]: file(name, [block('drill', entries)], moves) };
}

/** @param {string} name @param {number} marchSeconds */
function warmUp(name, marchSeconds) {
  const moves = movesOf('warm', ['March', 'Heel digs', 'Knee lifts'], { part: 'warmUp', effort: 'light' });
  const doses = [
    seconds(marchSeconds),
    { kind: 'count', count: 60, secondsEach: 1 },
    { kind: 'count', count: 30, secondsEach: 1 },
  ];
  const entries = moves.map((move, at) => entry(move, /** @type {Dose} */ (doses[at])));
  return { [name]: file(name, [block('warm-up', entries, { part: 'warmUp', cueStyle: 'soft' })], moves) };
}

/** Name of the fixture without `.json` -> what stands in it. */
export const protocols = {
  ...bouts('bouts-20-10-by-8', 8, 20, 10),
  ...bouts('bouts-20-10-by-7', 7, 20, 10),
  ...bouts('bouts-20-10-by-6', 6, 20, 10),
  ...bouts('sprints-30-240-by-4', 4, 30, 240),
  ...bouts('sprints-30-240-by-5', 5, 30, 240),
  ...bouts('sprints-30-240-by-6', 6, 30, 240),
  ...bouts('sprints-30-240-by-7', 7, 30, 240),
  ...bouts('intervals-240-180-by-4', 4, 240, 180),
  ...bouts('bouts-30-210-by-10', 10, 30, 210),
  ...bouts('intervals-60-60-by-10', 10, 60, 60),
  ...bouts('intervals-60-75-by-8', 8, 60, 75),
  ...bouts('intervals-60-75-by-10', 10, 60, 75),
  ...bouts('intervals-60-75-by-12', 12, 60, 75),
  ...low20High10(3),
  ...low20High10(4),
  ...twelveStations(1),
  ...twelveStations(2),
  ...twelveStations(3),
  ...fixedCircuit('fixed-circuit-30-20-20', 20),
  ...fixedCircuit('fixed-circuit-30-30-30', 30),
  ...fixedCircuit('fixed-circuit-with-ends-5', 20, 300),
  ...fixedCircuit('fixed-circuit-with-ends-7', 20, 420),
  ...fourHolds('four-holds-per-exercise', false),
  ...fourHolds('four-holds-per-side', true),
  ...twoPositions('recovery-5-by-20', recovery2012, 20),
  ...twoPositions('recovery-5-by-30', recovery2012, 30),
  ...twoPositions('recovery-8-by-20', recovery2020, 20),
  ...twoPositions('recovery-8-by-30', recovery2020, 30),
  ...strengthCircuit(1),
  ...strengthCircuit(3),
  ...bouts('speed-running-30-60', 10, 30, 60),
  ...bouts('speed-running-60-120', 10, 60, 120),
  ...preparationDrill(5),
  ...preparationDrill(10),
  ...warmUp('warm-up-timed-part', 180),
  ...warmUp('warm-up-timed-part-older', 120),
};

/** The text of a fixture. @param {unknown} plan */
export const fixtureText = (plan) => `${JSON.stringify(plan, null, 2)}\n`;

async function main() {
  const folder = fileURLToPath(new URL('../fixtures/protocols/', import.meta.url));
  await mkdir(folder, { recursive: true });
  for (const [name, plan] of Object.entries(protocols)) await writeFile(`${folder}${name}.json`, fixtureText(plan));
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) await main();
