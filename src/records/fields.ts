import * as v from 'valibot';

// Lengths of texts count characters (code points), as JSON Schema does, so that both agree on every text. Control
// characters, line ends, lone surrogates and marks that turn the writing direction have no business in a line.
const LINE_CHARACTER = '[^\\p{Cc}\\p{Cs}\\p{Zl}\\p{Zp}\\u202a-\\u202e\\u2066-\\u2069]';

// Names that every object answers to are never ids, because ids become keys.
const TAKEN = `(?!(?:${[
  '__proto__',
  '__(?:define|lookup)[GS]etter__',
  'constructor',
  'hasOwnProperty',
  'isPrototypeOf',
  'propertyIsEnumerable',
  'to(?:Locale)?String',
  'valueOf',
].join('|')})$)`;

/** One line of text of `least` to `most` characters without white space at either end. */
function line(least: number, most: number): v.GenericSchema<unknown, string> {
  return v.pipe(v.string(), v.regex(new RegExp(`^(?!\\s)(?!.*\\s$)${LINE_CHARACTER}{${least},${most}}$`, 'u')));
}

/** A whole number from `least` to `most`. */
export function whole(least: number, most: number): v.GenericSchema<unknown, number> {
  return v.pipe(v.number(), v.integer(), v.minValue(least), v.maxValue(most));
}

/** A number, whole or not, from `least` to `most`. */
export function finite(least: number, most: number): v.GenericSchema<unknown, number> {
  return v.pipe(v.number(), v.minValue(least), v.maxValue(most));
}

/** 1 to 64 letters, digits, `-` and `_`. */
export const idField: v.GenericSchema<unknown, string> = v.pipe(
  v.string(),
  v.regex(new RegExp(`^${TAKEN}[\\w-]{1,64}$`)),
);

/** Ids of moves are lower-case words with digits and hyphens, at most 64 characters. */
export const moveIdField: v.GenericSchema<unknown, string> = v.pipe(
  v.string(),
  v.regex(/^(?!constructor$)[a-z0-9][a-z0-9-]{0,63}$/),
);

/** Names people give: 1 to 80 characters. */
export const nameField = line(1, 80);

/** The short form for the hall: 1 to 10 characters. */
export const hallNameField = line(1, 10);

/** One line to read or say: 1 to 240 characters. */
export const lineField = line(1, 240);

/** A line that may be empty. */
export const maybeLineField = line(0, 240);

/** Changeovers, breathers, lead-ins, closing rests and count-ins: whole seconds from 0 to 10 minutes. */
export const restSecondsField = whole(0, 600);

/** Talk, water and wait points take time: 1 second to 10 minutes. */
export const pauseSecondsField = whole(1, 600);

/** Least and most seconds of work in one go. */
export const WORK_SECONDS = { least: 5, most: 3600 } as const;

/** Work by seconds: 5 seconds to 60 minutes. */
export const workSecondsField = whole(WORK_SECONDS.least, WORK_SECONDS.most);

// Marks have these by the ten thousand when a class is resumed: one test each, where a pipe of four takes five times as long.

/** A length of class time in whole ms, from 0. */
export const lengthMsField = v.custom<number>(isCount);

/** A numbered thing: 0, 1, 2 ... */
export const numberedField = v.custom<number>(isCount);

/** An instant or a difference on one of the phone's clocks: any finite number of ms. */
export const instantField = v.custom<number>((raw) => Number.isFinite(raw));

function isCount(raw: unknown): boolean {
  return typeof raw === 'number' && Number.isSafeInteger(raw) && raw >= 0;
}

/** Free text as people type it, several lines too, of at most `most` characters; only torn characters are refused. */
export function freeText(most: number): v.GenericSchema<unknown, string> {
  return v.pipe(v.string(), v.regex(new RegExp(`^\\P{Cs}{0,${most}}$`, 'u')));
}
