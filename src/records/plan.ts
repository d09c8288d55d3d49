import * as v from 'valibot';
import type { Plan } from '../plan/plan.ts';
import { idField, maybeLineField, nameField, restSecondsField, whole, workSecondsField } from './fields.ts';
import { partField } from './move.ts';
import { check, type Parsed } from './parsed.ts';
import { entrySchema, MOST_ENTRIES, MOST_ROUNDS } from './plan-entry.ts';
import { findPlanFault } from './plan-rules.ts';

const formatSchema = v.variant('kind', [
  v.strictObject({ kind: v.picklist(['allTogether', 'onTheMinute', 'stations']) }),
  v.strictObject({ kind: v.literal('roundsInTheTime'), forSeconds: workSecondsField }),
  v.strictObject({
    kind: v.literal('ladder'),
    of: v.picklist(['work', 'changeover']),
    stepSeconds: v.pipe(whole(-600, 600), v.notValue(0)),
  }),
]);

/** How a block sounds and looks at its changes. */
export const cueStyleField = v.picklist(['sharp', 'soft', 'silent']);

/** Part of a plan. */
export const blockSchema = v.strictObject({
  id: idField,
  part: partField,
  name: nameField,
  format: formatSchema,
  rounds: whole(1, MOST_ROUNDS),
  cueStyle: cueStyleField,
  leadInSeconds: restSecondsField,
  breatherSeconds: restSecondsField,
  closingRestSeconds: restSecondsField,
  entries: v.pipe(v.array(entrySchema), v.minLength(1), v.maxLength(MOST_ENTRIES)),
});

/** All that a schema can say of a plan; `findPlanFault` says the rest. */
export const planSchema = v.strictObject({
  id: idField,
  rev: idField,
  parentRev: v.nullable(idField),
  name: nameField,
  about: maybeLineField,
  countInSeconds: restSecondsField,
  blocks: v.pipe(v.array(blockSchema), v.minLength(1), v.maxLength(MOST_ENTRIES)),
});

/**
 * A plan from a file or a store, checked whole but for its moves: whether each `moveId` is known depends on who asks
 * (`findUnknownMove`).
 */
export function parsePlan(raw: unknown): Parsed<Plan> {
  const parsed = check(planSchema, raw);
  return parsed.ok ? (findPlanFault(parsed.value) ?? parsed) : parsed;
}
