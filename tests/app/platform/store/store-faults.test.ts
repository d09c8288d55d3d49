import { forceCloseDatabase } from 'fake-indexeddb';
import { beforeEach, describe, expect, test, vi } from 'vitest';
import { idbClassStore } from '../../../../app/platform/store/idb-class-store.ts';
import { idbPlanStore } from '../../../../app/platform/store/idb-plan-store.ts';
import { storeTransactions } from '../../../../app/platform/store/store-transactions.ts';
import type { Mark } from '../../../../src/class-run/marks.ts';
import type { ClassStore, Kept } from '../../../../src/ports/class-store.ts';
import { aBeat, aHead, aKeptPlan, aMark, aNote, aPaper, ended, someMarks } from '../../../builders/kept-class.ts';
import { takeValue } from '../../../contracts/class-store.ts';
import { type FakeClocks, fakeClocks } from '../../../fakes/fake-clocks.ts';
import { type FakeDatabase, fakeDatabase, letDatabaseWork } from '../../../fakes/fake-database.ts';
import { type MemoryLog, memoryLog } from '../../../fakes/memory-log.ts';

const UNAVAILABLE = { ok: false, reason: 'unavailable' };

let time: FakeClocks;
let log: MemoryLog;
let database: FakeDatabase;

beforeEach(() => {
  time = fakeClocks();
  log = memoryLog();
  database = fakeDatabase();
});

const openStore = (): ClassStore => idbClassStore(storeTransactions({ timers: time.timers, log }));

/** What an operation has said so far: null while it is silent. */
function heard<T>(asked: Promise<Kept<T>>): () => Kept<T> | null {
  let answer: Kept<T> | null = null;
  asked.then(
    (said) => {
      answer = said;
    },
    (fault: unknown) => {
      throw fault;
    },
  );
  return () => answer;
}

/** A class that is live, through a store of its own. */
async function begunClass(): Promise<{ readonly store: ClassStore; readonly life: number }> {
  const store = openStore();
  const life = takeValue(await store.takeOver());
  takeValue(await store.begin(life, aHead(), aPaper()));
  return { store, life };
}

function lastConnection(): IDBDatabase {
  const last = database.connections.at(-1);
  if (last === undefined) throw new Error('nothing was opened');
  return last;
}

/** As when who uses the browser clears its data. The declared type of the fake is that of the class, not of a connection. */
function closeByForce(connection: unknown): void {
  (forceCloseDatabase as (connection: unknown) => void)(connection);
}

/** The next `times` transactions of any connection fail as iOS does after the background. */
function failTransactions(name: string, times: number): void {
  const plain = IDBDatabase.prototype.transaction;
  let left = times;
  vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (this: IDBDatabase, ...given) {
    left -= 1;
    if (left >= 0) throw new DOMException('connection to Indexed Database server lost', name);
    return plain.apply(this, given);
  });
}

describe('without a database', () => {
  const everything = (store: ClassStore): Promise<Kept<unknown>>[] => {
    const plans = idbPlanStore(storeTransactions({ timers: time.timers, log }));
    return [
      store.takeOver(),
      store.begin(1, aHead(), aPaper()),
      store.putMarks(1, 'class-1', someMarks(0, 1)),
      store.putBeat(1, aBeat()),
      store.end(1, ended(aHead()), []),
      store.openClass(),
      store.listRecords(0, 10),
      store.addNote(aNote('n-1')),
      store.notesOf('class-1'),
      store.hallCard(),
      store.putHallCard({ v: 1, address: '', defibrillator: '', emergencyNumber: '' }),
      plans.list(),
      plans.get('plan'),
      plans.put(aKeptPlan()),
    ];
  };

  test('every operation says so, none rejects', async () => {
    vi.stubGlobal('indexedDB', undefined);
    for (const answer of await Promise.all(everything(openStore()))) expect(answer).toEqual(UNAVAILABLE);
  });

  test('a browser that throws at the opening is the same as none', async () => {
    vi.mocked(indexedDB.open).mockImplementation(() => {
      throw new DOMException('storage is switched off', 'SecurityError');
    });
    for (const answer of await Promise.all(everything(openStore()))) expect(answer).toEqual(UNAVAILABLE);
  });

  test('an opening that fails is tried again by the next operation', async () => {
    vi.mocked(indexedDB.open).mockImplementationOnce(() => {
      throw new DOMException('storage is switched off', 'SecurityError');
    });
    const store = openStore();
    expect(await store.takeOver()).toEqual(UNAVAILABLE);
    expect(takeValue(await store.takeOver())).toBe(1);
  });
});

describe('a connection that dies', () => {
  test('behind the back of the app costs no row: the next write is made on a fresh one', async () => {
    const { store, life } = await begunClass();
    lastConnection().close();
    expect(await store.putMarks(life, 'class-1', someMarks(0, 2))).toEqual({ ok: true, value: null });
    expect(database.connections).toHaveLength(2);
    expect(takeValue(await store.openClass())?.marks).toHaveLength(3);
  });

  test('by the hand of the browser costs no row and no failed try', async () => {
    const { store, life } = await begunClass();
    closeByForce(lastConnection());
    await letDatabaseWork();
    takeValue(await store.putMarks(life, 'class-1', someMarks(0, 2)));
    expect(log.whats()).toEqual([]);
    expect(takeValue(await store.openClass())?.marks).toHaveLength(3);
  });

  test.each(['UnknownError', 'InvalidStateError', 'AbortError', 'TransactionInactiveError'])(
    'once with %s is tried again at once',
    async (name) => {
      const { store, life } = await begunClass();
      failTransactions(name, 1);
      expect(await store.putMarks(life, 'class-1', someMarks(0, 2))).toEqual({ ok: true, value: null });
      expect(log.whats()).toEqual(['store: failed']);
    },
  );

  test('again and again is unavailable, until it does not', async () => {
    const { store, life } = await begunClass();
    failTransactions('UnknownError', 4);
    expect(await store.putMarks(life, 'class-1', someMarks(0, 2))).toEqual(UNAVAILABLE);
    expect(await store.putMarks(life, 'class-1', someMarks(0, 2))).toEqual(UNAVAILABLE);
    takeValue(await store.putMarks(life, 'class-1', someMarks(0, 2)));
    expect(takeValue(await store.openClass())?.marks).toHaveLength(3);
  });

  test('within a transaction leaves nothing half done and is tried again', async () => {
    const { store, life } = await begunClass();
    // The page goes to the background between two puts (idb 338): a generic abort, with no error that says why.
    const plain = IDBObjectStore.prototype.put;
    let puts = 0;
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (this: IDBObjectStore, ...given) {
      const request = plain.apply(this, given);
      puts += 1;
      if (puts === 2) this.transaction.abort();
      return request;
    });
    takeValue(await store.putMarks(life, 'class-1', someMarks(0, 2)));
    expect(log.whats()).toEqual(['store: failed']);
    expect(takeValue(await store.openClass())?.marks).toEqual(someMarks(0, 2));
  });
});

test('a row that cannot be stored takes the whole transaction with it', async () => {
  const { store, life } = await begunClass();
  const uncloneable = { ...aMark(1), why: () => undefined } as unknown as Mark;
  expect(await store.putMarks(life, 'class-1', [aMark(0), uncloneable])).toEqual(UNAVAILABLE);
  expect(takeValue(await store.openClass())?.marks).toEqual([]);
});

describe('a full disk', () => {
  /** Aborts the transaction as browsers do: its `error` says why, the requests that go with it only say `AbortError`. */
  const fillDisk = (when: 'while requests wait' | 'after the last request'): void => {
    const plain = IDBObjectStore.prototype.put;
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (this: IDBObjectStore, ...given) {
      const request = plain.apply(this, given);
      const tx = this.transaction as unknown as { _state: string; _abort: (name: string) => void };
      const abort = () => {
        if (tx._state !== 'finished') tx._abort('QuotaExceededError');
      };
      if (when === 'while requests wait') setImmediate(abort);
      else request.addEventListener('success', abort);
      return request;
    });
  };

  test.each(['while requests wait', 'after the last request'] as const)(
    'noticed %s is said to be full',
    async (when) => {
      const { store, life } = await begunClass();
      fillDisk(when);
      expect(await store.putMarks(life, 'class-1', someMarks(0, 2))).toEqual({ ok: false, reason: 'full' });
      expect(await store.end(life, ended(aHead()), someMarks(0, 2))).toEqual({ ok: false, reason: 'full' });
      vi.mocked(IDBObjectStore.prototype.put).mockRestore();
      expect(takeValue(await store.openClass())?.marks).toEqual([]);
      takeValue(await store.putMarks(life, 'class-1', someMarks(0, 2)));
    },
  );
});

describe('a database that does not answer', () => {
  /** A suspended window that keeps a write transaction alive on all that a class writes (WebKit PR 67039). */
  const holdDatabase = async (): Promise<() => void> => {
    const raw = await database.openRaw();
    const settings = raw.transaction([...raw.objectStoreNames], 'readwrite').objectStore('settings');
    let isHeld = true;
    const again = (): void => {
      if (isHeld) settings.get('life').addEventListener('success', again);
    };
    again();
    return () => {
      isHeld = false;
    };
  };

  test('is unavailable after two seconds, not earlier', async () => {
    const { store, life } = await begunClass();
    await holdDatabase();
    const answer = heard(store.putMarks(life, 'class-1', someMarks(0, 2)));
    await letDatabaseWork();
    time.advance(1999);
    await letDatabaseWork();
    expect(answer()).toBeNull();
    time.advance(1);
    await letDatabaseWork();
    expect(answer()).toEqual(UNAVAILABLE);
  });

  test('what was given up may land late, beside its second try, and does no harm', async () => {
    const { store, life } = await begunClass();
    const letGo = await holdDatabase();
    const first = heard(store.putMarks(life, 'class-1', someMarks(0, 2)));
    await letDatabaseWork();
    time.advance(2000);
    await letDatabaseWork();
    const second = heard(store.putMarks(life, 'class-1', someMarks(0, 4)));
    await letDatabaseWork();
    letGo();
    await letDatabaseWork();
    expect([first(), second()]).toEqual([UNAVAILABLE, { ok: true, value: null }]);
    expect(database.connections).toHaveLength(2);
    expect(takeValue(await store.openClass())?.marks).toEqual(someMarks(0, 4));
  });

  test('no timer is left behind by what was answered', async () => {
    await begunClass();
    expect(time.waiting()).toBe(0);
  });
});

describe('an opening that does not answer', () => {
  /** Another window is in the middle of making the database, and stuck there: every opening waits for it. */
  const holdOpenings = async (): Promise<() => void> => {
    let isHeld = true;
    const request = database.startRaw(1);
    await new Promise<void>((resolve) => request.addEventListener('upgradeneeded', () => resolve()));
    const rows = request.result.createObjectStore('stuck');
    const again = (): void => {
      if (isHeld) rows.get('x').addEventListener('success', again);
      else request.transaction?.abort();
    };
    again();
    request.addEventListener('error', (event) => event.preventDefault());
    return () => {
      isHeld = false;
    };
  };

  test('is unavailable after two seconds, and what waited for it is not done later', async () => {
    const letGo = await holdOpenings();
    const store = openStore();
    const answer = heard(store.begin(1, aHead(), aPaper()));
    await letDatabaseWork();
    time.advance(2000);
    await letDatabaseWork();
    expect(answer()).toEqual(UNAVAILABLE);
    letGo();
    await letDatabaseWork();
    expect(await store.openClass()).toEqual({ ok: true, value: null });
  });

  test('is waited for across operations, so that a slow phone gets there', async () => {
    const letGo = await holdOpenings();
    const store = openStore();
    void store.takeOver();
    time.advance(2000);
    const second = heard(store.takeOver());
    time.advance(1500);
    letGo();
    await letDatabaseWork();
    expect(second()).toEqual({ ok: true, value: 1 });
    expect(indexedDB.open).toHaveBeenCalledTimes(1);
  });

  test('is given up after ten seconds; when it comes after all it is closed', async () => {
    const letGo = await holdOpenings();
    const store = openStore();
    void store.takeOver();
    time.advance(10_000);
    const later = heard(store.takeOver());
    letGo();
    await letDatabaseWork();
    expect(later()).toEqual({ ok: true, value: 1 });
    expect(indexedDB.open).toHaveBeenCalledTimes(2);
    const [late] = database.connections;
    expect(() => late?.transaction('settings')).toThrow();
  });
});

describe('a newer version of the app', () => {
  test('that waits for this window gets the database at once', async () => {
    await begunClass();
    const newer = await database.openRaw(2);
    expect(newer.version).toBe(2);
  });

  test('that was here before is said: nothing is read, written or changed', async () => {
    const { store, life } = await begunClass();
    (await database.openRaw(2)).close();
    const no = { ok: false, reason: 'tooNew' };
    expect(await store.putMarks(life, 'class-1', someMarks(0, 0))).toEqual(no);
    expect(await store.openClass()).toEqual(no);
    expect(await openStore().takeOver()).toEqual(no);
    expect([await database.count('records'), await database.count('marks')]).toEqual([1, 0]);
  });

  test('that has to wait for an older window notes it', async () => {
    const store = openStore();
    void store.takeOver();
    const request = vi.mocked(indexedDB.open).mock.results[0]?.value as IDBOpenDBRequest;
    request.dispatchEvent(new IDBVersionChangeEvent('blocked', { oldVersion: 0, newVersion: 1 }));
    expect(log.whats()).toEqual(['store: waits for an older window to let go']);
    await letDatabaseWork();
  });
});

describe('how hard the browser is asked to write', () => {
  test.each([
    ['takeOver', 'strict', (store: ClassStore, _life: number) => store.takeOver()],
    ['begin', 'strict', (store: ClassStore, life: number) => store.begin(life, aHead('class-2'), aPaper('b'))],
    ['putMarks', 'strict', (store: ClassStore, life: number) => store.putMarks(life, 'class-1', someMarks(0, 1))],
    ['end', 'strict', (store: ClassStore, life: number) => store.end(life, ended(aHead()), [])],
    ['putBeat', 'relaxed', (store: ClassStore, life: number) => store.putBeat(life, aBeat())],
  ] as const)('%s asks for %s and takes one transaction', async (_what, durability, act) => {
    const { store, life } = await begunClass();
    const made = vi.spyOn(IDBDatabase.prototype, 'transaction');
    takeValue<unknown>(await act(store, life));
    expect(made.mock.calls.map(([, mode, options]) => [mode, options])).toEqual([['readwrite', { durability }]]);
  });
});
