import type { Mark } from '../../src/class-run/marks.ts';
import type { ClassStore, Kept } from '../../src/ports/class-store.ts';
import type { Beat, Paper, RecordHead } from '../../src/records/stored-shapes.ts';
import type { Hold, Write } from './patient-writer.ts';

/** What of one class is not known to be stored yet, and in what order it goes. */
export type WaitingRows = {
  readonly begin: (head: RecordHead, paper: Paper, sinceMs: number) => void;
  readonly add: (mark: Mark, sinceMs: number) => void;
  /** The newest only: an older one that still waits is worth nothing. */
  readonly beat: (beat: Beat) => void;
  readonly end: (head: RecordHead, sinceMs: number) => void;
  readonly next: (store: ClassStore, life: number) => Write | null;
  /** The seq of the last mark known to be stored, all before it too; null when none is. */
  readonly keptSeq: () => number | null;
  /** The seq that the next mark must have. */
  readonly nextSeq: () => number;
  /** Since when the oldest of them waits; beats do not count. */
  readonly sinceMs: () => number | null;
  readonly isEmpty: () => boolean;
  readonly clear: () => void;
};

/** Marks of one transaction: enough for any press, few enough to be written within the store's limit. */
const MOST_AT_ONCE = 100;

type Waiting<T> = { readonly row: T; readonly sinceMs: number };

export function waitingRows(recordId: string, storedSeq: number | null): WaitingRows {
  let beginning: Waiting<{ readonly head: RecordHead; readonly paper: Paper }> | null = null;
  let marks: readonly Waiting<Mark>[] = [];
  let ending: Waiting<RecordHead> | null = null;
  let isEnded = false;
  let newestBeat: Beat | null = null;
  let keptSeq = storedSeq;

  const holdMarks = (held: readonly Waiting<Mark>[]): void => {
    const last = held.at(-1)?.row.seq;
    if (last === undefined || (keptSeq !== null && last <= keptSeq)) return;
    keptSeq = last;
    marks = marks.filter((one) => one.row.seq > last);
  };

  const writeBegin = (store: ClassStore, life: number, one: NonNullable<typeof beginning>): Write =>
    holding(
      () => store.begin(life, one.row.head, one.row.paper),
      () => {
        if (beginning === one) beginning = null;
      },
    );

  const writeMarks = (store: ClassStore, life: number, some: readonly Waiting<Mark>[]): Write =>
    holding(
      () => store.putMarks(life, recordId, some.map(rowOf)),
      () => holdMarks(some),
    );

  const writeEnd = (store: ClassStore, life: number, one: Waiting<RecordHead>): Write => {
    const rest = marks;
    return holding(
      () => store.end(life, one.row, rest.map(rowOf)),
      () => {
        holdMarks(rest);
        if (ending === one) ending = null;
      },
    );
  };

  const writeBeat = (store: ClassStore, life: number, one: Beat): Write =>
    holding(
      // The number it is written under, which may have come after the beat.
      () => store.putBeat(life, { ...one, life }),
      () => {
        if (newestBeat === one) newestBeat = null;
      },
    );

  return {
    begin: (head, paper, sinceMs) => {
      beginning = { row: { head, paper }, sinceMs };
    },
    add: (mark, sinceMs) => {
      marks = [...marks, { row: mark, sinceMs }];
    },
    beat: (beat) => {
      if (!isEnded) newestBeat = beat;
    },
    end: (head, sinceMs) => {
      ending = { row: head, sinceMs };
      isEnded = true;
      newestBeat = null;
    },
    next: (store, life) => {
      if (beginning !== null) return writeBegin(store, life, beginning);
      if (ending !== null && marks.length <= MOST_AT_ONCE) return writeEnd(store, life, ending);
      if (marks.length > 0) return writeMarks(store, life, marks.slice(0, MOST_AT_ONCE));
      return newestBeat === null ? null : writeBeat(store, life, newestBeat);
    },
    keptSeq: () => keptSeq,
    nextSeq: () => (marks.at(-1)?.row.seq ?? keptSeq ?? -1) + 1,
    sinceMs: () => {
      const all = [beginning, marks[0] ?? null, ending].flatMap((one) => (one === null ? [] : [one.sinceMs]));
      return all.length === 0 ? null : Math.min(...all);
    },
    isEmpty: () => beginning === null && marks.length === 0 && ending === null && newestBeat === null,
    clear: () => {
      beginning = null;
      marks = [];
      ending = null;
      isEnded = true;
      newestBeat = null;
    },
  };
}

/** A write that, once it is known to be done, is followed by `hold`. True also when heard late: the row is there. */
function holding(write: () => Promise<Kept<null>>, hold: Hold): Write {
  return async () => {
    const answer = await write();
    return answer.ok ? { ok: true, value: hold } : answer;
  };
}

function rowOf(one: Waiting<Mark>): Mark {
  return one.row;
}
