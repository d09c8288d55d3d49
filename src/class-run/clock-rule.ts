/** Up to this much lead the monotonic clock rules: readings jitter and wall clocks are slewed. */
export const LEAD_TOLERANCE_MS = 1500;
/** A gap over this is not decided: the person is asked. */
export const ASK_OVER_MS = 10 * 60 * 1000;
/** How long "go back to where it stopped" is offered. */
export const OFFER_MS = 20_000;

/**
 * What two readings of the clocks say. `leadMs` = wall change - monotonic change since the last reading; `wasUnseen`:
 * the page was hidden, frozen, restored or lost its wake lock meanwhile.
 */
export type LeadReading = { readonly leadMs: number; readonly wasUnseen: boolean };

/** `steady` do nothing; `wallMoved` ignore and mark; `slept` the class clock gains `byMs`; `ask` do not move, ask. */
export type LeadVerdict =
  | { readonly verdict: 'steady' }
  | { readonly verdict: 'wallMoved'; readonly byMs: number }
  | { readonly verdict: 'slept'; readonly byMs: number }
  | { readonly verdict: 'ask'; readonly gapMs: number };

/**
 * Joins the clocks within one page life. Monotonic time stands still while most phones sleep and wall time can be set:
 * only a page that was not watched can have slept. All amounts whole ms.
 */
export function judgeLead({ leadMs, wasUnseen }: LeadReading): LeadVerdict {
  const byMs = Math.round(leadMs);
  if (Math.abs(byMs) <= LEAD_TOLERANCE_MS) return { verdict: 'steady' };
  if (byMs < 0 || !wasUnseen) return { verdict: 'wallMoved', byMs };
  if (byMs > ASK_OVER_MS) return { verdict: 'ask', gapMs: byMs };
  return { verdict: 'slept', byMs };
}

/** After a reload: `runOn` the class runs at the clock's second; `ask` the gap is too long or the wall went back. */
export type GapVerdict =
  | { readonly verdict: 'runOn'; readonly gapMs: number }
  | { readonly verdict: 'ask'; readonly gapMs: number };

/** Judges the gap between the last beat and now, wall against wall, in whole ms; never below zero when it runs on. */
export function judgeGap(beatWallMs: number, nowWallMs: number): GapVerdict {
  const gapMs = Math.round(nowWallMs - beatWallMs);
  if (gapMs < 0 || gapMs > ASK_OVER_MS) return { verdict: 'ask', gapMs };
  return { verdict: 'runOn', gapMs };
}
