import type { Mark } from '../../../src/class-run/marks.ts';
import { type MarkRow, type RecordHead, STORED_VERSION } from '../../../src/records/stored-shapes.ts';
import type { HeadRow } from './hallpace-db.ts';

export function headRow(head: RecordHead): HeadRow {
  return head.endedWallMs === null ? { ...head, openSince: head.startedWallMs } : head;
}

/** The head as it was given, still unknown: rows are parsed strictly, and `openSince` is no part of the stored shape. */
export function headIn(row: unknown): unknown {
  if (typeof row !== 'object' || row === null) return row;
  const { openSince: _openSince, ...head } = row as HeadRow;
  return head;
}

export function markRow(recordId: string, mark: Mark): MarkRow {
  return { v: STORED_VERSION, recordId, seq: mark.seq, mark };
}

/** All keys that begin with `first`, whatever comes second: in key order a list stands behind every number and text. */
export function keysOf(first: string): IDBKeyRange {
  return IDBKeyRange.bound([first], [first, []]);
}
