import type { MoveId } from '../moves/move.ts';
import type { BlockId, CueStyle, EntryId } from '../plan/plan.ts';

/** `left`/`right` are the body's own; `forward`/`reverse` are directions; `both` covers alternating too. */
export type Side = 'left' | 'right' | 'both' | 'alternating' | 'forward' | 'reverse';

/** `sideChange` swaps sides inside an entry; `changeover` leads into one; `rest` is a closing rest. */
export type SpanKind =
  | 'countIn'
  | 'work'
  | 'openWork'
  | 'sideChange'
  | 'changeover'
  | 'breather'
  | 'rest'
  | 'talk'
  | 'water'
  | 'wait';

/** What one group does in a span. `group` is null when all do the same. In a lead-in it is the coming move. */
export type Doing = {
  readonly entryId: EntryId;
  readonly moveId: MoveId;
  readonly side: Side;
  readonly group: number | null;
};

/**
 * One stretch of class time. Holds no start, end or "next": those are read off the live list, so an edit leaves no
 * stale one behind. `doing` is exactly one when all together, empty for talk, water, wait and a closing rest.
 */
export type Span = {
  readonly id: number;
  /** Its id in the running order; differs from `id` in a copy. */
  readonly of: number;
  readonly kind: SpanKind;
  readonly lengthMs: number;
  /** How much of this same stretch already ran in an earlier piece; 0 in a running order. */
  readonly doneMs: number;
  readonly blockId: BlockId;
  /** From 1; a lead-in has the round it leads into. */
  readonly round: number;
  /** Null for what belongs to no entry: the count-in, a breather that leads to talk, a closing rest. */
  readonly entryId: EntryId | null;
  readonly doing: readonly Doing[];
  /** Id (in the running order) of the other side's work span. */
  readonly pair: number | null;
  /** Slack of on the minute: a lengthened span before it eats this first. */
  readonly gives: boolean;
  /** Stays until the instructor goes on: its end is not known before a mark closes it. */
  readonly open: boolean;
  readonly cueStyle: CueStyle;
};

/**
 * A plan compiled to a gapless list of spans. R1 ids are 0..n-1 in order. R2 every length is a whole number of ms
 * above 0. R3 both of a pair are equally long. `plannedMs` is the sum of all lengths.
 */
export type RunningOrder = { readonly spans: readonly Span[]; readonly plannedMs: number };

/** True for a span in which people work at a move. */
export function isWork(span: Span): boolean {
  return span.kind === 'work' || span.kind === 'openWork';
}
