/** Lets one window of this phone run a class. */
export type WindowLock = {
  /** Calls `held` once this window has it: at once when free, else when the other window ends. Returns how to let go. */
  readonly hold: (held: () => void, waiting: () => void) => () => void;
  /** Takes it from the other window, whose writes are then fenced; calls `held`. Returns how to let go. `lost` is called when taken from here. */
  readonly takeFromOther: (held: () => void) => () => void;
  /** Calls `hear` when another window took the lock from this one. */
  readonly onLost: (hear: () => void) => () => void;
};
