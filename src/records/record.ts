import * as v from 'valibot';
import { freeText, idField, instantField, lengthMsField, nameField, numberedField } from './fields.ts';
import { parseMark } from './marks.ts';
import { check, type Parsed, refuse, within } from './parsed.ts';
import { type Beat, type HallCard, type MarkRow, type Note, type RecordHead, STORED_VERSION } from './stored-shapes.ts';
import { parseRow, type RawRow, type StoredReason, type Upgrade } from './upgrade.ts';

const versionField = v.literal(STORED_VERSION);

const headSchema = v.strictObject({
  v: versionField,
  id: idField,
  startedWallMs: instantField,
  zone: freeText(100),
  planId: idField,
  planName: nameField,
  paperHash: v.pipe(v.string(), v.regex(/^[0-9a-f]{64}$/)),
  courseId: v.nullable(idField),
  endedWallMs: v.nullable(instantField),
  outcome: v.nullable(v.picklist(['finished', 'abandoned'])),
});

const beatSchema = v.strictObject({
  v: versionField,
  recordId: idField,
  life: numberedField,
  atMs: lengthMsField,
  wallMs: instantField,
});

const noteSchema = v.strictObject({
  v: versionField,
  recordId: idField,
  noteId: idField,
  field: freeText(100),
  value: freeText(10_000),
  wallMs: instantField,
  phoneId: idField,
});

const hallCardSchema = v.strictObject({
  v: versionField,
  address: freeText(1000),
  defibrillator: freeText(1000),
  emergencyNumber: freeText(100),
});

const markRowSchema = v.strictObject({ v: versionField, recordId: idField, seq: numberedField, mark: v.unknown() });

// Version 1 is today's: nothing to upgrade yet. The upgrade from version n of a shape stands at place n - 1 of its list.
const headUpgrades: readonly Upgrade[] = [];
const beatUpgrades: readonly Upgrade[] = [];
const noteUpgrades: readonly Upgrade[] = [];
const hallCardUpgrades: readonly Upgrade[] = [];
const markUpgrades: readonly Upgrade[] = [];

/** The head of a class record as stored. */
export function parseRecordHead(raw: unknown): Parsed<RecordHead, StoredReason> {
  return parseRow(raw, headUpgrades, (row) => check(headSchema, row));
}

/** The last beat as stored. */
export function parseBeat(raw: unknown): Parsed<Beat, StoredReason> {
  return parseRow(raw, beatUpgrades, (row) => check(beatSchema, row));
}

/** One note as stored. */
export function parseNote(raw: unknown): Parsed<Note, StoredReason> {
  return parseRow(raw, noteUpgrades, (row) => check(noteSchema, row));
}

/** The hall card as stored. */
export function parseHallCard(raw: unknown): Parsed<HallCard, StoredReason> {
  return parseRow(raw, hallCardUpgrades, (row) => check(hallCardSchema, row));
}

/** One mark with its record, as stored. A mark under another number than its own is unreadable. */
export function parseMarkRow(raw: unknown): Parsed<MarkRow, StoredReason> {
  return parseRow(raw, markUpgrades, checkMarkRow);
}

function checkMarkRow(row: RawRow): Parsed<MarkRow> {
  const outer = check(markRowSchema, row);
  if (!outer.ok) return outer;
  const mark = parseMark(outer.value.mark);
  if (!mark.ok) return within(['mark'], mark);
  if (mark.value.seq !== outer.value.seq) return refuse('badField', ['mark', 'seq']);
  return { ok: true, value: { ...outer.value, mark: mark.value } };
}
