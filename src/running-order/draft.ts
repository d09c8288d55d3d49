import type { Block, BlockId, CueStyle, EntryId } from '../plan/plan.ts';
import type { Doing, RunningOrder, Span, SpanKind } from './span.ts';

/** A span before it has its number. `pairOffset` counts spans to its other side. */
export type Draft = {
  readonly kind: SpanKind;
  readonly lengthMs: number;
  readonly blockId: BlockId;
  readonly round: number;
  readonly entryId: EntryId | null;
  readonly doing: readonly Doing[];
  readonly pairOffset: number | null;
  readonly open: boolean;
  readonly cueStyle: CueStyle;
};

/** An empty piece of work in a block's round, to be filled in. */
export function draftSpan(block: Block, round: number): Draft {
  return {
    kind: 'work',
    lengthMs: 0,
    blockId: block.id,
    round,
    entryId: null,
    doing: [],
    pairOffset: null,
    open: false,
    cueStyle: block.cueStyle,
  };
}

/** Numbers drafts from 0 in order and adds up their whole lengths. */
export function closeOrder(drafts: readonly Draft[]): RunningOrder {
  const spans = drafts.map(numbered);
  return { spans, plannedMs: spans.reduce((sum, span) => sum + span.lengthMs, 0) };
}

function numbered({ pairOffset, ...rest }: Draft, id: number): Span {
  return { id, of: id, doneMs: 0, gives: false, pair: pairOffset === null ? null : id + pairOffset, ...rest };
}
