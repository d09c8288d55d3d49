import type { Span } from '../running-order/span.ts';
import type { ClassState, Status } from './class-state.ts';

/**
 * Where a class is. `index` and `span` are -1 and null before the start, once over, and after the end. `leftMs` is the
 * rest of the span as the live list has it; in an open span that has run past its plan it is 0.
 */
export type ClassPosition = {
  readonly status: Status;
  readonly runMs: number;
  readonly index: number;
  readonly span: Span | null;
  readonly intoMs: number;
  readonly leftMs: number;
};

/** The run clock at a class instant, whole ms; stands still while the class stands. */
export function runAt(state: ClassState, atMs: number): number {
  const { phase } = state;
  if (phase.kind === 'ready') return 0;
  const untilMs = phase.kind === 'live' ? (phase.standing?.sinceMs ?? atMs) : phase.atMs;
  return Math.max(0, untilMs - state.pausedMs);
}

/** True once nothing is left to run at `atMs`: derived, so a phone that slept past the end finished on time. */
export function isOver(state: ClassState, atMs: number): boolean {
  if (state.phase.kind !== 'live' || state.phase.standing !== null || state.firstOpen !== -1) return false;
  return runAt(state, atMs) >= state.endMs;
}

/** The class position at `atMs`. Derived every time, never counted: call it as often as you like. */
export function positionAt(state: ClassState, atMs: number): ClassPosition {
  const runMs = runAt(state, atMs);
  const status = statusAt(state, atMs);
  const ended = status === 'ready' || status === 'finished' || status === 'abandoned';
  const index = ended ? -1 : indexAt(state, runMs);
  const span = state.live[index] ?? null;
  if (span === null) return { status, runMs, index: -1, span: null, intoMs: 0, leftMs: 0 };
  const intoMs = runMs - (state.startsMs[index] ?? 0);
  const isWaiting = status === 'running' && span.kind === 'wait';
  return {
    status: isWaiting ? 'waiting' : status,
    runMs,
    index,
    span,
    intoMs,
    leftMs: Math.max(0, span.lengthMs - intoMs),
  };
}

function statusAt(state: ClassState, atMs: number): Status {
  const { phase } = state;
  if (phase.kind !== 'live') return phase.kind;
  if (isOver(state, atMs)) return 'finished';
  if (phase.standing === null) return 'running';
  return phase.standing.cause === 'gap' ? 'asking' : 'paused';
}

/** Index of the live span that covers a run instant: the last one that starts at or before it and has not ended; -1 past the end. */
function indexAt(state: ClassState, runMs: number): number {
  const { live, startsMs, firstOpen } = state;
  let low = 0;
  let high = live.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((startsMs[middle] ?? 0) <= runMs) low = middle;
    else high = middle - 1;
  }
  // An open span covers all that follows; nothing after it has begun before it is closed.
  if (firstOpen !== -1 && low >= firstOpen && (startsMs[firstOpen] ?? 0) <= runMs) return firstOpen;
  const span = live[low];
  if (span === undefined || runMs >= (startsMs[low] ?? 0) + span.lengthMs) return -1;
  return low;
}

/** Class time at which the class ends as things stand at `atMs`: planned ends of open spans, or now where they have passed. */
export function finishAt(state: ClassState, atMs: number): number {
  const { phase } = state;
  if (phase.kind === 'finished' || phase.kind === 'abandoned') return phase.atMs;
  const standingMs = phase.kind === 'live' && phase.standing !== null ? atMs - phase.standing.sinceMs : 0;
  return state.endMs + state.pausedMs + standingMs + overstayMs(state, runAt(state, atMs));
}

/** How far an open span has run past its plan. */
function overstayMs(state: ClassState, runMs: number): number {
  const span = state.live[state.firstOpen];
  if (span === undefined) return 0;
  return Math.max(0, runMs - (state.startsMs[state.firstOpen] ?? 0) - span.lengthMs);
}
