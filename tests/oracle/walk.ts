import type { ClassState } from '../../src/class-run/class-state.ts';
import type { Asked, Mark } from '../../src/class-run/marks.ts';
import type { Plan } from '../../src/plan/plan.ts';
import type { RunningOrder } from '../../src/running-order/span.ts';
import { SMALL_LIBRARY } from '../builders/small-plan.ts';
import { agree, holds } from './agree.ts';
import { type AnyClass, type Press, planOf } from './any-class.ts';
import { checkBent } from './bent-marks.ts';
import { checkCues } from './ears.ts';
import {
  checkBooks,
  checkEnd,
  checkLive,
  checkOrder,
  checkPast,
  checkPrefixes,
  checkWaysOn,
  throughJson,
} from './laws.ts';
import type { Machine } from './machine.ts';
import { paperOrder } from './paper-order.ts';
import { ask } from './ticked-asks.ts';
import { finishOf, leftOf, sightOf, statusOf, type TickedClass, tickedClass, tickTo } from './ticked-class.ts';

/** A machine and the oracle side by side, and what the machine wrote down so far. */
type Walker = {
  readonly machine: Machine;
  readonly plan: Plan;
  readonly order: RunningOrder;
  readonly klass: TickedClass;
  state: ClassState;
  marks: Mark[];
  /** The live state after so many marks. */
  readonly lived: Map<number, ClassState>;
  /** Ids of the spans that were current, for late presses. */
  seenIds: number[];
  shownRunMs: number;
};

/**
 * Walks one class through one machine with the oracle beside it, and throws at the first thing they do not agree on or
 * the first law that is broken. The walker is a conductor: it lifts presses to its last look.
 */
export function walk(machine: Machine, any: AnyClass): void {
  const walker = walkerOf(machine, any);
  for (const press of any.before) doPress(walker, { ...press, from: 'now', after: 0, late: 0 });
  act(walker, { kind: 'start' }, 0);
  for (const press of any.presses) doPress(walker, press);
  runOut(walker);
  checkPrefixes(machine, walker.order, walker.marks, walker.lived);
  checkBent(machine, walker.order, walker.marks, any.bend);
}

function walkerOf(machine: Machine, any: AnyClass): Walker {
  const plan = planOf(any);
  // As kept: the running order is read back from its record, never compiled again.
  const order = throughJson(machine.compile(plan, SMALL_LIBRARY));
  const paper = paperOrder(plan, SMALL_LIBRARY);
  agree('the running order', order.spans, paper);
  checkOrder(order);
  const ready = machine.replay(order, []);
  if (!ready.ok) throw new Error('broken: a class without marks is ready');
  const klass = tickedClass(throughJson(paper), any.tickMs);
  const lived = new Map([[0, ready.state]]);
  const walker: Walker = {
    machine,
    plan,
    order,
    klass,
    state: ready.state,
    marks: [],
    lived,
    seenIds: [],
    shownRunMs: 0,
  };
  look(walker);
  return walker;
}

/** The class is looked at: machine and oracle must show the same, and never less than was shown before. */
function look({ machine, state, klass, ...walker }: Walker): number {
  const at = machine.positionAt(state, klass.clockMs);
  const sight = sightOf(klass);
  const { span } = at;
  agree('the look', [at.status, span?.id ?? null], [sight.status, sight.id]);
  if (klass.phase !== 'ready') agree('when it ends', machine.finishAt(state, klass.clockMs), finishOf(klass));
  if (sight.id === null) {
    const isEnded = state.phase.kind === 'finished' || state.phase.kind === 'abandoned';
    if (isEnded) agree('the run clock stands at the end', at.runMs, klass.runMs);
    return walker.shownRunMs;
  }
  agree('the span looked at', [span?.of, span?.kind, span?.doing[0]?.side ?? null], [sight.of, sight.kind, sight.side]);
  agree('the time into it', at.intoMs, sight.into);
  if (sight.left !== null) agree('the time left', at.leftMs, sight.left);
  agree('the run clock', at.runMs, klass.runMs);
  agree('the index', state.live[at.index]?.id, sight.id);
  holds('what was shown is never un-shown', at.runMs >= walker.shownRunMs);
  return at.runMs;
}

/** Moves the class clock on, looking on the way and at the end. */
function advance(walker: Walker, toMs: number): void {
  const { klass } = walker;
  const half = klass.clockMs + Math.floor((toMs - klass.clockMs) / klass.tickMs / 2) * klass.tickMs;
  for (const atMs of [half, toMs]) {
    tickTo(klass, atMs);
    walker.shownRunMs = look(walker);
  }
}

/** Asks both, at an instant that may be dated back before the last look, and checks all that there is to check. */
function act(walker: Walker, asked: Asked, lateMs: number): void {
  const { machine, klass, state } = walker;
  const head = klass.queue[0];
  if (head !== undefined && walker.seenIds.at(-1) !== head.id) walker.seenIds.push(head.id);
  // The machine lifts to its last mark; lifting to a look that wrote none is the conductor's.
  const atMs = state.lastMs === klass.clockMs ? Math.max(0, klass.clockMs - lateMs) : klass.clockMs;
  const owed = klass.phase === 'finished' && state.phase.kind === 'live' ? ['finished'] : [];
  const seen = { monoMs: walker.marks.length, wallMs: 1_700_000_000_000 + atMs, life: 1 };
  const next = machine.step(freeze(state), { ...asked, atMs, seen });
  const ruling = ask(klass, asked);
  const expected = 'marks' in ruling ? [...owed, ...ruling.marks] : owed;
  agree(`marks of ${asked.kind}`, next.marks.map(wordOf), expected);
  if ('refused' in ruling) {
    holds(`${asked.kind} refused ${next.refused}, not ${ruling.refused}`, ruling.refused.includes(next.refused ?? ''));
    if (owed.length === 0) agree('refused, nothing changes', next.state, state);
  } else agree(`refusal of ${asked.kind}`, next.refused, null);
  checkMarks(walker, next.marks);
  take(walker, next.state, next.marks, asked.kind === 'goBackToStop' && next.refused === null);
}

function wordOf(mark: Mark): string {
  return mark.kind === 'changed' ? `changed ${mark.why}` : mark.kind;
}

/** M1 and M2, and that each mark is dated with the instant at which it was true. */
function checkMarks({ marks, klass }: Walker, added: readonly Mark[]): void {
  let lastMs = marks.at(-1)?.atMs ?? 0;
  for (const [at, mark] of added.entries()) {
    holds('M1 seq is dense from 0', mark.seq === marks.length + at);
    holds('M2 instants never fall and are whole', Number.isSafeInteger(mark.atMs) && mark.atMs >= lastMs);
    const isPastEnd = klass.phase === 'finished' && (mark.kind === 'finished' || mark.kind === 'ranOn');
    agree(`the instant of ${mark.kind}`, mark.atMs, isPastEnd ? Math.max(lastMs, klass.endedAtMs) : klass.clockMs);
    lastMs = mark.atMs;
  }
}

function take(walker: Walker, state: ClassState, marks: readonly Mark[], isBack: boolean): void {
  const { machine, klass, order } = walker;
  const before = walker.state;
  walker.marks.push(...marks);
  walker.state = state;
  walker.lived.set(walker.marks.length, state);
  if (isBack) walker.shownRunMs = klass.runMs;
  walker.shownRunMs = look(walker);
  if (klass.phase === 'live') checkPast(before, state, klass.runMs);
  checkBooks(state, klass);
  checkLive(state, order, klass);
  checkEnd(machine, state, klass.clockMs);
  checkWaysOn(machine, state, klass);
}

function freeze(state: ClassState): ClassState {
  for (const part of [state, state.live, state.startsMs, state.books, state.phase, state.dropped, state.shown]) {
    Object.freeze(part);
  }
  return state;
}

function instantOf({ klass }: Walker, { from, after }: Press): number {
  const head = klass.queue[0];
  const isEndKnown = from === 'end' && statusOf(klass) === 'running' && head !== undefined;
  const ticks = (isEndKnown ? leftOf(head) / klass.tickMs : 0) + after;
  return klass.clockMs + Math.max(0, ticks) * klass.tickMs;
}

function doPress(walker: Walker, press: Press): void {
  const { klass } = walker;
  if (klass.phase !== 'ready') advance(walker, instantOf(walker, press));
  const lateMs = press.late * klass.tickMs;
  if (press.deed === 'crash') crash(walker, press);
  else act(walker, askedOf(walker, press), lateMs);
  if (press.n % 8 === 0) hear(walker, press);
}

const COUNT_INS_MS = [0, 5000, 10_000, 3000];

function askedOf(walker: Walker, press: Press): Asked {
  const { klass } = walker;
  const { n } = press;
  const span = spanSeen(walker, press);
  const countInMs = COUNT_INS_MS[n % COUNT_INS_MS.length] ?? 0;
  switch (press.deed) {
    case 'pause':
    case 'hurt':
      return { kind: 'pause', cause: press.deed === 'hurt' ? 'hurt' : 'asked' };
    case 'carryOn':
      return { kind: 'carryOn', countInMs };
    case 'next':
      return { kind: 'nextMove', span };
    case 'back':
      return { kind: 'goBackOne', span, countInMs };
    case 'give':
      return { kind: 'give', span, byMs: n % 3 === 2 ? 15_000 : 10_000 };
    case 'drop':
      return { kind: 'drop', entryId: entrySeen(walker, n) };
    case 'trim':
      return { kind: 'trimTo', finishAtMs: finishOf(klass) - n * 11_000, order: trimOrder(walker, n) };
    case 'show':
      return { kind: 'show', entryId: entrySeen(walker, n), level: (n % 4) - 1 };
    default:
      return plainAsk(walker, press);
  }
}

function plainAsk({ klass }: Walker, { deed, n }: Press): Asked {
  const { clockMs, tickMs } = klass;
  if (deed === 'away') return { kind: 'noteAway', byMs: n * tickMs };
  if (deed === 'wallMoved') return { kind: 'noteWallMoved', byMs: (n - 15) * 60_000 };
  if (deed === 'gap') return { kind: 'askAboutGap', gapMs: n === 0 ? -5000 : 600_000 + n };
  if (deed === 'ranOn' || deed === 'abandon' || deed === 'finishEarly' || deed === 'start') return { kind: deed };
  if (deed === 'toStop') return { kind: 'goBackToStop', stoppedAtMs: Math.max(0, clockMs - (n - 2) * tickMs * 2) };
  return { kind: 'look' };
}

/** The span that the person saw: the current one, or for a stale press an earlier, a coming or an unknown one. */
function spanSeen({ klass, seenIds }: Walker, { isStale, n }: Press): number {
  const now = klass.queue[0]?.id ?? 0;
  if (!isStale) return now;
  return [seenIds.at(-2) ?? now + 1, now + 1, -1, klass.nextId][n % 4] ?? now;
}

function entrySeen({ klass, plan }: Walker, n: number): string {
  if (n === 30) return 'nobody';
  const ids = [...new Set(klass.order.flatMap((span) => span.entryId ?? []))];
  const current = klass.queue[0]?.paper.entryId;
  return (n % 3 === 0 ? current : undefined) ?? ids[n % ids.length] ?? plan.id;
}

function trimOrder({ klass }: Walker, n: number): readonly string[] {
  const ids = [...new Set(klass.order.flatMap((span) => span.entryId ?? []))];
  const turned = [...ids.slice(n % ids.length), ...ids.slice(0, n % ids.length)].toReversed();
  return n % 5 === 0 ? ['nobody', ...turned] : turned;
}

/** The page is lost and comes back from its marks; the gap is run on, gone back over, or asked about with either answer. */
function crash(walker: Walker, { n }: Press): void {
  const { klass, machine } = walker;
  const again = machine.replay(walker.order, throughJson(walker.marks));
  if (!again.ok) throw new Error(`broken: a class must come back from its marks, bent at ${again.seq}`);
  agree('J4 what comes back is what was', again.state, walker.state);
  walker.state = again.state;
  if (klass.phase === 'ready') return;
  const stoppedAtMs = klass.clockMs;
  const gapMs = (n + 1) * 4 * klass.tickMs;
  if (n % 4 < 2) {
    advance(walker, stoppedAtMs + gapMs);
    act(walker, { kind: 'noteAway', byMs: gapMs }, 0);
    if (n % 4 === 1) act(walker, { kind: 'goBackToStop', stoppedAtMs }, 0);
    return;
  }
  act(walker, { kind: 'askAboutGap', gapMs: 600_000 + gapMs }, 0);
  advance(walker, stoppedAtMs + gapMs);
  act(walker, n % 4 === 2 ? { kind: 'carryOn', countInMs: 5000 } : { kind: 'ranOn' }, 0);
}

function hear({ machine, state, klass }: Walker, { n }: Press): void {
  const stepMs = 1 + ((n * 7919) % 17_389);
  const cuts = Array.from({ length: 40 }, (_, at) => (at + 1) * stepMs);
  checkCues(machine, state, SMALL_LIBRARY, [...cuts, klass.runMs, klass.runMs]);
}

/** Whatever was done to it, every class can be brought to its end, and is then finished on time. */
function runOut(walker: Walker): void {
  const { klass } = walker;
  for (let turn = 0; klass.phase === 'live'; turn += 1) {
    holds('J6 a class comes to its end', turn <= klass.order.length * 50 + 1000);
    if (statusOf(klass) === 'paused' || statusOf(klass) === 'asking' || klass.queue[0]?.isOpen) {
      act(walker, { kind: 'carryOn', countInMs: 0 }, 0);
    } else
      advance(
        walker,
        klass.clockMs + klass.queue.reduce((sum, piece) => (piece.isOpen ? sum : sum + leftOf(piece)), 0),
      );
    if (klass.phase === 'live' && statusOf(klass) !== 'waiting' && klass.queue.every((piece) => !piece.isOpen)) {
      advance(walker, finishOf(klass));
    }
  }
  act(walker, { kind: 'look' }, 0);
  agree('every end is an end', ['finished', 'abandoned'].includes(walker.state.phase.kind), true);
}
