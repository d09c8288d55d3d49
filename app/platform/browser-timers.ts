import type { Timers } from '../../src/ports/clocks.ts';

/** Timers of this page: at most one a second while it is hidden, one a minute when it stays so, none while it is frozen. */
export const browserTimers: Timers = {
  after: (delayMs, wake) => {
    const timer = setTimeout(wake, delayMs);
    return () => clearTimeout(timer);
  },
};
