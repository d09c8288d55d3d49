import type { Timers } from '../../../src/ports/clocks.ts';
import type { Log } from '../../../src/ports/log.ts';
import { type Connection, openHallpaceDb } from './hallpace-db.ts';

export type KeptConnection = {
  /** The connection there is, or one that is being opened now. Rejects where none can be had. */
  readonly open: () => Promise<Connection>;
  /** Forgets `one` and closes it, so that the next `open` makes a fresh one. Harmless when it is another by now. */
  readonly drop: (one: Promise<Connection>) => void;
};

/**
 * Longer than an operation waits: a slow phone opens in a second or two, and an opening that every operation threw
 * away would never come about. Some versions of Safari leave an opening unanswered for good.
 */
const OPENING_LIMIT_MS = 10_000;

export function keepConnection(timers: Timers, log: Log): KeptConnection {
  let current: Promise<Connection> | null = null;

  const drop = (one: Promise<Connection>): void => {
    if (current === one) current = null;
    // Closing waits for what is under way, so a late write still lands; one that opens late closes at once.
    one.then(
      (db) => db.close(),
      () => undefined,
    );
  };

  const start = (): Promise<Connection> => {
    const opening = openHallpaceDb({
      blocked: () => log.note('store: waits for an older window to let go'),
      blocking: () => drop(opening),
      terminated: () => drop(opening),
    });
    const stopWaiting = timers.after(OPENING_LIMIT_MS, () => drop(opening));
    opening.then(stopWaiting, () => {
      stopWaiting();
      drop(opening);
    });
    return opening;
  };

  return {
    open: () => {
      current ??= start();
      return current;
    },
    drop,
  };
}
