import type { BlockId, EntryId } from '../plan/plan.ts';
import type { Span } from '../running-order/span.ts';
import type { ClassState } from './class-state.ts';
import type { Account, Edit, Happening, Refusal } from './marks.ts';
import type { ClassPosition } from './position.ts';

/** A state looked at at one instant: what every rule decides from. */
export type Now = { readonly state: ClassState; readonly atMs: number; readonly at: ClassPosition };

/** What a rule decided: things that happened, in order, or why nothing did. */
export type Decision = { readonly happened: readonly Happening[] } | { readonly refused: Refusal };

const LEAD_INS: ReadonlySet<string> = new Set(['countIn', 'changeover', 'breather']);

/** True for a span that leads into an entry. */
export function isLeadIn(span: Span): boolean {
  return LEAD_INS.has(span.kind);
}

/** One run of an entry in one round; copies of it included. */
export type Occurrence = { readonly blockId: BlockId; readonly round: number; readonly entryId: EntryId | null };

/** True when the span belongs to the occurrence, its lead-in too. */
export function isOf(span: Span, occurrence: Occurrence): boolean {
  return span.blockId === occurrence.blockId && span.round === occurrence.round && span.entryId === occurrence.entryId;
}

/** True while something of the span is still to run. */
export function hasTime(span: Span): boolean {
  return span.lengthMs > 0 || span.open;
}

/** Index of the first live span after `index` that has time and fits; -1 when there is none. */
export function nextIndex(state: ClassState, index: number, fits: (span: Span) => boolean): number {
  return state.live.findIndex((span, at) => at > index && hasTime(span) && fits(span));
}

/** A resize, or nothing when the span has that length already and is closed. */
export function resized(span: Span, toMs: number, account: Account): readonly Edit[] {
  if (span.lengthMs === toMs && !span.open) return [];
  return [{ do: 'resize', span: span.id, toMs, account }];
}

/** Ends a span after `intoMs`; what an open span ran past its plan was given, whatever ends it. */
export function cutNow(span: Span, intoMs: number, account: Account): readonly Edit[] {
  return resized(span, intoMs, intoMs > span.lengthMs ? 'given' : account);
}

/** Ends the present span now and empties all live spans from there up to (not including) `until`. */
export function cutTo({ state, at }: Now, until: number, account: Account): readonly Edit[] {
  const current = at.span === null ? [] : cutNow(at.span, at.intoMs, account);
  return [...current, ...state.live.slice(at.index + 1, until).flatMap((span) => resized(span, 0, account))];
}

/** A count-in of `lengthMs` that leads into `into`, with the id `id`. */
export function countInInto(into: Span, id: number, lengthMs: number): Span {
  return { ...into, id, kind: 'countIn', lengthMs, doneMs: 0, pair: null, gives: false, open: false };
}

/** A change that leaves nothing to run: a class that stands does not end by its clock, so the end is written with it. */
export function endIfAll({ at }: Now, change: Happening, isAll: boolean): Decision {
  return { happened: isAll && at.status === 'paused' ? [change, { kind: 'finished' }] : [change] };
}
