import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import type { ClassState } from '../../src/class-run/class-state.ts';
import { replay } from '../../src/class-run/replay.ts';
import { canonicalJson } from '../../src/records/canonical.ts';
import { parseKeptPlan, parsePaper } from '../../src/records/paper.ts';
import type { Parsed } from '../../src/records/parsed.ts';
import { parseBeat, parseHallCard, parseMarkRow, parseNote, parseRecordHead } from '../../src/records/record.ts';
import type { StoredReason } from '../../src/records/upgrade.ts';
import { storedRowsV1, storedV1 } from '../builders/stored.ts';

type Parse = (raw: unknown) => Parsed<unknown, StoredReason>;

const one = (name: string): readonly unknown[] => [storedV1(name)];

/** Every stored shape, its parser, and its rows as version 1 wrote them. */
const SHAPES: readonly (readonly [string, Parse, readonly unknown[]])[] = [
  ['paper', parsePaper, one('paper')],
  ['record head', parseRecordHead, storedRowsV1('record-heads')],
  ['mark', parseMarkRow, [...storedRowsV1('finished-mark-rows'), ...storedRowsV1('abandoned-mark-rows')]],
  ['beat', parseBeat, one('beat')],
  ['note', parseNote, storedRowsV1('notes')],
  ['hall card', parseHallCard, one('hall-card')],
  ['kept plan', parseKeptPlan, one('kept-plan')],
];

describe.each(SHAPES)('a stored %s', (_name, parse, rows) => {
  it('of version 1 is read as it was written', () => {
    expect(rows.length).toBeGreaterThan(0);
    for (const row of rows) expect(parse(row)).toEqual({ ok: true, value: row });
  });

  it('of a later version is left as it is, and that is said', () => {
    for (const row of rows)
      expect(parse({ ...Object(row), v: 2, more: true })).toEqual({ ok: false, reason: 'tooNew', field: ['v'] });
  });

  it.each([undefined, null, 'row', 7, [], {}, { v: 0 }, { v: 1.5 }, { v: '1' }, { v: 1 }])(
    'does not read %j',
    (raw) => {
      expect(parse(raw)).toMatchObject({ ok: false, reason: 'unreadable' });
    },
  );

  it('is unreadable with any of its fields gone, or one too many', () => {
    const [row] = rows;
    for (const key of Object.keys(Object(row)).filter((name) => name !== 'v')) {
      const { [key]: _gone, ...rest } = Object(row) as Record<string, unknown>;
      expect(parse(rest), key).toEqual({ ok: false, reason: 'unreadable', field: [key] });
    }
    expect(parse({ ...Object(row), extra: 1 })).toEqual({ ok: false, reason: 'unreadable', field: ['extra'] });
  });
});

describe('a stored class', () => {
  const paper = parsePaper(storedV1('paper'));
  const marksOf = (name: string) =>
    storedRowsV1(name).flatMap((raw) => {
      const row = parseMarkRow(raw);
      return row.ok ? [row.value.mark] : [];
    });

  function replayed(name: string): ClassState {
    if (!paper.ok) throw new Error(`paper: ${paper.field.join('.')}`);
    const result = replay(paper.value.order, marksOf(name));
    if (!result.ok) throw new Error(`${name}: mark ${result.seq} is bent`);
    return result.state;
  }

  it.each(['finished-mark-rows', 'abandoned-mark-rows'])(
    '%s replays to the books it had when it was written',
    (name) => {
      const { books, pausedMs, dropped, shown, phase } = replayed(name);
      const expected = Object(storedV1('replayed'))[name];
      expect({ marks: marksOf(name).length, books, pausedMs, dropped, shown, phase }).toEqual(expected);
    },
  );

  it('has one of every happening', () => {
    const kinds = [...marksOf('finished-mark-rows'), ...marksOf('abandoned-mark-rows')].map(({ kind }) => kind);
    expect([...new Set(kinds)].sort()).toEqual(
      'abandoned asked away carriedOn changed finished paused ranOn showed started stood wallMoved'.split(' '),
    );
  });

  it('has its papers under the hash of what they say', () => {
    if (!paper.ok) throw new Error('paper does not parse');
    const { hash, plan, order, moves } = paper.value;
    expect(createHash('sha256').update(canonicalJson({ plan, order, moves })).digest('hex')).toBe(hash);
  });
});

describe('what hangs together in a row', () => {
  const paper = Object(storedV1('paper'));
  const [firstMark] = storedRowsV1('finished-mark-rows');

  it('a mark stands under its own number', () => {
    expect(parseMarkRow({ ...Object(firstMark), seq: 5 })).toEqual({
      ok: false,
      reason: 'unreadable',
      field: ['mark', 'seq'],
    });
  });

  it('papers have every move that their plan names', () => {
    const field = ['plan', 'blocks', 0, 'entries', 0, 'moveId'];
    const moves = paper.moves.filter(({ id }: { id: string }) => id !== 'ex-march');
    expect(parsePaper({ ...paper, moves })).toEqual({ ok: false, reason: 'unreadable', field });
  });

  it.each([
    ['plan', { ...paper.plan, name: '' }, ['plan', 'name']],
    ['order', { ...paper.order, plannedMs: 1 }, ['order', 'plannedMs']],
    ['moves', [{ ...paper.moves[0], part: 'lunch' }], ['moves', 0, 'part']],
    ['hash', 'F'.repeat(64), ['hash']],
  ])('papers with a bent %s are set aside whole', (key, value, field) => {
    expect(parsePaper({ ...paper, [key]: value })).toEqual({ ok: false, reason: 'unreadable', field });
  });

  it('a kept plan with a bent move of its own is set aside whole', () => {
    const kept = Object(storedV1('kept-plan'));
    const bent = { ...kept, ownMoves: [{ ...kept.ownMoves[0], options: [] }] };
    expect(parseKeptPlan(bent)).toEqual({ ok: false, reason: 'unreadable', field: ['ownMoves', 0, 'options'] });
  });

  it('notes and hall cards keep what people type, line ends and outer spaces too', () => {
    const note = { ...Object(storedRowsV1('notes')[0]), value: '  two\nlines\t' };
    expect(parseNote(note)).toEqual({ ok: true, value: note });
    expect(parseNote({ ...note, value: 'torn \ud83d' })).toMatchObject({ ok: false, reason: 'unreadable' });
  });
});
