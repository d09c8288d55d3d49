import type { EntryId } from '../../src/plan/plan.ts';
import type { Span, SpanKind } from '../../src/running-order/span.ts';

/** A stretch still to run, or being run: how long it is as things stand, and how much of it ran. */
export type Piece = {
  id: number;
  kind: SpanKind;
  /** The stretch of the running order that it is, or that it counts in to. */
  paper: Span;
  plannedMs: number;
  ranMs: number;
  doneMs: number;
  isOpen: boolean;
};

type Ledger = { given: number; skipped: number; trimmed: number };

/** Kept at each change: "go back to where it stopped" starts from here and runs the ticks again. */
type Kept = {
  readonly clockMs: number;
  readonly runMs: number;
  readonly queue: readonly Piece[];
  readonly logged: number;
};

/**
 * A class as a queue of pieces with counters, moved by ticks. It has no starts, no ends and no arithmetic on instants:
 * the head of the queue runs until its counter is full. Everything about it is mutable, and none of it is the machine's.
 */
export type TickedClass = {
  readonly order: readonly Span[];
  readonly plannedMs: number;
  readonly tickMs: number;
  phase: 'ready' | 'live' | 'finished' | 'abandoned';
  stands: 'asked' | 'hurt' | 'gap' | null;
  stoodMs: number;
  standingForMs: number;
  clockMs: number;
  runMs: number;
  endedAtMs: number;
  queue: Piece[];
  log: Piece[];
  nextId: number;
  ledger: Ledger;
  dropped: Set<EntryId>;
  shown: Map<EntryId, number>;
  kept: Kept;
};

/** What anyone can see of a class at one instant. `left` is null while time does not run down. */
export type Sight = {
  readonly status: string;
  readonly id: number | null;
  readonly of: number | null;
  readonly kind: SpanKind | null;
  readonly side: string | null;
  readonly into: number | null;
  readonly left: number | null;
};

/** A class on paper, not begun. Every length must be a whole number of ticks. */
export function tickedClass(order: readonly Span[], tickMs: number): TickedClass {
  const uneven = order.find((span) => span.lengthMs % tickMs !== 0);
  if (uneven !== undefined) throw new Error(`tickedClass: span ${uneven.id} is no whole number of ticks`);
  return {
    order,
    plannedMs: order.reduce((sum, span) => sum + span.lengthMs, 0),
    tickMs,
    phase: 'ready',
    stands: null,
    stoodMs: 0,
    standingForMs: 0,
    clockMs: 0,
    runMs: 0,
    endedAtMs: 0,
    queue: order.map((paper) => pieceOf(paper.id, paper)),
    log: [],
    nextId: order.length,
    ledger: { given: 0, skipped: 0, trimmed: 0 },
    dropped: new Set(),
    shown: new Map(),
    kept: { clockMs: 0, runMs: 0, queue: [], logged: 0 },
  };
}

/** The whole of a stretch of the running order, under an id of its own. */
export function pieceOf(id: number, paper: Span): Piece {
  return { id, kind: paper.kind, paper, plannedMs: paper.lengthMs, ranMs: 0, doneMs: 0, isOpen: paper.open };
}

/** What is left of a piece; nothing of a wait that stands over its time. */
export function leftOf(piece: Piece): number {
  return Math.max(0, piece.plannedMs - piece.ranMs);
}

/** Ticks the class clock on to an instant. A class that is over stays over at the tick where it ended. */
export function tickTo(klass: TickedClass, atMs: number): void {
  while (klass.clockMs < atMs) {
    klass.clockMs += klass.tickMs;
    if (klass.phase !== 'live') continue;
    if (klass.stands === null) runTick(klass);
    else klass.standingForMs += klass.tickMs;
  }
  if (klass.clockMs !== atMs) throw new Error('tickTo: the instant lies between two ticks');
}

/** One tick of the run clock: the head of the queue takes it. */
export function runTick(klass: TickedClass): void {
  const head = klass.queue[0];
  if (head === undefined) throw new Error('runTick: a live class has something to run');
  head.ranMs += klass.tickMs;
  klass.runMs += klass.tickMs;
  if (head.isOpen || head.ranMs < head.plannedMs) return;
  closeHead(klass);
  endIfEmpty(klass);
}

/** Takes the head off the queue as long as it ran, and logs it. */
export function closeHead(klass: TickedClass): void {
  const head = klass.queue.shift();
  if (head === undefined) throw new Error('closeHead: nothing runs');
  head.plannedMs = head.ranMs;
  head.isOpen = false;
  if (head.ranMs > 0) klass.log.push(head);
}

/** With nothing left to run the class is over now, also while it stands. */
export function endIfEmpty(klass: TickedClass): void {
  if (klass.phase === 'live' && klass.queue.length === 0) end(klass, 'finished');
}

/** Ends the class now; the time it stood counts as stood. */
export function end(klass: TickedClass, phase: 'finished' | 'abandoned'): void {
  endStanding(klass);
  klass.phase = phase;
  klass.endedAtMs = klass.clockMs;
}

/** The class no longer stands, and the time it stood is lost. */
export function endStanding(klass: TickedClass): void {
  klass.stoodMs += klass.standingForMs;
  klass.standingForMs = 0;
  klass.stands = null;
}

/** Remembers the class as it is now: nothing before this can be taken back. */
export function keep(klass: TickedClass): void {
  klass.kept = {
    clockMs: klass.clockMs,
    runMs: klass.runMs,
    queue: klass.queue.map((piece) => ({ ...piece })),
    logged: klass.log.length,
  };
}

/** Runs the class again from what was kept up to the instant where it stopped; the time since was spent standing. */
export function runAgainTo(klass: TickedClass, stoppedAtMs: number): void {
  const { clockMs: nowMs, kept } = klass;
  klass.queue = kept.queue.map((piece) => ({ ...piece }));
  klass.log.length = kept.logged;
  klass.runMs = kept.runMs;
  klass.clockMs = kept.clockMs;
  tickTo(klass, stoppedAtMs);
  klass.stoodMs += nowMs - stoppedAtMs;
  klass.clockMs = nowMs;
}

/** The status a person reads. */
export function statusOf(klass: TickedClass): string {
  if (klass.phase !== 'live') return klass.phase;
  if (klass.stands !== null) return klass.stands === 'gap' ? 'asking' : 'paused';
  return klass.queue[0]?.kind === 'wait' ? 'waiting' : 'running';
}

/** What can be seen now. */
export function sightOf(klass: TickedClass): Sight {
  const head = klass.phase === 'live' ? klass.queue[0] : undefined;
  const status = statusOf(klass);
  if (head === undefined) return { status, id: null, of: null, kind: null, side: null, into: null, left: null };
  return {
    status,
    id: head.id,
    of: head.paper.id,
    kind: head.kind,
    side: head.paper.doing[0]?.side ?? null,
    into: head.ranMs,
    left: head.isOpen ? null : head.plannedMs - head.ranMs,
  };
}

/** When the class will be over if nothing more is asked; an open wait counts as long as planned, or as it has lasted. */
export function finishOf(klass: TickedClass): number {
  if (klass.phase === 'finished' || klass.phase === 'abandoned') return klass.endedAtMs;
  return klass.clockMs + klass.queue.reduce((sum, piece) => sum + leftOf(piece), 0);
}
