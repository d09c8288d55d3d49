import { idbClassStore } from '../../../../app/platform/store/idb-class-store.ts';
import { storeTransactions } from '../../../../app/platform/store/store-transactions.ts';
import { type ClassStoreHarness, classStoreContract, type Place } from '../../../contracts/class-store.ts';
import { fakeClocks } from '../../../fakes/fake-clocks.ts';
import { fakeDatabase } from '../../../fakes/fake-database.ts';
import { memoryClassStore } from '../../../fakes/memory-class-store.ts';
import { type MemoryDisk, within } from '../../../fakes/memory-disk.ts';
import { memoryLog } from '../../../fakes/memory-log.ts';

classStoreContract('the browser database', async () => {
  const database = fakeDatabase();
  const open = () => idbClassStore(storeTransactions({ timers: fakeClocks().timers, log: memoryLog() }));
  return { store: open(), again: open, spoil: database.spoil, count: database.count };
});

classStoreContract('the double in memory', async (): Promise<ClassStoreHarness> => {
  const store = memoryClassStore();
  return {
    store,
    again: () => memoryClassStore(store.disk),
    spoil: async (place, key, change) => spoil(store.disk, place, key, change),
    count: async (place) => [...rowsIn(store.disk, place)].length,
  };
});

function spoil(disk: MemoryDisk, place: Place, key: IDBValidKey, change: (row: object) => unknown): void {
  if (place === 'settings') {
    disk.hallCard = change(disk.hallCard as object);
    return;
  }
  const [rows, at] = Array.isArray(key) ? [innerRows(disk, place, key), key[1]] : [outerRows(disk, place), key];
  const row = rows.get(at);
  if (typeof row !== 'object' || row === null) throw new Error('there is no such row to spoil');
  const changed = change(row);
  if (changed === undefined) rows.delete(at);
  else rows.set(at, changed);
}

function innerRows(disk: MemoryDisk, place: Place, key: IDBValidKey[]): Map<unknown, unknown> {
  return place === 'marks' ? within(disk.marks, String(key[0])) : within(disk.notes, String(key[0]));
}

function outerRows(disk: MemoryDisk, place: Place): Map<unknown, unknown> {
  if (place === 'records') return disk.heads;
  return place === 'papers' ? disk.papers : disk.beats;
}

function rowsIn(disk: MemoryDisk, place: Place): Iterable<unknown> {
  if (place !== 'marks' && place !== 'notes') return outerRows(disk, place).values();
  return [...disk[place].values()].flatMap((inner) => [...inner.values()]);
}
