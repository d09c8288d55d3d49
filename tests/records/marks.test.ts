import { describe, expect, it } from 'vitest';
import type { Edit, Happening } from '../../src/class-run/marks.ts';
import { parseMark } from '../../src/records/marks.ts';
import type { FieldPath } from '../../src/records/parsed.ts';
import type { Span } from '../../src/running-order/span.ts';

const always = { seq: 3, atMs: 61_000, seen: { monoMs: 66_000.125, wallMs: 1_772_649_061_000, life: 2 } };

const span: Span = {
  id: 12,
  of: 4,
  kind: 'work',
  lengthMs: 20_000,
  doneMs: 10_000,
  blockId: 'block',
  round: 1,
  entryId: 'entry',
  doing: [{ entryId: 'entry', moveId: 'squat', side: 'left', group: null }],
  pair: 6,
  gives: false,
  open: false,
  cueStyle: 'sharp',
};

const edits: readonly Edit[] = [
  { do: 'resize', span: 4, toMs: 0, account: 'skipped' },
  {
    do: 'insert',
    after: 4,
    spans: [span, { ...span, id: 13, kind: 'countIn', doing: [], entryId: null, pair: null }],
    account: 'given',
  },
];

/** One of every happening there is: the type below fails to check when one is forgotten. */
const EVERY: { readonly [Kind in Happening['kind']]: Extract<Happening, { kind: Kind }> } = {
  started: { kind: 'started' },
  paused: { kind: 'paused', cause: 'hurt' },
  carriedOn: { kind: 'carriedOn' },
  changed: { kind: 'changed', why: 'back', entryId: null, edits },
  showed: { kind: 'showed', entryId: 'entry', level: -1 },
  away: { kind: 'away', byMs: 4200 },
  asked: { kind: 'asked', gapMs: -700_000 },
  ranOn: { kind: 'ranOn' },
  stood: { kind: 'stood', byMs: 9000 },
  wallMoved: { kind: 'wallMoved', byMs: -3_600_000.5 },
  finished: { kind: 'finished' },
  abandoned: { kind: 'abandoned' },
};

describe('parseMark', () => {
  it.each(Object.entries(EVERY))('gives back a mark of "%s", whole', (_kind, happening) => {
    const mark = { ...always, ...happening };
    expect(parseMark(JSON.parse(JSON.stringify(mark)))).toEqual({ ok: true, value: mark });
  });

  it.each(['skip', 'back', 'give', 'drop', 'trim', 'finishEarly', 'countIn', 'wentOn'])(
    'knows the change "%s"',
    (why) => {
      expect(parseMark({ ...always, ...EVERY.changed, why }).ok).toBe(true);
    },
  );

  const withEdit = (edit: unknown): unknown => ({ ...always, ...EVERY.changed, edits: [edit] });
  const withSpan = (change: unknown): unknown => withEdit({ ...edits[1], spans: [{ ...span, ...Object(change) }] });
  const inEdit = (...field: FieldPath): FieldPath => ['edits', 0, ...field];

  it.each([
    ['another happening', { ...always, kind: 'exploded' }, ['kind']],
    ['a happening that objects answer to', { ...always, kind: 'constructor' }, ['kind']],
    ['nothing', null, ['kind']],
    ['a list', [], ['kind']],
    ['an instant before the class', { ...always, kind: 'started', atMs: -1 }, ['atMs']],
    ['an instant between two ms', { ...always, kind: 'started', atMs: 0.5 }, ['atMs']],
    ['an instant that is none', { ...always, kind: 'started', atMs: Number.NaN }, ['atMs']],
    [
      'evidence that is no number',
      { ...always, kind: 'started', seen: { ...always.seen, wallMs: '9' } },
      ['seen', 'wallMs'],
    ],
    ['another cause', { ...always, kind: 'paused', cause: 'bored' }, ['cause']],
    ['another reason', { ...always, ...EVERY.changed, why: 'whim' }, ['why']],
    ['another edit', withEdit({ do: 'swap' }), inEdit('do')],
    ['a length below 0', withEdit({ ...edits[0], toMs: -1 }), inEdit('toMs')],
    ['another account', withEdit({ ...edits[0], account: 'lost' }), inEdit('account')],
    ['an insert that is not given', withEdit({ ...edits[1], account: 'skipped' }), inEdit('account')],
    ['a span of another kind', withSpan({ kind: 'nap' }), inEdit('spans', 0, 'kind')],
    ['a span of half a ms', withSpan({ lengthMs: 0.5 }), inEdit('spans', 0, 'lengthMs')],
    ['a standing time below 0', { ...always, kind: 'stood', byMs: -1 }, ['byMs']],
  ] as [string, unknown, FieldPath][])('refuses %s at its field', (_what, raw, field) => {
    expect(parseMark(raw)).toEqual({ ok: false, reason: 'badField', field });
  });

  it('says which field is missing and which is not known', () => {
    const { seen: _seen, ...unseen } = always;
    expect(parseMark({ ...unseen, kind: 'started' })).toEqual({ ok: false, reason: 'missing', field: ['seen'] });
    expect(parseMark({ ...always, kind: 'finished', cheer: 1 })).toEqual({
      ok: false,
      reason: 'unknownField',
      field: ['cheer'],
    });
  });
});
