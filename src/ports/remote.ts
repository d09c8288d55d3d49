/** What a headset key or the system's player keys ask for. */
export type RemoteAsk = 'press' | 'next' | 'back';

/** Headset and player keys. A media element that the system pauses by itself asks for nothing. */
export type Remote = {
  /** Begins to take the keys and show `title` where the system shows players; call inside a press. */
  readonly take: (title: string) => void;
  readonly letGo: () => void;
  /** Calls `hear` on every key until the returned function is called. */
  readonly listen: (hear: (ask: RemoteAsk) => void) => () => void;
};
