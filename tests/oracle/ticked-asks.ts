import type { Asked } from '../../src/class-run/marks.ts';
import type { EntryId } from '../../src/plan/plan.ts';
import type { Span, SpanKind } from '../../src/running-order/span.ts';
import {
  closeHead,
  end,
  endIfEmpty,
  endStanding,
  finishOf,
  keep,
  leftOf,
  type Piece,
  pieceOf,
  runAgainTo,
  runTick,
  statusOf,
  type TickedClass,
} from './ticked-class.ts';

/**
 * What the oracle says of one intent: the marks that must be written, as words, or the refusals that may be given (more
 * than one where two reasons hold and the rules name no order).
 */
export type Ruling = { readonly marks: readonly string[] } | { readonly refused: readonly string[] };

const NOT_NOW: Ruling = { refused: ['notNow'] };
const LEAD_INS: ReadonlySet<SpanKind> = new Set(['countIn', 'changeover', 'breather']);

/** Does what was asked, at the instant to which the class has been ticked. A refused intent changes nothing. */
export function ask(klass: TickedClass, asked: Asked): Ruling {
  if (klass.phase === 'ready') return askReady(klass, asked);
  if (klass.phase !== 'live') return asked.kind === 'look' ? { marks: [] } : NOT_NOW;
  const ruling = askLive(klass, asked);
  if ('refused' in ruling) return ruling;
  endIfEmpty(klass);
  if (ruling.marks.some(movesTheRun)) keep(klass);
  const isOver = klass.phase !== 'live' && !ruling.marks.includes('abandoned');
  return isOver ? { marks: [...ruling.marks, 'finished'] } : ruling;
}

function movesTheRun(mark: string): boolean {
  return /^(changed|paused|carriedOn|stood|ranOn)/.test(mark);
}

function askReady(klass: TickedClass, asked: Asked): Ruling {
  if (asked.kind === 'look') return { marks: [] };
  if (asked.kind === 'abandon') {
    end(klass, 'abandoned');
    return { marks: ['abandoned'] };
  }
  if (asked.kind !== 'start') return NOT_NOW;
  klass.phase = 'live';
  keep(klass);
  return { marks: ['started'] };
}

function askLive(klass: TickedClass, asked: Asked): Ruling {
  switch (asked.kind) {
    case 'start':
      return NOT_NOW;
    case 'look':
      return { marks: [] };
    case 'noteAway':
      return { marks: ['away'] };
    case 'noteWallMoved':
      return { marks: ['wallMoved'] };
    case 'show':
      return show(klass, asked.entryId, asked.level);
    case 'abandon':
      end(klass, 'abandoned');
      return { marks: ['abandoned'] };
    case 'finishEarly':
      return finishEarly(klass);
    case 'pause':
    case 'carryOn':
    case 'askAboutGap':
    case 'ranOn':
    case 'goBackToStop':
      return askStanding(klass, asked);
    default:
      return askChange(klass, asked);
  }
}

function askStanding(
  klass: TickedClass,
  asked: Extract<Asked, { kind: 'pause' | 'carryOn' | 'askAboutGap' | 'ranOn' | 'goBackToStop' }>,
): Ruling {
  if (asked.kind === 'pause') return pause(klass, asked.cause);
  if (asked.kind === 'carryOn') return carryOn(klass, asked.countInMs);
  if (asked.kind === 'goBackToStop') return goBackToStop(klass, asked.stoppedAtMs);
  if (asked.kind === 'ranOn') return ranOn(klass);
  // At a gate the class stands anyway; a wait that goes on by itself moves by the clock like all else.
  const isAtGate = klass.queue[0]?.kind === 'wait' && klass.queue[0].isOpen;
  if (klass.phase !== 'live' || klass.stands !== null || isAtGate) return NOT_NOW;
  klass.stands = 'gap';
  return { marks: ['asked'] };
}

function askChange(
  klass: TickedClass,
  asked: Extract<Asked, { kind: 'nextMove' | 'goBackOne' | 'give' | 'drop' | 'trimTo' }>,
): Ruling {
  if (asked.kind !== 'drop' && asked.kind !== 'trimTo') return askSeen(klass, asked);
  if (statusOf(klass) === 'asking') return NOT_NOW;
  return asked.kind === 'drop' ? drop(klass, asked.entryId) : trimTo(klass, asked.finishAtMs, asked.order);
}

/** Presses that carry the span the person saw. */
function askSeen(klass: TickedClass, asked: Extract<Asked, { kind: 'nextMove' | 'goBackOne' | 'give' }>): Ruling {
  const head = headOf(klass);
  const reasons: string[] = [];
  if (asked.span !== head.id) reasons.push('movedOn');
  if (statusOf(klass) === 'asking' || (asked.kind === 'give' && head.kind !== 'work')) reasons.push('notNow');
  if (reasons.length > 0) return { refused: reasons };
  if (asked.kind === 'nextMove') return nextMove(klass);
  return asked.kind === 'give' ? give(klass, asked.byMs) : goBackOne(klass, asked.countInMs);
}

function headOf(klass: TickedClass): Piece {
  const head = klass.queue[0];
  if (head === undefined) throw new Error('headOf: a live class has something to run');
  return head;
}

function isSame(one: Span, other: Span): boolean {
  return (
    one.entryId !== null && one.entryId === other.entryId && one.blockId === other.blockId && one.round === other.round
  );
}

/** Takes out of the queue what does not pass, from place `from` on, and says how much time went. */
function takeOut(klass: TickedClass, from: number, goes: (piece: Piece) => boolean): number {
  const gone = klass.queue.filter((piece, at) => at >= from && goes(piece));
  klass.queue = klass.queue.filter((piece) => !gone.includes(piece));
  return gone.reduce((sum, piece) => sum + piece.plannedMs, 0);
}

/** How many pieces after the head pass, one after the other without a gap. */
function follow(klass: TickedClass, passes: (piece: Piece) => boolean): readonly Piece[] {
  const at = klass.queue.findIndex((piece, place) => place > 0 && !passes(piece));
  return klass.queue.slice(1, at === -1 ? undefined : at);
}

/** Ends the head here: what was left of it is skipped, what it lasted beyond its time (an open wait) was given. */
function cutHead(klass: TickedClass): void {
  const head = headOf(klass);
  if (head.ranMs > head.plannedMs) klass.ledger.given += head.ranMs - head.plannedMs;
  else klass.ledger.skipped += head.plannedMs - head.ranMs;
  closeHead(klass);
}

function pause(klass: TickedClass, cause: 'asked' | 'hurt'): Ruling {
  if (klass.stands !== null && !(klass.stands === 'asked' && cause === 'hurt')) return NOT_NOW;
  klass.stands = cause;
  return { marks: ['paused'] };
}

function carryOn(klass: TickedClass, countInMs: number): Ruling {
  if (klass.stands === null) return statusOf(klass) === 'waiting' ? leaveWait(klass, countInMs) : NOT_NOW;
  endStanding(klass);
  return { marks: ['carriedOn', ...(countIn(klass, countInMs) ? ['changed countIn'] : [])] };
}

/** Counts in where the class stood: before the rest of a work, or by making what leads on long enough. */
function countIn(klass: TickedClass, countInMs: number): boolean {
  const head = headOf(klass);
  if (countInMs === 0 || head.kind === 'wait' || head.isOpen) return false;
  if (head.kind !== 'work') {
    const shortMs = countInMs - leftOf(head);
    if (shortMs <= 0) return false;
    head.plannedMs += shortMs;
    klass.ledger.given += shortMs;
    return true;
  }
  const before = countInPiece(klass, head.paper, countInMs);
  const rest = { ...head, id: takeId(klass), plannedMs: leftOf(head), ranMs: 0, doneMs: head.doneMs + head.ranMs };
  closeHead(klass);
  klass.queue.unshift(before, rest);
  return true;
}

function countInPiece(klass: TickedClass, into: Span, lengthMs: number): Piece {
  klass.ledger.given += lengthMs;
  return { ...pieceOf(takeId(klass), into), kind: 'countIn', plannedMs: lengthMs };
}

function takeId(klass: TickedClass): number {
  klass.nextId += 1;
  return klass.nextId - 1;
}

function leaveWait(klass: TickedClass, countInMs: number): Ruling {
  cutHead(klass);
  const next = klass.queue[0];
  if (countInMs > 0 && next?.kind === 'work') klass.queue.unshift(countInPiece(klass, next.paper, countInMs));
  return { marks: ['changed wentOn'] };
}

function nextMove(klass: TickedClass): Ruling {
  const head = headOf(klass);
  if (head.kind === 'wait') return leaveWait(klass, 0);
  const isPassed = LEAD_INS.has(head.kind)
    ? (piece: Piece) => LEAD_INS.has(piece.kind)
    : (piece: Piece) => isSame(piece.paper, head.paper);
  const passed = follow(klass, isPassed);
  klass.ledger.skipped += takeOut(klass, 1, (piece) => passed.includes(piece));
  cutHead(klass);
  return { marks: ['changed skip'] };
}

/** The stretch of the running order that the head stands for: all of an occurrence, or the one span without an entry. */
function standsFor(klass: TickedClass): { readonly main: Span; readonly last: number; readonly isBegun: boolean } {
  const head = headOf(klass);
  const { order } = klass;
  if (head.paper.entryId === null) return { main: head.paper, last: head.paper.id, isBegun: false };
  const main = order.find((span) => span.id >= head.paper.id && !LEAD_INS.has(span.kind));
  if (main === undefined) throw new Error('standsFor: a lead-in leads into something');
  const last = order.reduce((found, span) => (isSame(span, main) ? span.id : found), main.id);
  return { main, last, isBegun: !LEAD_INS.has(head.kind) };
}

/** Where in the running order going back begins, or -1 when there is nothing before. */
function backTo(klass: TickedClass): number {
  const { main, isBegun } = standsFor(klass);
  const works = klass.order.filter((span) => span.kind === 'work');
  const firstOf = (span: Span) => works.findIndex((work) => isSame(work, span));
  const before = works.findLast(
    (work) => work.id < main.id && !isSame(work, main) && !klass.dropped.has(work.entryId ?? ''),
  );
  const target = before ?? (isBegun ? main : undefined);
  return works[target === undefined ? -1 : firstOf(target)]?.id ?? -1;
}

function goBackOne(klass: TickedClass, countInMs: number): Ruling {
  const from = backTo(klass);
  if (from === -1) return { refused: ['nothingBefore'] };
  const { main, last } = standsFor(klass);
  const again = klass.order.slice(from, last + 1).filter((span) => isKept(klass, span));
  const rest = follow(klass, (piece) => isSame(piece.paper, main));
  const head = headOf(klass);
  klass.ledger.given += head.ranMs - head.plannedMs;
  klass.ledger.given -= takeOut(klass, 1, (piece) => rest.includes(piece));
  closeHead(klass);
  const first = again[0];
  const before = first !== undefined && countInMs > 0 ? [countInPiece(klass, first, countInMs)] : [];
  const copies = again.map((span) => pieceOf(takeId(klass), span));
  klass.ledger.given += copies.reduce((sum, piece) => sum + piece.plannedMs, 0);
  klass.queue.unshift(...before, ...copies);
  return { marks: ['changed back'] };
}

/** Of a dropped entry only the breathers that lead into it stay. */
function isKept(klass: TickedClass, span: Span): boolean {
  return span.kind === 'breather' || span.entryId === null || !klass.dropped.has(span.entryId);
}

function give(klass: TickedClass, byMs: number): Ruling {
  const head = headOf(klass);
  if (leftOf(head) <= 3000) return { refused: ['begun'] };
  const other = klass.queue.find((piece, at) => at > 0 && piece.kind === 'work' && piece.paper.id === head.paper.pair);
  for (const piece of other === undefined ? [head] : [head, other]) {
    piece.plannedMs += byMs;
    klass.ledger.given += byMs;
  }
  return { marks: ['changed give'] };
}

function drop(klass: TickedClass, entryId: EntryId): Ruling {
  const goes = (piece: Piece) => piece.paper.entryId === entryId && piece.kind !== 'breather';
  if (!klass.queue.some(goes)) return { refused: ['notFound'] };
  const head = headOf(klass);
  klass.ledger.skipped += takeOut(klass, 1, goes);
  if (goes(head)) cutHead(klass);
  klass.dropped.add(entryId);
  return { marks: ['changed drop'] };
}

function trimTo(klass: TickedClass, finishAtMs: number, order: readonly EntryId[]): Ruling {
  const head = headOf(klass);
  const isBegun = (piece: Piece) => !LEAD_INS.has(head.kind) && isSame(piece.paper, head.paper);
  const before = klass.queue.length;
  for (const entryId of order) {
    if (finishOf(klass) <= finishAtMs) break;
    klass.ledger.trimmed += takeOut(
      klass,
      1,
      (piece) => piece.paper.entryId === entryId && piece.kind !== 'breather' && !isBegun(piece),
    );
  }
  return klass.queue.length === before ? { refused: ['nothingToTrim'] } : { marks: ['changed trim'] };
}

function show(klass: TickedClass, entryId: EntryId, level: number): Ruling {
  if ((klass.shown.get(entryId) ?? 0) === level) return { marks: [] };
  klass.shown.set(entryId, level);
  return { marks: ['showed'] };
}

function finishEarly(klass: TickedClass): Ruling {
  klass.ledger.skipped += takeOut(klass, 1, () => true);
  cutHead(klass);
  return { marks: ['changed finishEarly'] };
}

/** It ran on without the phone: the ticks that it stood are run now. It may have ended on the way. */
function ranOn(klass: TickedClass): Ruling {
  if (klass.stands !== 'gap') return NOT_NOW;
  const nowMs = klass.clockMs;
  klass.clockMs -= klass.standingForMs;
  klass.standingForMs = 0;
  klass.stands = null;
  while (klass.clockMs < nowMs) {
    klass.clockMs += klass.tickMs;
    if (klass.phase === 'live') runTick(klass);
  }
  return { marks: ['ranOn'] };
}

function goBackToStop(klass: TickedClass, stoppedAtMs: number): Ruling {
  if (klass.stands !== null || stoppedAtMs > klass.clockMs || stoppedAtMs < klass.kept.clockMs) return NOT_NOW;
  runAgainTo(klass, stoppedAtMs);
  return { marks: ['stood'] };
}
