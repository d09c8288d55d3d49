type Granted = (lock: Lock | null) => unknown;
type Ask = {
  readonly granted: Granted;
  readonly resolve: (value: unknown) => void;
  readonly reject: (fault: unknown) => void;
};

/**
 * The exclusive half of the Web Locks API as its specification has it (https://w3c.github.io/web-locks/): requests wait
 * in order, `ifAvailable` never waits, `steal` takes the lock away at once and jumps the queue. One for all windows of a
 * phone. Asks for anything else are a mistake in the test and throw.
 */
export type FakeLocks = {
  /** As one window sees them. */
  readonly locks: LockManager;
  /** How many wait. */
  readonly waiting: () => number;
  readonly isHeld: () => boolean;
};

export function fakeLocks(): FakeLocks {
  let holder: Ask | null = null;
  let queue: Ask[] = [];

  const grantNext = (): void => {
    const next = queue.shift();
    if (next !== undefined) grant(next);
  };

  const grant = (ask: Ask): void => {
    holder = ask;
    const over = (settle: () => void): void => {
      settle();
      if (holder !== ask) return;
      holder = null;
      grantNext();
    };
    // The callback runs in a task of its own, as in a browser.
    void Promise.resolve()
      .then(() => ask.granted({ name: 'fake', mode: 'exclusive' }))
      .then(
        (value) => over(() => ask.resolve(value)),
        (fault: unknown) => over(() => ask.reject(fault)),
      );
  };

  const steal = (ask: Ask): void => {
    holder?.reject(new DOMException('the lock was stolen', 'AbortError'));
    grant(ask);
  };

  const wait = (ask: Ask, signal: AbortSignal | undefined): void => {
    queue.push(ask);
    signal?.addEventListener('abort', () => {
      if (!queue.includes(ask)) return;
      queue = queue.filter((one) => one !== ask);
      ask.reject(signal.reason);
    });
  };

  const request = (_name: string, options: LockOptions, granted: Granted): Promise<unknown> =>
    new Promise((resolve, reject) => {
      const ask = { granted, resolve, reject };
      if (options.signal?.aborted === true) reject(options.signal.reason);
      else if (options.steal === true) steal(ask);
      else if (holder === null) grant(ask);
      else if (options.ifAvailable === true) resolve(Promise.resolve(null).then(granted));
      else wait(ask, options.signal);
    });

  return {
    locks: { request, query: () => Promise.reject(new Error('not in use')) } as unknown as LockManager,
    waiting: () => queue.length,
    isHeld: () => holder !== null,
  };
}
