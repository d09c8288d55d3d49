import type { Kept } from '../../../src/ports/class-store.ts';
import type { Timers } from '../../../src/ports/clocks.ts';
import type { Log } from '../../../src/ports/log.ts';
import type { Connection, ReadTx, StoreName, WriteTx } from './hallpace-db.ts';
import { keepConnection } from './kept-connection.ts';
import { no, reasonOf, speaksOfLostConnection } from './store-answer.ts';

/**
 * One-shot transactions that always settle: whole or not at all, and as `unavailable` when they take over 2 s. `work`
 * awaits requests of its transaction and nothing else, or the transaction closes under it.
 */
export type StoreTransactions = {
  readonly read: <T>(stores: StoreName[], work: (tx: ReadTx) => Promise<Kept<T>>) => Promise<Kept<T>>;
  readonly write: <T>(
    stores: StoreName[],
    durability: 'strict' | 'relaxed',
    work: (tx: WriteTx) => Promise<Kept<T>>,
  ) => Promise<Kept<T>>;
};

export type StoreNeeds = { readonly timers: Timers; readonly log: Log };

/** A suspended page may hold the database for half an hour (WebKit PR 67039): who asks hears by then at the latest. */
const OPERATION_LIMIT_MS = 2000;

type AnyTx = {
  readonly done: Promise<void>;
  readonly error: DOMException | null;
  readonly abort: () => void;
};

/** How one operation stands: nothing may start after its answer was given. */
type Course = {
  isOver: boolean;
  /** The connection that a transaction is under way on; while it is being opened none is. */
  inUse: Promise<Connection> | null;
};

export function storeTransactions({ timers, log }: StoreNeeds): StoreTransactions {
  const connection = keepConnection(timers, log);

  const use = async <T>(
    opening: Promise<Connection>,
    once: (db: Connection) => Promise<Kept<T>>,
    course: Course,
  ): Promise<Kept<T>> => {
    const db = await opening;
    // Given up while it was being opened: a class that is over by now must not be begun once more.
    if (course.isOver) return no('unavailable');
    course.inUse = opening;
    return once(db);
  };

  const attempt = async <T>(
    once: (db: Connection) => Promise<Kept<T>>,
    course: Course,
    triesLeft: number,
  ): Promise<Kept<T>> => {
    const opening = connection.open();
    try {
      return await use(opening, once, course);
    } catch (fault) {
      log.note('store: failed', fault);
      if (!speaksOfLostConnection(fault)) return no(reasonOf(fault));
      connection.drop(opening);
      return triesLeft > 0 && !course.isOver ? attempt(once, course, triesLeft - 1) : no('unavailable');
    }
  };

  const run = <T>(once: (db: Connection) => Promise<Kept<T>>): Promise<Kept<T>> =>
    new Promise((resolve) => {
      const course: Course = { isOver: false, inUse: null };
      const settle = (answer: Kept<T>): void => {
        course.isOver = true;
        stopWaiting();
        resolve(answer);
      };
      const stopWaiting = timers.after(OPERATION_LIMIT_MS, () => {
        log.note('store: no answer in time');
        if (course.inUse !== null) connection.drop(course.inUse);
        settle(no('unavailable'));
      });
      void attempt(once, course, 1).then(settle);
    });

  return {
    read: (stores, work) => run((db) => settleWhole(db.transaction(stores, 'readonly'), work)),
    write: (stores, durability, work) =>
      run((db) => settleWhole(db.transaction(stores, 'readwrite', { durability }), work)),
  };
}

/**
 * Awaits the work and the transaction's completion together, both heard from the first tick on. A full disk shows only
 * as an abort whose `error` says so, while the requests that it took along speak of `AbortError`.
 */
async function settleWhole<Tx extends AnyTx, T>(tx: Tx, work: (tx: Tx) => Promise<Kept<T>>): Promise<Kept<T>> {
  const working = work(tx).catch((fault: unknown) => {
    abort(tx);
    throw fault;
  });
  const [worked, done] = await Promise.allSettled([working, tx.done]);
  if (done.status === 'fulfilled' && worked.status === 'fulfilled') return worked.value;
  throw tx.error ?? (worked.status === 'rejected' ? worked.reason : (done as PromiseRejectedResult).reason);
}

/**
 * Makes all requests in one go. One that cannot even be made, because the transaction has gone, must not leave those
 * before it unheard: their failure would be nobody's.
 */
export function together(requests: readonly (() => Promise<unknown>)[]): Promise<unknown> {
  return Promise.all(requests.map(async (make) => make()));
}

/** Work that failed half way leaves nothing behind; where the transaction is over already there is nothing to undo. */
function abort(tx: AnyTx): void {
  try {
    tx.abort();
  } catch {
    return;
  }
}
