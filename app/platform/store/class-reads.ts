import type { Mark } from '../../../src/class-run/marks.ts';
import type { ClassStore, Kept, OpenClass, RecordLine, StoreReason } from '../../../src/ports/class-store.ts';
import { parsePaper } from '../../../src/records/paper.ts';
import { parseBeat, parseMarkRow, parseRecordHead } from '../../../src/records/record.ts';
import type { Paper } from '../../../src/records/stored-shapes.ts';
import { headIn, keysOf } from './class-rows.ts';
import type { ReadTx } from './hallpace-db.ts';
import { kept, no } from './store-answer.ts';
import type { StoreTransactions } from './store-transactions.ts';

export type ClassReads = Pick<ClassStore, 'readClass' | 'openClass' | 'listRecords'>;

export function classReads(db: StoreTransactions): ClassReads {
  /** The paper read last: what is kept under a hash never changes, and to read one takes a while. */
  let lastPaper: Paper | null = null;
  const readOpenClass = async (tx: ReadTx, row: unknown): Promise<Kept<OpenClass>> => {
    const found = await openClassIn(tx, row, lastPaper);
    if (found.ok) lastPaper = found.value.paper;
    return found;
  };
  return {
    readClass: (recordId) =>
      db.read(['records', 'papers', 'marks', 'beats'], async (tx) => {
        const row: unknown = await tx.objectStore('records').get(recordId);
        return row === undefined ? kept(null) : readOpenClass(tx, row);
      }),

    openClass: () =>
      db.read(['records', 'papers', 'marks', 'beats'], async (tx) => {
        let firstReason: StoreReason | null = null;
        const open = tx.objectStore('records').index('openSince');
        for (let at = await open.openCursor(null, 'prev'); at !== null; at = await at.continue()) {
          const found = await readOpenClass(tx, at.value);
          if (found.ok) return found;
          firstReason ??= found.reason;
        }
        return firstReason === null ? kept(null) : no(firstReason);
      }),

    listRecords: (beforeWallMs, limit) =>
      db.read(['records', 'marks'], async (tx) => {
        const lines: RecordLine[] = [];
        const range = IDBKeyRange.upperBound(beforeWallMs, true);
        let lastStart: number | null = null;
        let at = limit > 0 ? await tx.objectStore('records').index('startedWallMs').openCursor(range, 'prev') : null;
        while (at !== null && (lines.length < limit || at.key === lastStart)) {
          lines.push(await readLine(tx, at.primaryKey, at.value));
          lastStart = at.key;
          at = await at.continue();
        }
        return kept(lines);
      }),
  };
}

async function openClassIn(tx: ReadTx, row: unknown, known: Paper | null): Promise<Kept<OpenClass>> {
  const head = parseRecordHead(headIn(row));
  if (!head.ok) return no(head.reason);
  const { id, paperHash } = head.value;
  const isKnown = known?.hash === paperHash;
  // Asked for at once: each answer awaited alone costs a turn of its own while the page opens.
  const [paperRow, markRows, beatRow]: readonly [unknown, readonly unknown[], unknown] = await Promise.all([
    isKnown ? null : tx.objectStore('papers').get(paperHash),
    tx.objectStore('marks').getAll(keysOf(id)),
    tx.objectStore('beats').get(id),
  ]);
  const paper = isKnown ? kept(known) : parsePaper(paperRow);
  if (!paper.ok) return no(paper.reason);
  const marks = readMarks(markRows);
  if (!marks.ok) return marks;
  const beat = parseBeat(beatRow);
  return kept({ head: head.value, paper: paper.value, marks: marks.value, beat: beat.ok ? beat.value : null });
}

/** A missing tail is a shorter class; a hole is none: who went on from before it would write over what lies behind. */
function readMarks(rows: readonly unknown[]): Kept<readonly Mark[]> {
  const marks: Mark[] = [];
  for (const raw of rows) {
    const row = parseMarkRow(raw);
    if (!row.ok) return no(row.reason);
    if (row.value.seq !== marks.length) return no('unreadable');
    marks.push(row.value.mark);
  }
  return kept(marks);
}

async function readLine(tx: ReadTx, id: string, row: unknown): Promise<RecordLine> {
  const head = parseRecordHead(headIn(row));
  if (!head.ok) return { readable: false, id, reason: head.reason };
  const last = await tx.objectStore('marks').openKeyCursor(keysOf(id), 'prev');
  return { readable: true, head: head.value, lastSeq: last === null ? -1 : last.primaryKey[1] };
}
