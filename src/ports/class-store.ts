import type { Mark } from '../class-run/marks.ts';
import type { Beat, HallCard, Note, Paper, RecordHead } from '../records/stored-shapes.ts';

/**
 * Why a write or read did not happen. `fenced`: another window has taken over (never retry). `full`: no room.
 * `unreadable`: what is stored does not parse. `tooNew`: written by a newer version. `unavailable`: no database, or it
 * is blocked, lost or slow: try again on a fresh connection.
 */
export type StoreReason = 'fenced' | 'full' | 'unreadable' | 'tooNew' | 'unavailable';

export type Kept<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly reason: StoreReason };

/** A class with its papers and marks; one that has not ended has all that is needed to go on. */
export type OpenClass = {
  readonly head: RecordHead;
  readonly paper: Paper;
  readonly marks: readonly Mark[];
  /** Null when no beat was kept: the last mark is then the latest word. */
  readonly beat: Beat | null;
};

/** One line of the list of classes that ran. `readable` false: kept, but this version cannot read it. */
export type RecordLine =
  | { readonly readable: true; readonly head: RecordHead; readonly lastSeq: number }
  | { readonly readable: false; readonly id: string; readonly reason: 'unreadable' | 'tooNew' };

/** Keeps classes. Every promise settles, also when the disk is full or the connection dies; none rejects. */
export type ClassStore = {
  /** Raises the fencing number; from then on every write with an older `life` is refused as `fenced`. */
  readonly takeOver: () => Promise<Kept<number>>;
  /** Paper (once per content) and head, in one transaction; the same record may be put twice. */
  readonly begin: (life: number, head: RecordHead, paper: Paper) => Promise<Kept<null>>;
  /** Puts marks strictly in one transaction, or none; the same mark may be put twice. */
  readonly putMarks: (life: number, recordId: string, marks: readonly Mark[]) => Promise<Kept<null>>;
  readonly putBeat: (life: number, beat: Beat) => Promise<Kept<null>>;
  /** Marks and the ended head in one transaction. */
  readonly end: (life: number, head: RecordHead, marks: readonly Mark[]) => Promise<Kept<null>>;
  /** One class, ended or not, or null when there is none of that id. */
  readonly readClass: (recordId: string) => Promise<Kept<OpenClass | null>>;
  /** The newest class without an end, or null. */
  readonly openClass: () => Promise<Kept<OpenClass | null>>;
  /**
   * Newest first by start; at most `limit` heads that started before `beforeWallMs`, and those that started in the same
   * ms as the last of them, so that paging on by it misses none. `lastSeq` is -1 where no mark was kept.
   */
  readonly listRecords: (beforeWallMs: number, limit: number) => Promise<Kept<readonly RecordLine[]>>;
  readonly addNote: (note: Note) => Promise<Kept<null>>;
  readonly notesOf: (recordId: string) => Promise<Kept<readonly Note[]>>;
  readonly hallCard: () => Promise<Kept<HallCard | null>>;
  readonly putHallCard: (card: HallCard) => Promise<Kept<null>>;
};
