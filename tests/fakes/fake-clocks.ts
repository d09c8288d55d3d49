import type { Clocks, Timers } from '../../src/ports/clocks.ts';

type Waiting = { readonly dueMonoMs: number; readonly order: number; readonly wake: () => void };

/** Two clocks and the timers that hang on them, all moved by hand. */
export type FakeClocks = {
  readonly clocks: Clocks;
  readonly timers: Timers;
  /** Moves both clocks on by `ms`, from due time to due time, running every timer at its own instant. */
  readonly advance: (ms: number) => void;
  /** As `advance`, and lets every settled promise run on after each timer and at the end. */
  readonly advanceSettling: (ms: number) => Promise<void>;
  /**
   * The phone sleeps for `ms`: the wall clock moves, no timer runs. With `mono: 'runs'` the monotonic clock moves too
   * and what came due meanwhile runs at the next advance, late; with `mono: 'stands'` (the default) it does not.
   */
  readonly freeze: (ms: number, how?: { readonly mono: 'runs' | 'stands' }) => void;
  /** Moves the wall clock alone by `ms` (either way), as setting the clock or a time server does. */
  readonly moveWall: (ms: number) => void;
  /** How many timers wait. */
  readonly waiting: () => number;
  /** Monotonic instant of the earliest waiting timer, or null. */
  readonly nextDueMonoMs: () => number | null;
};

/** More wakes than this without time moving is a timer that asks for itself at once for ever. */
const MOST_WAKES_AT_ONE_INSTANT = 10_000;

/** Lets everything that is already settled run on, several promises deep. */
export const settle = async (): Promise<void> => {
  for (let turn = 0; turn < 20; turn += 1) await Promise.resolve();
};

/** Clocks at `monoMs` (default 1000) and `wallMs` (default 2026-03-02T18:00:00Z) that stand until they are moved. */
export const fakeClocks = (start: { readonly monoMs?: number; readonly wallMs?: number } = {}): FakeClocks => {
  let monoMs = start.monoMs ?? 1000;
  let wallMs = start.wallMs ?? Date.UTC(2026, 2, 2, 18);
  let order = 0;
  let wakesHere = 0;
  const waiting = new Set<Waiting>();

  const earliest = (): Waiting | null => {
    let first: Waiting | null = null;
    for (const one of waiting) {
      const sooner = first === null || one.dueMonoMs < first.dueMonoMs;
      if (sooner || (first !== null && one.dueMonoMs === first.dueMonoMs && one.order < first.order)) first = one;
    }
    return first;
  };

  const moveTo = (toMonoMs: number): void => {
    if (toMonoMs <= monoMs) return;
    wallMs += toMonoMs - monoMs;
    monoMs = toMonoMs;
    wakesHere = 0;
  };

  /** Runs the earliest timer due by `endMonoMs` at its instant (or now, where it is overdue); false when there is none. */
  const runOne = (endMonoMs: number): boolean => {
    const next = earliest();
    if (next === null || next.dueMonoMs > endMonoMs) return false;
    moveTo(next.dueMonoMs);
    wakesHere += 1;
    if (wakesHere > MOST_WAKES_AT_ONE_INSTANT) throw new Error('a timer asks for itself at once for ever');
    waiting.delete(next);
    next.wake();
    return true;
  };

  const endAfter = (ms: number): number => {
    if (!(ms >= 0)) throw new Error(`clocks are advanced by 0 or more ms, not ${ms}`);
    wakesHere = 0;
    return monoMs + ms;
  };

  return {
    clocks: { monoMs: () => monoMs, wallMs: () => wallMs },
    timers: {
      after: (delayMs, wake) => {
        order += 1;
        const one = { dueMonoMs: monoMs + Math.max(0, delayMs), order, wake };
        waiting.add(one);
        return () => {
          waiting.delete(one);
        };
      },
    },
    advance: (ms) => {
      const endMonoMs = endAfter(ms);
      while (runOne(endMonoMs));
      moveTo(endMonoMs);
    },
    advanceSettling: async (ms) => {
      const endMonoMs = endAfter(ms);
      await settle();
      while (runOne(endMonoMs)) await settle();
      moveTo(endMonoMs);
      await settle();
    },
    freeze: (ms, how) => {
      wallMs += ms;
      if (how?.mono === 'runs') monoMs += ms;
    },
    moveWall: (ms) => {
      wallMs += ms;
    },
    waiting: () => waiting.size,
    nextDueMonoMs: () => earliest()?.dueMonoMs ?? null,
  };
};
