import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB, type StoreNames } from 'idb';
import type {
  Beat,
  HallCard,
  KeptPlanRow,
  MarkRow,
  Note,
  Paper,
  RecordHead,
} from '../../../src/records/stored-shapes.ts';

// The only file that knows idb. Rows are typed for writing; what is read counts as unknown until it is parsed.

/** A head with what only the store needs: `openSince` is there while the class has no end, so that an index finds it. */
export type HeadRow = RecordHead & { readonly openSince?: number };

export interface HallpaceSchema extends DBSchema {
  plans: {
    key: [planId: string, rev: string];
    value: KeptPlanRow;
    indexes: { savedWallMs: number; byPlan: [planId: string, savedWallMs: number] };
  };
  /** Once per content, by its hash. */
  papers: { key: string; value: Paper };
  records: { key: string; value: HeadRow; indexes: { startedWallMs: number; openSince: number } };
  marks: { key: [recordId: string, seq: number]; value: MarkRow };
  beats: { key: string; value: Beat };
  notes: { key: [recordId: string, noteId: string]; value: Note };
  /** `life` is the fencing number. */
  settings: { key: 'life' | 'hallCard' | 'phoneId'; value: number | HallCard | string };
}

export type StoreName = StoreNames<HallpaceSchema>;
export type Connection = IDBPDatabase<HallpaceSchema>;
export type ReadTx = IDBPTransaction<HallpaceSchema, StoreName[], 'readonly'>;
export type WriteTx = IDBPTransaction<HallpaceSchema, StoreName[], 'readwrite'>;

/** What can befall an opening or an open connection from outside. */
export type ConnectionMoments = {
  /** Our newer version waits for windows with an older one to let go. */
  readonly blocked: () => void;
  /** A window with a newer version, or who clears the storage, waits for us to let go. */
  readonly blocking: () => void;
  /** The browser took the connection away. */
  readonly terminated: () => void;
};

const NAME = 'hallpace';
const VERSION = 1;

/** Async so that a browser in which even the name `indexedDB` throws gives a rejection like any other. */
export async function openHallpaceDb(moments: ConnectionMoments): Promise<Connection> {
  return openDB<HallpaceSchema>(NAME, VERSION, {
    ...moments,
    upgrade: (db, oldVersion) => {
      if (oldVersion < 1) makeVersion1(db);
    },
  });
}

/** Released versions are never edited: what comes later gets a step of its own. */
function makeVersion1(db: Connection): void {
  const plans = db.createObjectStore('plans', { keyPath: ['plan.id', 'plan.rev'] });
  plans.createIndex('savedWallMs', 'savedWallMs');
  plans.createIndex('byPlan', ['plan.id', 'savedWallMs']);
  const records = db.createObjectStore('records', { keyPath: 'id' });
  records.createIndex('startedWallMs', 'startedWallMs');
  records.createIndex('openSince', 'openSince');
  db.createObjectStore('papers', { keyPath: 'hash' });
  db.createObjectStore('marks', { keyPath: ['recordId', 'seq'] });
  db.createObjectStore('beats', { keyPath: 'recordId' });
  db.createObjectStore('notes', { keyPath: ['recordId', 'noteId'] });
  db.createObjectStore('settings');
}
