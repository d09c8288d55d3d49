import type { Move, MoveLibrary } from '../moves/move.ts';
import { turnBetween } from '../moves/position.ts';
import { isWork, type Span } from '../running-order/span.ts';
import type { ClassState } from './class-state.ts';
import { hasTime, isLeadIn, isOf } from './now.ts';

/** The move a span is about: what is done, or what comes; null for talk, water, waits and rests. */
export function moveOfSpan(span: Span | undefined, library: MoveLibrary): Move | null {
  const moveId = span?.doing[0]?.moveId;
  return moveId === undefined ? null : (library.get(moveId) ?? null);
}

/** Index of the next live span with time after `index`; -1 when the class ends there. */
export function followerOf(state: ClassState, index: number): number {
  return state.live.findIndex((span, at) => at > index && hasTime(span));
}

/** Index of the next work span with time after `index`; -1 when none comes. */
export function comingWork(state: ClassState, index: number): number {
  return state.live.findIndex((span, at) => at > index && hasTime(span) && isWork(span));
}

/** True when `next` is the other half of `span`'s move, or the way over to it. */
export function isOtherSide(span: Span, next: Span): boolean {
  return span.pair !== null && isOf(next, span) && (next.kind === 'sideChange' || next.of === span.pair);
}

/** How everyone gets from the move of span `index` to the coming one: null when they stay, or when other things come between. */
export function turnAfter(state: ClassState, index: number, library: MoveLibrary): 'up' | 'down' | null {
  const next = state.live[followerOf(state, index)];
  const from = moveOfSpan(state.live[index], library);
  const to = next !== undefined && (isWork(next) || isLeadIn(next)) ? moveOfSpan(next, library) : null;
  return from === null || to === null ? null : turnBetween(from.position, to.position);
}

/** True when the coming move wants getting ready for early: a jump, kit not in use now, or a wait point before it. */
export function needsEarlyWord(state: ClassState, index: number, library: MoveLibrary): boolean {
  const next = state.live[followerOf(state, index)];
  if (next?.kind === 'wait') return true;
  const from = moveOfSpan(state.live[index], library);
  const to = next !== undefined && (isWork(next) || isLeadIn(next)) ? moveOfSpan(next, library) : null;
  if (from === null || to === null) return false;
  if (to.impact === 'jump' && from.impact !== 'jump') return true;
  return Object.keys(to.kit).some((kit) => !Object.hasOwn(from.kit, kit));
}
