import { judgeLead, type LeadVerdict } from '../../src/class-run/clock-rule.ts';
import type { Clocks } from '../../src/ports/clocks.ts';

/** The class clock of one page life: one anchor, moved only by what the clock rule says. */
export type ClassClock = {
  /** Whole ms of class time now. */
  readonly nowMs: () => number;
  /** Class time at an instant of the monotonic clock, whole ms. */
  readonly classAt: (monoMs: number) => number;
  /** Instant of the monotonic clock at a class time. */
  readonly monoAt: (classMs: number) => number;
  /** The class clock reads `classMs` from now on: at Start, and after a reload. */
  readonly set: (classMs: number) => void;
  /** The class clock gains `byMs` (class time). */
  readonly gain: (byMs: number) => void;
  /** Notes that the page was not watched since the last reading. */
  readonly noteUnseen: () => void;
  /** Reads both clocks, judges the lead since the last reading, and starts the next stretch. */
  readonly read: () => LeadVerdict;
};

/** A class clock that runs `rate` ms a ms of real time. */
export function classClock(clocks: Clocks, isVisible: () => boolean, rate = 1): ClassClock {
  let anchor = { monoMs: clocks.monoMs(), classMs: 0 };
  let last = { monoMs: clocks.monoMs(), wallMs: clocks.wallMs() };
  let wasUnseen = !isVisible();
  const exactAt = (monoMs: number) => anchor.classMs + (monoMs - anchor.monoMs) * rate;
  const classAt = (monoMs: number) => Math.round(exactAt(monoMs));
  return {
    classAt,
    nowMs: () => classAt(clocks.monoMs()),
    monoAt: (classMs) => anchor.monoMs + (classMs - anchor.classMs) / rate,
    set: (classMs) => {
      anchor = { monoMs: clocks.monoMs(), classMs };
    },
    gain: (byMs) => {
      anchor = { ...anchor, classMs: anchor.classMs + byMs };
    },
    noteUnseen: () => {
      wasUnseen = true;
    },
    read: () => {
      const now = { monoMs: clocks.monoMs(), wallMs: clocks.wallMs() };
      const leadMs = now.wallMs - last.wallMs - (now.monoMs - last.monoMs);
      const verdict = judgeLead({ leadMs, wasUnseen: wasUnseen || !isVisible() });
      last = now;
      wasUnseen = !isVisible();
      return verdict;
    },
  };
}
