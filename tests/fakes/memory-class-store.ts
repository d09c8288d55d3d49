import type { Mark } from '../../src/class-run/marks.ts';
import type { ClassStore, Kept, OpenClass, RecordLine, StoreReason } from '../../src/ports/class-store.ts';
import { parsePaper } from '../../src/records/paper.ts';
import { parseBeat, parseHallCard, parseMarkRow, parseNote, parseRecordHead } from '../../src/records/record.ts';
import type { RecordHead } from '../../src/records/stored-shapes.ts';
import { type MemoryDisk, memoryDisk, within } from './memory-disk.ts';
import { type Told, wilful } from './wilful.ts';

export type MemoryClassStore = ClassStore & Told & { readonly disk: MemoryDisk };

const NOTHING: Kept<null> = { ok: true, value: null };

/** A class store without a database, for one window over `disk`; does as it is told. */
export function memoryClassStore(disk: MemoryDisk = memoryDisk()): MemoryClassStore {
  const will = wilful();

  const fenced = (life: number, put: () => void): Promise<Kept<null>> =>
    will.act(() => {
      if (disk.life > life) return { ok: false, reason: 'fenced' };
      disk.life = life;
      put();
      return NOTHING;
    });

  const putMarks = (recordId: string, marks: readonly Mark[]): void => {
    for (const mark of marks) {
      within(disk.marks, recordId).set(mark.seq, structuredClone({ v: 1, recordId, seq: mark.seq, mark }));
    }
  };

  return {
    ...will,
    disk,
    takeOver: () =>
      will.act(() => {
        disk.life += 1;
        return { ok: true, value: disk.life };
      }),
    begin: (life, head, paper) =>
      fenced(life, () => {
        if (!hasEnded(disk.heads.get(head.id))) disk.heads.set(head.id, structuredClone(head));
        if (!disk.papers.has(paper.hash)) disk.papers.set(paper.hash, structuredClone(paper));
      }),
    putMarks: (life, recordId, marks) => fenced(life, () => putMarks(recordId, marks)),
    putBeat: (life, beat) => fenced(life, () => disk.beats.set(beat.recordId, structuredClone(beat))),
    end: (life, head, marks) =>
      fenced(life, () => {
        putMarks(head.id, marks);
        disk.heads.set(head.id, structuredClone(head));
        disk.beats.delete(head.id);
      }),
    readClass: (recordId) =>
      will.act<OpenClass | null>(() =>
        disk.heads.has(recordId) ? readClass(disk, recordId) : { ok: true, value: null },
      ),
    openClass: () => will.act(() => openClassOf(disk)),
    listRecords: (beforeWallMs, limit) =>
      will.act(() => ({ ok: true, value: pageOf(disk, beforeWallMs, limit).map((id) => lineOf(disk, id)) })),
    addNote: (note) =>
      will.act(() => {
        const notes = within(disk.notes, note.recordId);
        if (!notes.has(note.noteId)) notes.set(note.noteId, structuredClone(note));
        return NOTHING;
      }),
    notesOf: (recordId) =>
      will.act(() => {
        const rows = [...within(disk.notes, recordId)].sort(([a], [b]) => (a < b ? -1 : 1));
        const notes = rows.map(([, row]) => parseNote(row)).flatMap((note) => (note.ok ? [note.value] : []));
        return { ok: true, value: notes };
      }),
    hallCard: () =>
      will.act(() => {
        if (disk.hallCard === undefined) return { ok: true, value: null };
        const card = parseHallCard(disk.hallCard);
        return card.ok ? card : { ok: false, reason: card.reason };
      }),
    putHallCard: (card) =>
      will.act(() => {
        disk.hallCard = structuredClone(card);
        return NOTHING;
      }),
  };
}

/** What the store itself reads of a head that it may not understand. */
function roughly(row: unknown): Pick<RecordHead, 'startedWallMs' | 'endedWallMs'> | undefined {
  return row as RecordHead | undefined;
}

function hasEnded(row: unknown): boolean {
  return row !== undefined && roughly(row)?.endedWallMs !== null;
}

function startOf(row: unknown): number {
  return roughly(row)?.startedWallMs ?? Number.NaN;
}

/** Ids of all heads, newest first; of those that started in the same ms the greater id first. */
function newestFirst(disk: MemoryDisk): readonly string[] {
  const all = [...disk.heads].sort(([a, left], [b, right]) => startOf(right) - startOf(left) || (a < b ? 1 : -1));
  return all.map(([id]) => id);
}

function pageOf(disk: MemoryDisk, beforeWallMs: number, limit: number): readonly string[] {
  const before = newestFirst(disk).filter((id) => startOf(disk.heads.get(id)) < beforeWallMs);
  const last = before[limit - 1];
  if (last === undefined) return limit > 0 ? before : [];
  const lastStart = startOf(disk.heads.get(last));
  return before.filter((id, at) => at < limit || startOf(disk.heads.get(id)) === lastStart);
}

function lineOf(disk: MemoryDisk, id: string): RecordLine {
  const head = parseRecordHead(disk.heads.get(id));
  if (!head.ok) return { readable: false, id, reason: head.reason };
  return { readable: true, head: head.value, lastSeq: Math.max(-1, ...within(disk.marks, id).keys()) };
}

function openClassOf(disk: MemoryDisk): Kept<OpenClass | null> {
  let firstReason: StoreReason | null = null;
  for (const id of newestFirst(disk).filter((one) => !hasEnded(disk.heads.get(one)))) {
    const found = readClass(disk, id);
    if (found.ok) return found;
    firstReason ??= found.reason;
  }
  return firstReason === null ? { ok: true, value: null } : { ok: false, reason: firstReason };
}

function readClass(disk: MemoryDisk, id: string): Kept<OpenClass> {
  const head = parseRecordHead(disk.heads.get(id));
  if (!head.ok) return { ok: false, reason: head.reason };
  const paper = parsePaper(disk.papers.get(head.value.paperHash));
  if (!paper.ok) return { ok: false, reason: paper.reason };
  const marks: Mark[] = [];
  for (const [, raw] of [...within(disk.marks, id)].sort(([a], [b]) => a - b)) {
    const row = parseMarkRow(raw);
    if (!row.ok) return { ok: false, reason: row.reason };
    if (row.value.seq !== marks.length) return { ok: false, reason: 'unreadable' };
    marks.push(row.value.mark);
  }
  const beat = parseBeat(disk.beats.get(id));
  return { ok: true, value: { head: head.value, paper: paper.value, marks, beat: beat.ok ? beat.value : null } };
}
