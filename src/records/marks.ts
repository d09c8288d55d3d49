import * as v from 'valibot';
import type { Happening, Mark } from '../class-run/marks.ts';
import { idField, instantField, lengthMsField, numberedField, whole } from './fields.ts';
import { check, type Parsed, refuse } from './parsed.ts';
import { spanSchema } from './running-order.ts';

const accountField = v.picklist(['given', 'skipped', 'trimmed']);

const editSchema = v.variant('do', [
  v.strictObject({ do: v.literal('resize'), span: numberedField, toMs: lengthMsField, account: accountField }),
  v.strictObject({
    do: v.literal('insert'),
    after: numberedField,
    spans: v.array(spanSchema),
    account: v.literal('given'),
  }),
]);

const whyField = v.picklist(['skip', 'back', 'give', 'drop', 'trim', 'finishEarly', 'countIn', 'wentOn']);

// Evidence is any finite number: only what replay reads must be whole, and evidence must never cost anyone a class.

/** Everything that a mark holds whatever happened. */
const always = {
  seq: numberedField,
  atMs: lengthMsField,
  seen: v.strictObject({ monoMs: instantField, wallMs: instantField, life: numberedField }),
};

// One schema by kind, looked up and not tried one after another: a resumed class reads thousands of marks at once.
const byKind: { readonly [Kind in Happening['kind']]: v.GenericSchema<unknown, Extract<Mark, { kind: Kind }>> } = {
  started: v.strictObject({ ...always, kind: v.literal('started') }),
  paused: v.strictObject({ ...always, kind: v.literal('paused'), cause: v.picklist(['asked', 'hurt']) }),
  carriedOn: v.strictObject({ ...always, kind: v.literal('carriedOn') }),
  changed: v.strictObject({
    ...always,
    kind: v.literal('changed'),
    why: whyField,
    entryId: v.nullable(idField),
    edits: v.array(editSchema),
  }),
  showed: v.strictObject({ ...always, kind: v.literal('showed'), entryId: idField, level: whole(-20, 20) }),
  away: v.strictObject({ ...always, kind: v.literal('away'), byMs: instantField }),
  asked: v.strictObject({ ...always, kind: v.literal('asked'), gapMs: instantField }),
  ranOn: v.strictObject({ ...always, kind: v.literal('ranOn') }),
  stood: v.strictObject({ ...always, kind: v.literal('stood'), byMs: lengthMsField }),
  wallMoved: v.strictObject({ ...always, kind: v.literal('wallMoved'), byMs: instantField }),
  finished: v.strictObject({ ...always, kind: v.literal('finished') }),
  abandoned: v.strictObject({ ...always, kind: v.literal('abandoned') }),
};

/** One stored mark, checked whole. Whether it fits the marks before it is for `replay` to say. */
export function parseMark(raw: unknown): Parsed<Mark> {
  const kind = kindOf(raw);
  return kind === null ? refuse('badField', ['kind']) : check<Mark>(byKind[kind], raw);
}

function kindOf(raw: unknown): Happening['kind'] | null {
  if (typeof raw !== 'object' || raw === null || !('kind' in raw)) return null;
  const { kind } = raw;
  return typeof kind === 'string' && isKind(kind) ? kind : null;
}

function isKind(kind: string): kind is Happening['kind'] {
  return Object.hasOwn(byKind, kind);
}
