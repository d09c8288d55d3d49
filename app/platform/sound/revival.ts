/** What to do with a context whose clock stands still although it says that it runs. */
export type RevivalStep = 'none' | 'resume' | 'suspend' | 'renew';

/** Steps taken since the clock stood still, and when the last one was. */
export type Revival = { readonly taken: number; readonly lastMonoMs: number };

export const noRevival: Revival = { taken: 0, lastMonoMs: Number.NEGATIVE_INFINITY };

/**
 * A lone `resume` can leave the clock standing while the state says `running`; after `suspend` it moved again. The time
 * is what each step is given before the next.
 */
const LADDER: readonly { readonly step: RevivalStep; readonly waitMs: number }[] = [
  { step: 'resume', waitMs: 600 },
  { step: 'suspend', waitMs: 200 },
  { step: 'resume', waitMs: 600 },
  { step: 'renew', waitMs: 3000 },
];

/** New contexts are few in a browser: each further round waits twice as long, up to this. */
const MOST_WAIT_MS = 60_000;

/** The next step for a clock that still stands at `monoMs`; `none` while the last one has not had its time. */
export function nextRevival(
  revival: Revival,
  monoMs: number,
): { readonly step: RevivalStep; readonly revival: Revival } {
  const last = revival.taken === 0 ? null : rung(revival.taken - 1);
  if (last !== null && monoMs - revival.lastMonoMs < last.waitMs) return { step: 'none', revival };
  return { step: rung(revival.taken).step, revival: { taken: revival.taken + 1, lastMonoMs: monoMs } };
}

function rung(taken: number): { readonly step: RevivalStep; readonly waitMs: number } {
  const round = Math.floor(taken / LADDER.length);
  const { step, waitMs } = LADDER[taken % LADDER.length] ?? { step: 'none', waitMs: 0 };
  return { step, waitMs: step === 'renew' ? Math.min(MOST_WAIT_MS, waitMs * 2 ** round) : waitMs };
}
