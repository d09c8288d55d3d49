import * as v from 'valibot';
import type { RunningOrder, Span } from '../running-order/span.ts';
import { idField, lengthMsField, moveIdField, numberedField, whole } from './fields.ts';
import { check, type FieldPath, type Parsed, refuse } from './parsed.ts';
import { cueStyleField } from './plan.ts';
import { MOST_ROUNDS } from './plan-entry.ts';

const doingSchema = v.strictObject({
  entryId: idField,
  moveId: moveIdField,
  side: v.picklist(['left', 'right', 'both', 'alternating', 'forward', 'reverse']),
  group: v.nullable(whole(0, 200)),
});

/** One span, of a running order or put into a live list. */
export const spanSchema = v.strictObject({
  id: numberedField,
  of: numberedField,
  kind: v.picklist([
    'countIn',
    'work',
    'openWork',
    'sideChange',
    'changeover',
    'breather',
    'rest',
    'talk',
    'water',
    'wait',
  ]),
  lengthMs: lengthMsField,
  doneMs: lengthMsField,
  blockId: idField,
  round: whole(0, MOST_ROUNDS),
  entryId: v.nullable(idField),
  doing: v.array(doingSchema),
  pair: v.nullable(numberedField),
  gives: v.boolean(),
  open: v.boolean(),
  cueStyle: cueStyleField,
});

const runningOrderSchema = v.strictObject({ spans: v.array(spanSchema), plannedMs: lengthMsField });

/** A stored running order, checked whole, its own rules R1-R3 and its sum included. */
export function parseRunningOrder(raw: unknown): Parsed<RunningOrder> {
  const parsed = check(runningOrderSchema, raw);
  if (!parsed.ok) return parsed;
  const field = findOddSpan(parsed.value);
  return field === null ? parsed : refuse('spansDoNotAdd', field);
}

function findOddSpan({ spans, plannedMs }: RunningOrder): FieldPath | null {
  const odd = spans.findIndex((span, at) => !isSound(span, at, spans));
  if (odd >= 0) return ['spans', odd];
  const sum = spans.reduce((total, span) => total + span.lengthMs, 0);
  return sum === plannedMs ? null : ['plannedMs'];
}

function isSound(span: Span, at: number, spans: readonly Span[]): boolean {
  if (span.id !== at || span.of !== at || span.lengthMs === 0 || span.doneMs !== 0) return false;
  if (span.pair === null) return true;
  const other = spans[span.pair];
  return other?.pair === at && other.lengthMs === span.lengthMs && span.pair !== at;
}
