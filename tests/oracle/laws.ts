import type { ClassState } from '../../src/class-run/class-state.ts';
import type { Asked, Mark } from '../../src/class-run/marks.ts';
import type { RunningOrder } from '../../src/running-order/span.ts';
import { agree, holds } from './agree.ts';
import type { Machine } from './machine.ts';
import { finishOf, statusOf, type TickedClass } from './ticked-class.ts';

const LONG_MS = 36_000_000;
const SEEN = { monoMs: 0, wallMs: 0, life: 1 };

/** R1 to R3, and the sum. */
export function checkOrder(order: RunningOrder): void {
  let sum = 0;
  for (const [at, span] of order.spans.entries()) {
    sum += span.lengthMs;
    holds('R1 ids are 0..n-1 in order', span.id === at && span.of === at && span.doneMs === 0);
    holds('R2 every length is whole and above 0', Number.isSafeInteger(span.lengthMs) && span.lengthMs > 0);
    if (span.pair === null) continue;
    const other = order.spans[span.pair];
    holds('R3 both of a pair are equally long', other?.lengthMs === span.lengthMs && other.pair === at);
  }
  holds('the planned length is the sum of the spans', order.plannedMs === sum);
}

/** J1, J2 and the lists that a state derives from its live spans, each against the oracle's own books. */
export function checkBooks(state: ClassState, klass: TickedClass): void {
  const { books } = state;
  const starts: number[] = [];
  const sum = state.live.reduce((sumMs, span) => {
    starts.push(sumMs);
    return sumMs + span.lengthMs;
  }, 0);
  const { given, skipped, trimmed } = klass.ledger;
  agree('the books', books, {
    plannedMs: klass.plannedMs,
    givenMs: given,
    skippedMs: skipped,
    trimmedMs: trimmed,
  });
  agree('J1 live = planned + given - skipped - trimmed', sum, klass.plannedMs + given - skipped - trimmed);
  agree('the live spans lie end to end', [state.startsMs, state.endMs], [starts, sum]);
  agree(
    'the first open span',
    state.firstOpen,
    state.live.findIndex((span) => span.open),
  );
  agree('the time paused', state.pausedMs, klass.stoodMs);
  checkFinish(state, klass);
}

function checkFinish(state: ClassState, klass: TickedClass): void {
  const { phase } = state;
  if (phase.kind === 'finished') {
    agree('J2 the finish is actual', [phase.atMs, state.endMs + state.pausedMs], [klass.endedAtMs, klass.endedAtMs]);
  }
  if (phase.kind === 'abandoned') agree('the instant of abandoning', phase.atMs, klass.endedAtMs);
  if (phase.kind !== 'live' || phase.standing !== null || state.firstOpen !== -1) return;
  agree('J2 finish = live + paused', state.endMs + state.pausedMs, finishOf(klass));
}

/** The live list against what the oracle ran and has still to run; spans cut to nothing are no difference. */
export function checkLive(state: ClassState, order: RunningOrder, klass: TickedClass): void {
  const live = state.live
    .filter((span) => span.lengthMs > 0 || span.open)
    .map((span) => [span.id, span.of, span.kind, span.lengthMs, span.doneMs, span.open]);
  const pieces = [...klass.log, ...klass.queue].map((piece) => {
    return [piece.id, piece.paper.id, piece.kind, piece.plannedMs, piece.doneMs, piece.isOpen];
  });
  agree('the live list', live, pieces);
  for (const span of state.live) {
    const paper = order.spans[span.of];
    const pair = span.kind === 'countIn' ? null : paper?.pair;
    agree('what a live span keeps of its paper', [...placeOf(span), span.pair], [...placeOf(paper), pair]);
  }
  agree('dropped', new Set(state.dropped), klass.dropped);
  agree('shown', Object.entries(state.shown).toSorted(), [...klass.shown].toSorted());
}

function placeOf(span: RunningOrder['spans'][number] | undefined): readonly unknown[] {
  return [span?.blockId, span?.round, span?.entryId, span?.doing, span?.cueStyle, span?.gives];
}

/** J3: what ran of each span before `runMs` is what it was. */
export function checkPast(before: ClassState, after: ClassState, runMs: number): void {
  agree('J3 what was run stays run', ranUntil(after, runMs), ranUntil(before, runMs));
}

function ranUntil(state: ClassState, runMs: number): readonly (readonly [number, number])[] {
  const ran: [number, number][] = [];
  let startMs = 0;
  for (const span of state.live) {
    const ranMs = span.open ? runMs - startMs : Math.min(span.lengthMs, runMs - startMs);
    if (ranMs <= 0 && startMs >= runMs) break;
    if (ranMs > 0) ran.push([span.id, ranMs]);
    if (span.open) break;
    startMs += span.lengthMs;
  }
  return ran;
}

/** J4: every prefix of the marks, through JSON, gives the state that was live after it. */
export function checkPrefixes(
  machine: Machine,
  order: RunningOrder,
  marks: readonly Mark[],
  lived: ReadonlyMap<number, ClassState>,
): void {
  const stored = throughJson(marks);
  for (let count = 0; count <= stored.length; count += 1) {
    const again = machine.replay(order, stored.slice(0, count));
    holds(`J4 the first ${count} marks can be replayed`, again.ok);
    const state = lived.get(count);
    if (again.ok && state !== undefined) agree(`J4 replay of ${count} marks`, again.state, state);
  }
}

/** What storage makes of a value. */
export function throughJson<T>(value: T): T {
  return JSON.parse(JSON.stringify(value));
}

/** J5: over is derived; a look ten hours late finds that the class finished on time. */
export function checkEnd(machine: Machine, state: ClassState, nowMs: number): void {
  if (state.phase.kind !== 'live' || state.phase.standing !== null || state.firstOpen !== -1) return;
  const finishMs = state.endMs + state.pausedMs;
  if (finishMs > nowMs) {
    holds('J5 not over a millisecond before the end', machine.positionAt(state, finishMs - 1).status !== 'finished');
  }
  agree('J5 over at the end', machine.positionAt(state, finishMs).status, 'finished');
  const late = machine.step(state, { kind: 'look', atMs: finishMs + LONG_MS, seen: SEEN });
  agree('J5 late looks move nothing', [late.refused, late.state.phase], [null, { kind: 'finished', atMs: finishMs }]);
}

const WAYS_ON: Readonly<Record<string, readonly Asked[]>> = {
  ready: [{ kind: 'start' }, { kind: 'abandon' }],
  running: [{ kind: 'pause', cause: 'asked' }, { kind: 'abandon' }],
  paused: [{ kind: 'carryOn', countInMs: 0 }, { kind: 'abandon' }],
  waiting: [
    { kind: 'carryOn', countInMs: 0 },
    { kind: 'pause', cause: 'hurt' },
  ],
  asking: [{ kind: 'carryOn', countInMs: 0 }, { kind: 'ranOn' }],
};

/** J6: no dead end; whatever the status, its ways on are taken. */
export function checkWaysOn(machine: Machine, state: ClassState, klass: TickedClass): void {
  for (const asked of WAYS_ON[statusOf(klass)] ?? []) {
    const { refused, marks } = machine.step(state, { ...asked, atMs: klass.clockMs, seen: SEEN });
    holds(`J6 ${asked.kind} is taken while ${statusOf(klass)}`, refused === null && marks.length > 0);
  }
}
