import * as v from 'valibot';
import {
  finite,
  idField,
  maybeLineField,
  moveIdField,
  nameField,
  pauseSecondsField,
  restSecondsField,
  whole,
  workSecondsField,
} from './fields.ts';
import { sidesField } from './move.ts';

/** Rounds of one block at most. */
export const MOST_ROUNDS = 20;
/** Entries of a whole plan at most. */
export const MOST_ENTRIES = 200;

/** Seconds, or a count of at most 500 at a quarter of a second to a minute each. */
export const doseSchema = v.variant('kind', [
  v.strictObject({ kind: v.literal('seconds'), seconds: workSecondsField }),
  v.strictObject({ kind: v.literal('count'), count: whole(1, 500), secondsEach: finite(0.25, 60) }),
]);

const roundDoseSchema = v.strictObject({ round: whole(1, MOST_ROUNDS), dose: v.nullable(doseSchema) });

const forSomeSchema = v.strictObject({ who: nameField, doing: nameField, dose: v.nullable(doseSchema) });

const moveEntrySchema = v.strictObject({
  kind: v.literal('move'),
  id: idField,
  moveId: moveIdField,
  dose: doseSchema,
  byRound: v.pipe(v.array(roundDoseSchema), v.maxLength(MOST_ROUNDS)),
  forSome: v.nullable(forSomeSchema),
  sides: v.nullable(sidesField),
  swapSeconds: restSecondsField,
  changeoverSeconds: restSecondsField,
  locked: v.boolean(),
  dropIfLate: v.nullable(whole(1, MOST_ENTRIES)),
});

const pauseEntrySchema = v.strictObject({
  kind: v.picklist(['talk', 'water']),
  id: idField,
  seconds: pauseSecondsField,
  about: maybeLineField,
});

const waitEntrySchema = v.strictObject({
  kind: v.literal('wait'),
  id: idField,
  seconds: pauseSecondsField,
  goesOn: v.picklist(['byItself', 'whenAsked']),
  why: maybeLineField,
});

/** One thing in a block. */
export const entrySchema = v.variant('kind', [moveEntrySchema, pauseEntrySchema, waitEntrySchema]);
