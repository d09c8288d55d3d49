import type { Edit, Mark } from '../../src/class-run/marks.ts';
import { parseMark } from '../../src/records/marks.ts';
import type { RunningOrder } from '../../src/running-order/span.ts';
import { holds } from './agree.ts';
import { throughJson } from './laws.ts';
import type { Machine } from './machine.ts';

/** Marks after a tampering that no honest class could have written, and the first of them that is bent. */
type Bent = { readonly how: string; readonly marks: readonly unknown[]; readonly seq: number };

/** Every tampering is refused as bent at its place, and nothing that looks like marks makes replay throw. */
export function checkBent(machine: Machine, order: RunningOrder, marks: readonly Mark[], choice: number): void {
  for (const { how, marks: tampered, seq } of bentOf(throughJson(marks), choice)) {
    const again = machine.replay(order, tampered as readonly Mark[]);
    holds(`refused as bent: ${how}`, !again.ok && again.reason === 'bentMark');
    if (!again.ok) holds(`bent at ${seq}, not ${again.seq}: ${how}`, again.seq === seq);
  }
  for (const junk of junkOf(marks, choice)) readAgain(machine, order, junk);
}

/** As on reading from storage: what is no mark is refused there, and what passes as one must not make replay throw. */
function readAgain(machine: Machine, order: RunningOrder, stored: readonly unknown[]): void {
  const marks: Mark[] = [];
  for (const raw of stored) {
    const parsed = parseMark(raw);
    if (!parsed.ok) return;
    marks.push(parsed.value);
  }
  machine.replay(order, marks);
}

function bentOf(marks: readonly Mark[], choice: number): readonly Bent[] {
  const at = choice % Math.max(1, marks.length);
  const mark = marks[at];
  const last = marks.at(-1);
  if (mark === undefined || last === undefined) return [];
  const put = (how: string, change: object, place = at): Bent => ({
    how,
    seq: place,
    marks: marks.map((one, i) => (i === place ? { ...one, ...change } : one)),
  });
  const add = (how: string, happening: object): Bent => ({
    how,
    seq: marks.length,
    marks: [...marks, { seq: marks.length, atMs: last.atMs, seen: last.seen, ...happening }],
  });
  return [
    put('a seq twice', { seq: at - 1 }),
    put('a seq left out', { seq: at + 1 }),
    put('an instant below zero', { atMs: -1 }),
    put('half a millisecond', { atMs: mark.atMs + 0.5 }),
    put('an instant that is none', { atMs: null }),
    put('an instant as text', { atMs: `${mark.atMs}` }),
    add('started twice', { kind: 'started' }),
    add('carried on without standing', { kind: 'carriedOn' }),
    add('ran on without being asked', { kind: 'ranOn' }),
    add('stood for less than no time', { kind: 'stood', byMs: -1 }),
    add('stood for half a millisecond', { kind: 'stood', byMs: 0.5 }),
    add('stood longer than the class is old', { kind: 'stood', byMs: last.atMs + 1 }),
    add('something that never happens', { kind: 'danced' }),
    ...fallen(marks, at, put),
    ...edited(marks, choice, put),
    ...afterEnd(last, add),
  ].filter((bent) => isBent(bent, marks));
}

/** Carrying on and running on are bent only where the class did not stand when the last mark was written. */
function isBent({ how }: Bent, marks: readonly Mark[]): boolean {
  const stands = marks.findLast((mark) => ['started', 'paused', 'asked', 'carriedOn', 'ranOn'].includes(mark.kind));
  if (how.startsWith('carried on')) return stands?.kind !== 'paused' && stands?.kind !== 'asked';
  return how.startsWith('ran on') ? stands?.kind !== 'asked' : true;
}

function fallen(
  marks: readonly Mark[],
  at: number,
  put: (how: string, change: object, place: number) => Bent,
): readonly Bent[] {
  const before = marks[at - 1];
  const isAny = before !== undefined && before.atMs > 0;
  return isAny ? [put('an instant before the last', { atMs: before.atMs - 1 }, at)] : [];
}

function afterEnd(last: Mark, add: (how: string, happening: object) => Bent): readonly Bent[] {
  if (last.kind !== 'finished' && last.kind !== 'abandoned') return [];
  return [
    add('a pause after the end', { kind: 'paused', cause: 'asked' }),
    add('a second end', { kind: 'finished' }),
    add('a change after the end', { kind: 'changed', why: 'skip', entryId: null, edits: [] }),
    add('shown after the end', { kind: 'showed', entryId: 'e0-0', level: 1 }),
  ];
}

function edited(
  marks: readonly Mark[],
  choice: number,
  put: (how: string, change: object, place: number) => Bent,
): readonly Bent[] {
  const changed = marks.filter((mark) => mark.kind === 'changed');
  const mark = changed[choice % Math.max(1, changed.length)];
  if (mark === undefined) return [];
  const withEdit = (how: string, edit: object): Bent => put(how, { edits: [...mark.edits, edit] }, mark.seq);
  const resize = { do: 'resize', span: 0, toMs: 0, account: 'given' };
  const inserted = mark.edits.find((edit): edit is Extract<Edit, { do: 'insert' }> => edit.do === 'insert');
  return [
    withEdit('a span that is not there', { ...resize, span: 99_999 }),
    withEdit('a length below zero', { ...resize, toMs: -1 }),
    withEdit('half a millisecond of length', { ...resize, toMs: 0.5 }),
    withEdit('a length that is none', { ...resize, toMs: null }),
    withEdit('put after a span that is not there', { do: 'insert', after: 99_999, spans: [], account: 'given' }),
    ...(inserted === undefined ? [] : [withEdit('the same span twice', inserted)]),
  ];
}

/** Anything at all in place of a mark or of one of its fields: it may be refused or not, but never throws. */
function junkOf(marks: readonly Mark[], choice: number): readonly (readonly unknown[])[] {
  const at = choice % Math.max(1, marks.length);
  const values: readonly unknown[] = [
    null,
    undefined,
    -1,
    0,
    7,
    2 ** 52,
    Number.NaN,
    1e308,
    'x',
    'paused',
    [],
    {},
    true,
  ];
  const junk = values[choice % values.length];
  const fields = Object.keys(marks[at] ?? {});
  const field = fields[choice % Math.max(1, fields.length)] ?? 'kind';
  return [
    marks.map((mark, i) => (i === at ? { ...mark, [field]: junk } : mark)),
    marks.map((mark, i) => (i === at ? junk : mark)),
    marks.map((mark) => (mark.kind === 'changed' ? { ...mark, edits: [junk] } : mark)),
    marks.toReversed(),
  ];
}
