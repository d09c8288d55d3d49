/** What is known of the screen staying on. `asked` is all that can be promised: a refusal may look like success. */
export type WakeFact = 'notWanted' | 'asked' | 'refused' | 'absent' | 'lost';

/** Keeps the screen on as far as the browser lets us. */
export type WakeLock = {
  /** Says whether it is wanted; asks again by itself when the page comes back. Repeating the same wish asks again if it was lost. */
  readonly want: (wanted: boolean) => void;
  readonly fact: () => WakeFact;
  /** Calls `hear` when the fact changes until the returned function is called. */
  readonly listen: (hear: (fact: WakeFact) => void) => () => void;
};
