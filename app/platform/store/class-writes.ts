import type { Mark } from '../../../src/class-run/marks.ts';
import type { ClassStore, Kept } from '../../../src/ports/class-store.ts';
import type { Paper, RecordHead } from '../../../src/records/stored-shapes.ts';
import { headRow, markRow } from './class-rows.ts';
import type { StoreName, WriteTx } from './hallpace-db.ts';
import { kept, NOTHING, no } from './store-answer.ts';
import { type StoreTransactions, together } from './store-transactions.ts';

export type ClassWrites = Pick<ClassStore, 'takeOver' | 'begin' | 'putMarks' | 'putBeat' | 'end'>;

/** What an operation of a class puts once its number has been checked. */
type Put = (tx: WriteTx) => Promise<unknown>;

export function classWrites(db: StoreTransactions): ClassWrites {
  /** Checks the fencing number inside the very transaction that writes: nobody can take over in between. */
  const fenced = (stores: StoreName[], durability: 'strict' | 'relaxed', life: number, put: Put): Promise<Kept<null>> =>
    db.write(['settings', ...stores], durability, async (tx) => {
      const settings = tx.objectStore('settings');
      const newest = lifeOf(await settings.get('life'));
      if (newest > life) return no('fenced');
      // Storage was cleared under a running class: its number stands again, or the next window would get a lower one.
      const raise = newest < life ? [() => settings.put(life, 'life')] : [];
      await together([...raise, () => put(tx)]);
      return NOTHING;
    });

  return {
    takeOver: () =>
      db.write(['settings'], 'strict', async (tx) => {
        const settings = tx.objectStore('settings');
        const life = lifeOf(await settings.get('life')) + 1;
        await settings.put(life, 'life');
        return kept(life);
      }),

    begin: (life, head, paper) => fenced(['records', 'papers'], 'strict', life, (tx) => putBeginning(tx, head, paper)),
    putMarks: (life, recordId, marks) =>
      fenced(['marks'], 'strict', life, (tx) => together(putsOf(tx, recordId, marks))),
    // Overwritten every 2 s: not worth a flush of the disk each time.
    putBeat: (life, beat) => fenced(['beats'], 'relaxed', life, (tx) => tx.objectStore('beats').put(beat)),
    end: (life, head, marks) =>
      fenced(['records', 'marks', 'beats'], 'strict', life, (tx) =>
        together([
          ...putsOf(tx, head.id, marks),
          () => tx.objectStore('records').put(headRow(head)),
          () => tx.objectStore('beats').delete(head.id),
        ]),
      ),
  };
}

function putsOf(tx: WriteTx, recordId: string, marks: readonly Mark[]): readonly (() => Promise<unknown>)[] {
  return marks.map((mark) => () => tx.objectStore('marks').put(markRow(recordId, mark)));
}

async function putBeginning(tx: WriteTx, head: RecordHead, paper: Paper): Promise<void> {
  const [records, papers] = [tx.objectStore('records'), tx.objectStore('papers')];
  const paperKey = await papers.getKey(paper.hash);
  const there = await records.get(head.id);
  // A late second beginning must not open a class again that has ended since.
  const hasEnded = there !== undefined && there.openSince === undefined;
  await together([
    ...(hasEnded ? [] : [() => records.put(headRow(head))]),
    ...(paperKey === undefined ? [() => papers.put(paper)] : []),
  ]);
}

function lifeOf(raw: unknown): number {
  return typeof raw === 'number' && Number.isSafeInteger(raw) && raw > 0 ? raw : 0;
}
