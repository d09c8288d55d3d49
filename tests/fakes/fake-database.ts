import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { vi } from 'vitest';

/** An empty database in place of the browser's, for this test only. */
export type FakeDatabase = {
  readonly indexedDb: globalThis.IDBFactory;
  /** Every connection that was opened, in order; tests close them behind the app's back. */
  readonly connections: IDBDatabase[];
  /** Replaces the raw row; `undefined` takes it away. Throws where none is there: a test must not spoil nothing. */
  readonly spoil: (store: string, key: IDBValidKey, change: (row: object) => unknown) => Promise<void>;
  readonly count: (store: string) => Promise<number>;
  /** Another connection, as another window has it. */
  readonly openRaw: (version?: number) => Promise<IDBDatabase>;
  /** The same, still to be answered. */
  readonly startRaw: (version?: number) => IDBOpenDBRequest;
};

export function fakeDatabase(): FakeDatabase {
  const indexedDb = new IDBFactory();
  const connections: IDBDatabase[] = [];
  const openPlain = indexedDb.open.bind(indexedDb);

  vi.spyOn(indexedDb, 'open').mockImplementation((name, version) => {
    const request = openPlain(name, version);
    request.addEventListener('success', () => connections.push(request.result));
    return request;
  });
  vi.stubGlobal('indexedDB', indexedDb);

  const startRaw = (version?: number): IDBOpenDBRequest => openPlain('hallpace', version);
  const openRaw = (version?: number): Promise<IDBDatabase> => answerOf(startRaw(version));

  return {
    indexedDb,
    connections,
    openRaw,
    startRaw,
    spoil: async (store, key, change) => {
      const db = await openRaw();
      const rows = db.transaction(store, 'readwrite').objectStore(store);
      const row: unknown = await answerOf(rows.get(key));
      if (typeof row !== 'object' || row === null) throw new Error('there is no such row to spoil');
      const changed = change(row);
      if (changed === undefined) await answerOf(rows.delete(key));
      else await answerOf(rows.put(changed, rows.keyPath === null ? key : undefined));
      db.close();
    },
    count: async (store) => {
      const db = await openRaw();
      const count = await answerOf(db.transaction(store).objectStore(store).count());
      db.close();
      return count;
    },
  };
}

function answerOf<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.addEventListener('success', () => resolve(request.result));
    request.addEventListener('error', () => reject(request.error));
  });
}

/** Lets the fake database, which works in tasks of the event loop, do what it can do by now. */
export async function letDatabaseWork(): Promise<void> {
  for (let turn = 0; turn < 50; turn += 1) await new Promise((resolve) => setImmediate(resolve));
}
