import * as v from 'valibot';

/** Where in a value something is: keys and zero-based places from the outside in, e.g. `['blocks', 1, 'entries', 2]`. */
export type FieldPath = readonly (string | number)[];

/**
 * Why a value was refused. `missing`: not there. `badField`: not what the field allows. `unknownField`: a key that this
 * version does not know. `usedTwice`: an id, a round or a name that may stand only once. `noSuchRound`: a round beyond
 * the block's. `tooManyEntries`: more than a plan holds. `doseOutOfBounds`: a count whose seconds are too few or too
 * many. `noLowerOption`: a circuit move without one. `tooManyOptions`: more than four one way. `noWork`: a plan in
 * which nobody moves. `spansDoNotAdd`: a running order that breaks its own rules.
 */
export type Fault =
  | 'missing'
  | 'badField'
  | 'unknownField'
  | 'usedTwice'
  | 'noSuchRound'
  | 'tooManyEntries'
  | 'doseOutOfBounds'
  | 'noLowerOption'
  | 'tooManyOptions'
  | 'noWork'
  | 'spansDoNotAdd';

/** The first thing found wrong, and where. */
export type Refused<Reason extends string = Fault> = {
  readonly ok: false;
  readonly reason: Reason;
  readonly field: FieldPath;
};

/** A value that was checked whole, or the first reason why not: nothing is ever half taken. */
export type Parsed<T, Reason extends string = Fault> = { readonly ok: true; readonly value: T } | Refused<Reason>;

/** Says no. */
export function refuse<Reason extends string>(reason: Reason, field: FieldPath): Refused<Reason> {
  return { ok: false, reason, field };
}

/** The same refusal seen from further out. */
export function within<Reason extends string>(outer: FieldPath, refused: Refused<Reason>): Refused<Reason> {
  return { ...refused, field: [...outer, ...refused.field] };
}

/**
 * Checks `raw` against a schema and gives a fresh value that shares nothing with it but text and numbers. Stops at the
 * first fault, never throws, whatever `raw` is.
 */
export function check<T>(schema: v.GenericSchema<unknown, T>, raw: unknown): Parsed<T> {
  const result = v.safeParse(schema, raw, { abortEarly: true });
  return result.success ? { ok: true, value: result.output } : refusalOf(result.issues[0]);
}

function refusalOf(issue: v.BaseIssue<unknown>): Refused {
  const path = issue.path ?? [];
  const field = path.map((item) => (typeof item.key === 'number' ? item.key : String(item.key)));
  const isKey = path.at(-1)?.origin === 'key';
  if (!isKey) return refuse('badField', field);
  return refuse(issue.expected === 'never' ? 'unknownField' : 'missing', field);
}
