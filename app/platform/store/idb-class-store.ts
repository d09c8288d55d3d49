import type { ClassStore } from '../../../src/ports/class-store.ts';
import { parseHallCard, parseNote } from '../../../src/records/record.ts';
import { classReads } from './class-reads.ts';
import { keysOf } from './class-rows.ts';
import { classWrites } from './class-writes.ts';
import { kept, NOTHING, no } from './store-answer.ts';
import type { StoreTransactions } from './store-transactions.ts';

type NotesAndCard = Pick<ClassStore, 'addNote' | 'notesOf' | 'hallCard' | 'putHallCard'>;

/** Classes, notes and the hall card in the browser's database. */
export function idbClassStore(db: StoreTransactions): ClassStore {
  return { ...classWrites(db), ...classReads(db), ...notesAndCard(db) };
}

function notesAndCard(db: StoreTransactions): NotesAndCard {
  return {
    addNote: (note) =>
      db.write(['notes'], 'strict', async (tx) => {
        const notes = tx.objectStore('notes');
        // The set only grows: what a note says is never changed.
        if ((await notes.getKey([note.recordId, note.noteId])) === undefined) await notes.put(note);
        return NOTHING;
      }),

    notesOf: (recordId) =>
      db.read(['notes'], async (tx) => {
        const rows: readonly unknown[] = await tx.objectStore('notes').getAll(keysOf(recordId));
        return kept(rows.map(parseNote).flatMap((note) => (note.ok ? [note.value] : [])));
      }),

    hallCard: () =>
      db.read(['settings'], async (tx) => {
        const row: unknown = await tx.objectStore('settings').get('hallCard');
        if (row === undefined) return kept(null);
        const card = parseHallCard(row);
        return card.ok ? kept(card.value) : no(card.reason);
      }),

    putHallCard: (card) =>
      db.write(['settings'], 'strict', async (tx) => {
        await tx.objectStore('settings').put(card, 'hallCard');
        return NOTHING;
      }),
  };
}
