import type { Clocks } from '../../src/ports/clocks.ts';

/** Nobody acts on what has been on the screen for less: such a press was meant for what stood there before. */
const SEEING_MS = 120;
/** The same button again within this is one press that bounced, meant for what the first one saw. */
const BOUNCE_MS = 350;

/** Which span a person saw when pressing a button. */
export type SeenSpans = {
  /** `spanId` is on the screen now. `byAsk`: a press brought it there. */
  readonly show: (spanId: number | null, byAsk: boolean) => void;
  /** The span that a press of `button` is about; null when no span is shown. */
  readonly seenBy: (button: string) => number | null;
};

export function seenSpans(clocks: Clocks): SeenSpans {
  let shown: number | null = null;
  let before: number | null = null;
  let isSeen = true;
  let shownMonoMs = Number.NEGATIVE_INFINITY;
  let last: { readonly button: string; readonly spanId: number | null; readonly monoMs: number } | null = null;
  return {
    show: (spanId, byAsk) => {
      if (spanId === shown) return;
      before = shown;
      shown = spanId;
      isSeen = byAsk;
      shownMonoMs = clocks.monoMs();
    },
    seenBy: (button) => {
      const monoMs = clocks.monoMs();
      const isBounce = last !== null && last.button === button && monoMs - last.monoMs < BOUNCE_MS;
      const isTooNew = !isSeen && before !== null && monoMs - shownMonoMs < SEEING_MS;
      const spanId = isBounce && last !== null ? last.spanId : isTooNew ? before : shown;
      last = { button, spanId, monoMs };
      return spanId;
    },
  };
}
