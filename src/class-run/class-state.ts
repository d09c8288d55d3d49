import type { EntryId } from '../plan/plan.ts';
import type { RunningOrder, Span } from '../running-order/span.ts';
import type { Level, Mark, Refusal } from './marks.ts';

/** Signed whole ms. J1: sum of live lengths = planned + given - skipped - trimmed, after every mark. */
export type Books = {
  readonly plannedMs: number;
  readonly givenMs: number;
  readonly skippedMs: number;
  readonly trimmedMs: number;
};

/** Why the class stands, and since when on the class clock. */
export type Standing = { readonly sinceMs: number; readonly cause: 'asked' | 'hurt' | 'gap' };

/** Ready and ended hold no standing; a running class may stand. */
export type Phase =
  | { readonly kind: 'ready' }
  | { readonly kind: 'live'; readonly standing: Standing | null }
  | { readonly kind: 'finished'; readonly atMs: number }
  | { readonly kind: 'abandoned'; readonly atMs: number };

/**
 * Live spans lie end to end on the RUN clock, which stands still in a pause: run = class time - paused so far.
 * J2 finish on the class clock = sum(live) + paused; once over, that is actual: the books balance.
 * J3 nothing before a mark's own run instant changes. J4 replay(order, marks[0..n]) equals the live state after mark n.
 * J5 over is derived (run instant >= end and no open span left): a phone that slept past the end finished on time.
 * J6 from every phase but the ends some intent is accepted.
 */
export type ClassState = {
  readonly order: RunningOrder;
  readonly live: readonly Span[];
  /** Run instant at which each live span starts; same length as `live`. After an open span: as planned, not as known. */
  readonly startsMs: readonly number[];
  readonly endMs: number;
  /** Index of the first open span in `live`, or -1. */
  readonly firstOpen: number;
  readonly pausedMs: number;
  readonly phase: Phase;
  readonly books: Books;
  readonly dropped: readonly EntryId[];
  readonly shown: Readonly<Record<EntryId, Level>>;
  readonly nextSeq: number;
  readonly nextSpanId: number;
  /** Class instant of the last mark. */
  readonly lastMs: number;
  /** Class instant of the last mark that moved the run clock or the live list: nothing before it can be taken back. */
  readonly lastEditMs: number;
};

/** What a person reads as the class's condition: `data-status`. */
export type Status = 'ready' | 'running' | 'paused' | 'waiting' | 'asking' | 'finished' | 'abandoned';

/** What one intent did. `refused` null and no marks: asked for what already is. */
export type Step = { readonly state: ClassState; readonly marks: readonly Mark[]; readonly refused: Refusal | null };
