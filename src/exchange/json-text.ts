import { type FieldPath, type Parsed, refuse } from '../records/parsed.ts';

/** Bytes of a text file at most, as UTF-8. */
export const MOST_BYTES = 1_048_576;
/** Lists and objects inside one another at most; a plan file needs nine. */
export const MOST_DEPTH = 16;

/**
 * `sameKeyTwice`: two readers could take different values from the same file, so nobody does. `tooDeep`: no file of ours
 * nests like that.
 */
export type JsonFault = 'tooLarge' | 'notJson' | 'tooDeep' | 'sameKeyTwice';

/** JSON text to a value. Size, then depth, are looked at before anything is built from the text; never throws. */
export function readJson(text: string): Parsed<unknown, JsonFault> {
  if (isLongerThan(text, MOST_BYTES)) return refuse('tooLarge', []);
  // Windows editors put a byte order mark first; it means nothing here.
  const body = text.startsWith('\ufeff') ? text.slice(1) : text;
  const outline = scan(body);
  if (outline.tooDeep !== null) return refuse('tooDeep', outline.tooDeep);
  const parsed = parse(body);
  if (!parsed.ok) return parsed;
  return outline.twice === null ? parsed : refuse('sameKeyTwice', outline.twice);
}

/** True when a file of this text weighs more than `bytes` as UTF-8. */
export function isLongerThan(text: string, bytes: number): boolean {
  if (text.length > bytes) return true;
  if (text.length * 3 <= bytes) return false;
  let sum = 0;
  for (const character of text) sum += bytesOf(character.codePointAt(0) ?? 0);
  return sum > bytes;
}

function bytesOf(codePoint: number): number {
  if (codePoint < 0x80) return 1;
  if (codePoint < 0x800) return 2;
  return codePoint < 0x10000 ? 3 : 4;
}

function parse(text: string): Parsed<unknown, JsonFault> {
  try {
    return { ok: true, value: JSON.parse(text) };
  } catch {
    return refuse('notJson', []);
  }
}

/** One list or object that is open at this place of the text. */
type Level = { readonly keys: Set<string> | null; at: string | number; isKeyNext: boolean };

type Outline = { tooDeep: FieldPath | null; twice: FieldPath | null; readonly levels: Level[] };

/** Walks brackets and keys without building values. Of text that is not JSON it says something harmless. */
function scan(text: string): Outline {
  const outline: Outline = { tooDeep: null, twice: null, levels: [] };
  for (let i = 0; i < text.length && outline.tooDeep === null; i += 1) {
    const sign = text.charAt(i);
    if (sign === '"') {
      const end = endOfString(text, i);
      takeString(outline, text.slice(i, end + 1));
      i = end;
    } else {
      takeSign(outline, sign);
    }
  }
  return outline;
}

function takeSign(outline: Outline, sign: string): void {
  const { levels } = outline;
  if (sign === '{' || sign === '[') {
    if (levels.length === MOST_DEPTH) outline.tooDeep = pathOf(levels);
    levels.push(sign === '{' ? { keys: new Set(), at: '', isKeyNext: true } : { keys: null, at: 0, isKeyNext: false });
  } else if (sign === '}' || sign === ']') {
    levels.pop();
  } else if (sign === ',') {
    goOn(levels.at(-1));
  }
}

function takeString(outline: Outline, quoted: string): void {
  const { levels } = outline;
  const level = levels.at(-1);
  if (level?.isKeyNext === true && !takeKey(level, quoted)) outline.twice ??= pathOf(levels);
}

function goOn(level: Level | undefined): void {
  if (typeof level?.at === 'number') level.at += 1;
  else if (level !== undefined) level.isKeyNext = true;
}

/** Notes the key; false when it stood there before. */
function takeKey(level: Level, quoted: string): boolean {
  const decoded = parse(quoted);
  const key = decoded.ok ? String(decoded.value) : quoted;
  const isNew = level.keys?.has(key) !== true;
  level.keys?.add(key);
  level.at = key;
  level.isKeyNext = false;
  return isNew;
}

function endOfString(text: string, start: number): number {
  for (let i = start + 1; i < text.length; i += 1) {
    const sign = text.charAt(i);
    if (sign === '\\') i += 1;
    else if (sign === '"') return i;
  }
  return text.length;
}

function pathOf(levels: readonly Level[]): FieldPath {
  return levels.map((level) => level.at);
}
