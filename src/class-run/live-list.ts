import type { Span } from '../running-order/span.ts';
import type { Books, ClassState } from './class-state.ts';
import type { Account, Edit } from './marks.ts';

/** The live spans and the books while edits are applied to them. Mutable on purpose, and only within one replay or step. */
export type LiveDraft = {
  live: Span[];
  books: { plannedMs: number; givenMs: number; skippedMs: number; trimmedMs: number };
  nextSpanId: number;
  /** Index where the last edit fell: edits of one mark lie close together. */
  hint: number;
};

/** A draft of the state's live list; the state itself stays as it is. */
export function draftOf(state: Pick<ClassState, 'live' | 'books' | 'nextSpanId'>): LiveDraft {
  return { live: [...state.live], books: { ...state.books }, nextSpanId: state.nextSpanId, hint: 0 };
}

/** Applies one edit and books it; false (draft then unusable) when it names no live span or makes an impossible one. */
export function applyEdit(draft: LiveDraft, edit: Edit): boolean {
  return edit.do === 'resize'
    ? resize(draft, edit.span, edit.toMs, edit.account)
    : insert(draft, edit.after, edit.spans);
}

function resize(draft: LiveDraft, id: number, toMs: number, account: Account): boolean {
  const index = indexOf(draft, id);
  const span = draft.live[index];
  if (span === undefined || !isLength(toMs)) return false;
  book(draft, account, toMs - span.lengthMs);
  draft.live[index] = { ...span, lengthMs: toMs, open: false };
  return true;
}

function insert(draft: LiveDraft, after: number, spans: readonly Span[]): boolean {
  const index = indexOf(draft, after);
  if (index === -1) return false;
  for (const span of spans) {
    // Ids only ever rise, so one that is not new would name two spans.
    if (!isLength(span.lengthMs) || span.id !== draft.nextSpanId) return false;
    draft.nextSpanId += 1;
    book(draft, 'given', span.lengthMs);
  }
  draft.live.splice(index + 1, 0, ...spans);
  return true;
}

function indexOf(draft: LiveDraft, id: number): number {
  for (let index = draft.hint; index < draft.live.length; index += 1) {
    if (draft.live[index]?.id === id) return remember(draft, index);
  }
  for (let index = draft.hint - 1; index >= 0; index -= 1) {
    if (draft.live[index]?.id === id) return remember(draft, index);
  }
  return -1;
}

function remember(draft: LiveDraft, index: number): number {
  draft.hint = index;
  return index;
}

function book(draft: LiveDraft, account: Account, changeMs: number): void {
  if (account === 'given') draft.books.givenMs += changeMs;
  else if (account === 'skipped') draft.books.skippedMs -= changeMs;
  else draft.books.trimmedMs -= changeMs;
}

function isLength(ms: number): boolean {
  return Number.isSafeInteger(ms) && ms >= 0;
}

/** Where each live span starts on the run clock, the end of the last, and the first open one (-1: none). */
export function layOut(live: readonly Span[]): Pick<ClassState, 'startsMs' | 'endMs' | 'firstOpen'> {
  const startsMs: number[] = [];
  let endMs = 0;
  let firstOpen = -1;
  for (const [index, span] of live.entries()) {
    startsMs.push(endMs);
    endMs += span.lengthMs;
    if (span.open && firstOpen === -1) firstOpen = index;
  }
  return { startsMs, endMs, firstOpen };
}

/** What the books say the live list sums to: planned + given - skipped - trimmed, whole ms. */
export function bookedMs(books: Books): number {
  return books.plannedMs + books.givenMs - books.skippedMs - books.trimmedMs;
}
