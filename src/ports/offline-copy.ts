/**
 * Whether this phone can open the app without a network. `ready`: the whole app is kept. `waiting`: a newer version is
 * kept too and takes over when asked. `failed`: nothing is kept, and a new try is worth it. `notSupported`: this
 * browser keeps no apps here, as on any address without https.
 */
export type OfflineFact = 'notSupported' | 'installing' | 'ready' | 'failed' | 'waiting';

/** Why asking for the new version did or did not begin. */
export type UpdateAnswer = 'begun' | 'classIsLive' | 'nothingWaiting';

/** The copy of the app on this phone. Nothing here throws, rejects or reloads the page unasked. */
export type OfflineCopy = {
  readonly fact: () => OfflineFact;
  /** Calls `hear` when the fact changes until the returned function is called. */
  readonly listen: (hear: (fact: OfflineFact) => void) => () => void;
  /** Lets the waiting version take over and opens the page again; never while a class is live. */
  readonly applyUpdate: () => UpdateAnswer;
  /** Asks for a newer version, or tries again after `failed`; does nothing while a class is live. Settles always. */
  readonly lookForUpdate: () => Promise<void>;
};
