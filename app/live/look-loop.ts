import type { Clocks, Timers } from '../../src/ports/clocks.ts';
import type { ClassClock } from './class-clock.ts';

/** Reminders to look. They may come late or not at all: who is reminded looks at the clock. */
export type LookLoop = {
  /** The next look is due at a class instant; null plans none. Replaces what was planned. */
  readonly planLook: (dueMs: number | null) => void;
  /** The page is hidden, where its timers are slowed down, or seen again. */
  readonly setHidden: (isHidden: boolean) => void;
  readonly stop: () => void;
};

/** Sound, voice and beat are tended a few times a second; the screen only when something on it changes. */
const TEND_MS = 250;

export function lookLoop(
  { clocks, timers, hiddenTicker }: LookLoopPorts,
  clock: ClassClock,
  { look, tend }: { readonly look: () => void; readonly tend: () => void },
): LookLoop {
  let cancelLook: (() => void) | null = null;
  let cancelTend: (() => void) | null = null;
  let stopTicker: (() => void) | null = null;

  const tendAgain = (): void => {
    cancelTend = timers.after(TEND_MS, tendAgain);
    tend();
  };

  const setHidden = (isHidden: boolean): void => {
    if (isHidden) stopTicker ??= hiddenTicker(tend);
    else {
      stopTicker?.();
      stopTicker = null;
    }
  };

  cancelTend = timers.after(TEND_MS, tendAgain);
  return {
    planLook: (dueMs) => {
      cancelLook?.();
      cancelLook = dueMs === null ? null : timers.after(Math.max(0, clock.monoAt(dueMs) - clocks.monoMs()), look);
    },
    setHidden,
    stop: () => {
      cancelLook?.();
      cancelTend?.();
      setHidden(false);
    },
  };
}

export type LookLoopPorts = {
  readonly clocks: Clocks;
  readonly timers: Timers;
  /** Ticks a few times a second where the page's own timers are slowed down; returns how to stop. */
  readonly hiddenTicker: (tick: () => void) => () => void;
};
