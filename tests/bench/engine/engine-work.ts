import type { Asked, Mark } from '../../../src/class-run/marks.ts';
import { positionAt } from '../../../src/class-run/position.ts';
import { readyState, replay } from '../../../src/class-run/replay.ts';
import { step } from '../../../src/class-run/step.ts';
import type { MoveLibrary } from '../../../src/moves/move.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import { compile } from '../../../src/running-order/compile.ts';
import { aBlock, anEntry, aPlan, SMALL_LIBRARY } from '../../builders/small-plan.ts';

/** What a phone works out: a long plan, and the marks of a class in which someone presses all the time. */
export const SPANS = 1000;
export const MARKS = 5000;

const WARM_UP_RUNS = 40;
const RUNS = 41;

/** Ms of each run, after as many that do not count. */
export type EngineTimes = { readonly compileMs: readonly number[]; readonly replayMs: readonly number[] };

/** 25 entries in 20 rounds, each with its changeover: as many entries as a course brings together, within what a plan file may hold. */
function longPlan(): Plan {
  const ids = ['a', 'low', 'b', 'jump', 'band'];
  const entries = Array.from({ length: 25 }, (_, at) => {
    const id = ids[at % ids.length] ?? 'a';
    return anEntry(id, { id: `entry-${at}`, changeoverSeconds: 5 });
  });
  return aPlan([aBlock(entries, { rounds: 20 })]);
}

/** What is asked, over and over; with one press in eight a pause that ends in a count-in, which grows the live list. */
const ASKED: readonly ((span: number) => Asked)[] = [
  (span) => ({ kind: 'give', span, byMs: 10_000 }),
  () => ({ kind: 'pause', cause: 'asked' }),
  () => ({ kind: 'carryOn', countInMs: 5000 }),
  () => ({ kind: 'show', entryId: 'entry-0', level: 1 }),
  (span) => ({ kind: 'give', span, byMs: 10_000 }),
  () => ({ kind: 'show', entryId: 'entry-0', level: 0 }),
  (span) => ({ kind: 'nextMove', span }),
  (span) => ({ kind: 'goBackOne', span, countInMs: 0 }),
];

/** A class with at least so many marks; throws where the presses are refused and it does not come to them. */
function pressedMarks(plan: Plan, library: MoveLibrary): readonly Mark[] {
  const seen = { monoMs: 0, wallMs: 0, life: 1 };
  let { state, marks } = step(readyState(compile(plan, library)), { kind: 'start', atMs: 0, seen });
  for (let press = 0; marks.length < MARKS && press < 4 * MARKS; press += 1) {
    const atMs = (press + 1) * 900;
    const span = positionAt(state, atMs).span?.id ?? -1;
    const done = step(state, { ...(ASKED[press % ASKED.length]?.(span) ?? { kind: 'look' }), atMs, seen });
    state = done.state;
    marks = [...marks, ...done.marks];
  }
  if (marks.length < MARKS) throw new Error(`only ${marks.length} marks came together`);
  return marks.slice(0, MARKS);
}

function timesOf(work: () => boolean, now: () => number): readonly number[] {
  const times = Array.from({ length: WARM_UP_RUNS + RUNS }, () => {
    const fromMs = now();
    const isGood = work();
    const tookMs = now() - fromMs;
    if (!isGood) throw new Error('the work came to another result than it should');
    return tookMs;
  });
  return times.slice(WARM_UP_RUNS);
}

function hasAll(replayed: ReturnType<typeof replay>): boolean {
  return replayed.ok && replayed.state.nextSeq === MARKS && replayed.state.live.length > SPANS;
}

/** Does the work and times it by `now`, ms. Throws where the work was not what it is said to be. */
export function timeEngine(now: () => number): EngineTimes {
  const plan = longPlan();
  const order = compile(plan, SMALL_LIBRARY);
  const marks = pressedMarks(plan, SMALL_LIBRARY);
  return {
    compileMs: timesOf(() => compile(plan, SMALL_LIBRARY).spans.length === SPANS, now),
    replayMs: timesOf(() => hasAll(replay(order, marks)), now),
  };
}
