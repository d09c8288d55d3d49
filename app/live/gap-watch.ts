import { type GapVerdict, OFFER_MS } from '../../src/class-run/clock-rule.ts';
import type { Refusal } from '../../src/class-run/marks.ts';
import type { ClassClock } from './class-clock.ts';
import type { ClassDesk } from './class-desk.ts';
import type { LiveFacts } from './live-contract.ts';

/** Applies the clock rule to a class: what it lost while nobody looked, what it offers, what it asks. */
export type GapWatch = {
  /** Judges whatever passed since the last reading of the clocks. */
  readonly read: () => void;
  /** A class taken up again after a reload, from where it stopped. */
  readonly takeUp: (stoppedAtMs: number, verdict: GapVerdict) => void;
  /** The answer "it ran on without me". */
  readonly ranOn: () => Refusal | null;
  /** The answer to the offer "go back to where it stopped". */
  readonly goBackToStop: () => Refusal | null;
  /** Takes back what is no longer on offer at `atMs`. */
  readonly withdraw: (atMs: number) => void;
};

export function gapWatch(
  desk: ClassDesk,
  clock: ClassClock,
  rate: number,
  tell: (facts: Partial<Pick<LiveFacts, 'wallMoved' | 'away' | 'gapMs'>>) => void,
): GapWatch {
  let offer: { readonly untilMs: number; readonly stoppedAtMs: number } | null = null;
  let gapMs: number | null = null;

  const wallMoved = (byMs: number): void => {
    tell({ wallMoved: true });
    desk.intend({ kind: 'noteWallMoved', byMs }, desk.nowMs());
  };

  const noteAway = (stoppedAtMs: number, byMs: number): void => {
    desk.intend({ kind: 'noteAway', byMs }, desk.nowMs());
    if (!desk.isLive() || desk.isStanding()) return;
    offer = { untilMs: desk.nowMs() + OFFER_MS * rate, stoppedAtMs };
    tell({ away: { offeredUntilMs: offer.untilMs, byMs } });
  };

  const sleptFor = (byMs: number): void => {
    const stoppedAtMs = desk.nowMs();
    clock.gain(byMs * rate);
    noteAway(stoppedAtMs, byMs * rate);
  };

  const askAbout = (byMs: number): void => {
    if (desk.intend({ kind: 'askAboutGap', gapMs: byMs }, desk.nowMs()) !== null) return;
    gapMs = byMs;
    tell({ gapMs });
  };

  return {
    read: () => {
      const judged = clock.read();
      if (!desk.isLive() || judged.verdict === 'steady') return;
      if (judged.verdict === 'wallMoved') wallMoved(judged.byMs);
      else if (judged.verdict === 'slept') sleptFor(judged.byMs);
      // The class clock runs in a pause, however long, and nothing was missed.
      else if (desk.isStanding()) sleptFor(judged.gapMs);
      else askAbout(judged.gapMs);
    },
    takeUp: (stoppedAtMs, judged) => {
      const isCertain = judged.verdict === 'runOn' || desk.isStanding();
      const ranMs = isCertain ? Math.max(0, judged.gapMs) : 0;
      clock.set(stoppedAtMs + ranMs);
      if (isCertain) noteAway(stoppedAtMs, ranMs);
      else askAbout(judged.gapMs);
    },
    ranOn: () => {
      if (gapMs !== null && gapMs > 0) clock.gain(gapMs * rate);
      return desk.intend({ kind: 'ranOn' }, desk.nowMs());
    },
    goBackToStop: () =>
      offer === null ? 'notNow' : desk.intend({ kind: 'goBackToStop', stoppedAtMs: offer.stoppedAtMs }, desk.nowMs()),
    withdraw: (atMs) => {
      const { phase, lastEditMs } = desk.state();
      if (offer !== null && (!desk.isLive() || atMs >= offer.untilMs || lastEditMs > offer.stoppedAtMs)) {
        offer = null;
        tell({ away: null });
      }
      if (gapMs !== null && !(phase.kind === 'live' && phase.standing?.cause === 'gap')) {
        gapMs = null;
        tell({ gapMs: null });
      }
    },
  };
}
