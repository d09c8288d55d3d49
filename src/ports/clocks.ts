/** The two clocks of a phone. Instants of `monoMs` are only comparable within one page life. */
export type Clocks = {
  /** Monotonic ms since some instant of this page life; never falls, may stand still while the phone sleeps. */
  readonly monoMs: () => number;
  /** Wall clock, ms since 1970 UTC; may jump either way. */
  readonly wallMs: () => number;
};

/** Wakes up once, later. Late is normal: who is woken looks at the clock. */
export type Timers = {
  /** Calls `wake` after about `delayMs`, never before this call returns; gives back how to call it off (harmless twice). */
  readonly after: (delayMs: number, wake: () => void) => () => void;
};
