import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Plan } from '../../src/plan/plan.ts';
import type { Fault, FieldPath } from '../../src/records/parsed.ts';
import { parsePlan } from '../../src/records/plan.ts';
import { findUnknownMove, moveIdsOf } from '../../src/records/plan-rules.ts';
import { anyBend, anyPlan, bend } from '../builders/any-plan.ts';
import { aBlock, anEntry, aPlan } from '../builders/small-plan.ts';

type Json = Record<string, unknown>;

const aRawEntry = (id: string): Json => ({ ...anEntry('squat'), id });

const aRawBlock = (id: string, change: Json = {}): Json => ({
  id,
  part: 'circuit',
  name: 'Circuit',
  format: { kind: 'allTogether' },
  rounds: 2,
  cueStyle: 'sharp',
  leadInSeconds: 0,
  breatherSeconds: 0,
  closingRestSeconds: 0,
  entries: [aRawEntry(`entry-${id}`)],
  ...change,
});

/** A plan of two blocks with one entry each, as JSON would give it. */
const withPlan = (change: Json = {}): Json => ({
  id: 'p',
  rev: 'r',
  parentRev: null,
  name: 'Plan',
  about: '',
  countInSeconds: 10,
  blocks: [aRawBlock('a'), aRawBlock('b')],
  ...change,
});

/** The same with its second block changed, or that block's one entry. */
const withBlock = (change: Json): Json => withPlan({ blocks: [aRawBlock('a'), aRawBlock('b', change)] });
const withEntry = (change: Json): Json => withBlock({ entries: [{ ...aRawEntry('entry-b'), ...change }] });

const ENTRY: FieldPath = ['blocks', 1, 'entries', 0];

function expectRefused(raw: unknown, reason: Fault, field: FieldPath): void {
  expect(parsePlan(raw)).toEqual({ ok: false, reason, field });
}

describe('parsePlan', () => {
  it('gives back a sound plan, whole and fresh', () => {
    const raw = withPlan();
    const parsed = parsePlan(raw);
    expect(parsed).toEqual({ ok: true, value: raw });
    expect(parsed.ok && parsed.value).not.toBe(raw);
  });

  it('takes the plans that other tests are built from', () => {
    expect(parsePlan(aPlan([aBlock([anEntry('a')])])).ok).toBe(true);
  });

  it.each([
    ['work below 5 s', withEntry({ dose: { kind: 'seconds', seconds: 4 } }), [...ENTRY, 'dose', 'seconds']],
    ['work above 60 min', withEntry({ dose: { kind: 'seconds', seconds: 3601 } }), [...ENTRY, 'dose', 'seconds']],
    ['work of half seconds', withEntry({ dose: { kind: 'seconds', seconds: 30.5 } }), [...ENTRY, 'dose', 'seconds']],
    ['work of no number', withEntry({ dose: { kind: 'seconds', seconds: Number.NaN } }), [...ENTRY, 'dose', 'seconds']],
    [
      'endless work',
      withEntry({ dose: { kind: 'seconds', seconds: Number.POSITIVE_INFINITY } }),
      [...ENTRY, 'dose', 'seconds'],
    ],
    ['a number as text', withEntry({ dose: { kind: 'seconds', seconds: '30' } }), [...ENTRY, 'dose', 'seconds']],
    [
      'an endless tempo',
      withEntry({ dose: { kind: 'count', count: 9, secondsEach: Number.POSITIVE_INFINITY } }),
      [...ENTRY, 'dose', 'secondsEach'],
    ],
    ['a dose of another kind', withEntry({ dose: { kind: 'metres', seconds: 30 } }), [...ENTRY, 'dose', 'kind']],
    ['a changeover below 0', withEntry({ changeoverSeconds: -1 }), [...ENTRY, 'changeoverSeconds']],
    ['a changeover above 10 min', withEntry({ changeoverSeconds: 601 }), [...ENTRY, 'changeoverSeconds']],
    ['a swap above 10 min', withEntry({ swapSeconds: 601 }), [...ENTRY, 'swapSeconds']],
    ['a move id with capitals', withEntry({ moveId: 'Squat' }), [...ENTRY, 'moveId']],
    ['an id that objects answer to', withEntry({ id: 'toString' }), [...ENTRY, 'id']],
    ['an entry of another kind', withEntry({ kind: 'dance' }), [...ENTRY, 'kind']],
    [
      'a wait of no time',
      withBlock({ entries: [{ kind: 'wait', id: 'w', seconds: 0, goesOn: 'byItself', why: '' }] }),
      [...ENTRY, 'seconds'],
    ],
    ['a breather above 10 min', withBlock({ breatherSeconds: 601 }), ['blocks', 1, 'breatherSeconds']],
    ['a lead-in above 10 min', withBlock({ leadInSeconds: 601 }), ['blocks', 1, 'leadInSeconds']],
    ['a closing rest above 10 min', withBlock({ closingRestSeconds: 601 }), ['blocks', 1, 'closingRestSeconds']],
    ['no round', withBlock({ rounds: 0 }), ['blocks', 1, 'rounds']],
    ['21 rounds', withBlock({ rounds: 21 }), ['blocks', 1, 'rounds']],
    ['no entry', withBlock({ entries: [] }), ['blocks', 1, 'entries']],
    [
      'a ladder without a step',
      withBlock({ format: { kind: 'ladder', of: 'work', stepSeconds: 0 } }),
      ['blocks', 1, 'format', 'stepSeconds'],
    ],
    ['a name of 81 characters', withPlan({ name: 'x'.repeat(81) }), ['name']],
    ['an empty name', withPlan({ name: '' }), ['name']],
    ['a blank name', withPlan({ name: '  ' }), ['name']],
    ['a name of two lines', withPlan({ name: 'a\nb' }), ['name']],
    ['a torn character', withPlan({ name: 'a\ud83d' }), ['name']],
    ['a mark that turns the writing', withPlan({ name: 'a\u202eb' }), ['name']],
    ['a line of 241 characters', withPlan({ about: 'x'.repeat(241) }), ['about']],
    ['a count-in above 10 min', withPlan({ countInSeconds: 601 }), ['countInSeconds']],
    ['no block', withPlan({ blocks: [] }), ['blocks']],
  ] as [string, unknown, FieldPath][])('refuses %s at its field', (_what, raw, field) => {
    expectRefused(raw, 'badField', field);
  });

  it.each([
    ['5 s', withEntry({ dose: { kind: 'seconds', seconds: 5 } })],
    ['60 min', withEntry({ dose: { kind: 'seconds', seconds: 3600 } })],
    ['10 min of changeover', withEntry({ changeoverSeconds: 600 })],
    ['20 rounds', withBlock({ rounds: 20 })],
    ['80 characters, however wide', withPlan({ name: '🙂'.repeat(80) })],
    ['a count of 5 s in all', withEntry({ dose: { kind: 'count', count: 5, secondsEach: 1 } })],
    ['a count of 60 min in all', withEntry({ dose: { kind: 'count', count: 60, secondsEach: 60 } })],
    ['markup, which is only text', withPlan({ name: '<img src=x onerror=alert(1)>' })],
  ])('takes %s', (_what, raw) => {
    expect(parsePlan(raw)).toEqual({ ok: true, value: raw });
  });

  it('says which field is missing and which is not known', () => {
    const { rounds: _rounds, ...roundless } = aRawBlock('a');
    expectRefused(withPlan({ blocks: [roundless] }), 'missing', ['blocks', 0, 'rounds']);
    expectRefused(withEntry({ colour: 'red' }), 'unknownField', [...ENTRY, 'colour']);
  });

  it.each(['__proto__', 'constructor', 'toString'])('does not know the key %s either', (key) => {
    const hostile: unknown = JSON.parse(
      JSON.stringify(withPlan()).replace('{"id":"a"', `{"${key}":{"rounds":3},"id":"a"`),
    );
    expectRefused(hostile, 'unknownField', ['blocks', 0, key]);
    expect('rounds' in {}).toBe(false);
  });

  it.each([
    ['less than 5 s', { kind: 'count', count: 4, secondsEach: 1 }],
    ['more than 60 min', { kind: 'count', count: 61, secondsEach: 60 }],
  ])('refuses a count of %s in all, wherever the dose stands', (_what, dose) => {
    expectRefused(withEntry({ dose }), 'doseOutOfBounds', [...ENTRY, 'dose']);
    expectRefused(withEntry({ byRound: [{ round: 1, dose }] }), 'doseOutOfBounds', [...ENTRY, 'byRound', 0, 'dose']);
    expectRefused(withEntry({ forSome: { who: 'a', doing: 'b', dose } }), 'doseOutOfBounds', [
      ...ENTRY,
      'forSome',
      'dose',
    ]);
  });

  it('refuses an id used twice, in blocks and across blocks in entries', () => {
    expectRefused(withBlock({ id: 'a' }), 'usedTwice', ['blocks', 1, 'id']);
    expectRefused(withEntry({ id: 'entry-a' }), 'usedTwice', [...ENTRY, 'id']);
  });

  it('refuses a round that the block does not have, and one named twice', () => {
    const dose = null;
    expectRefused(withEntry({ byRound: [{ round: 3, dose }] }), 'noSuchRound', [...ENTRY, 'byRound', 0, 'round']);
    const twice = [
      { round: 1, dose },
      { round: 1, dose },
    ];
    expectRefused(withEntry({ byRound: twice }), 'usedTwice', [...ENTRY, 'byRound', 1, 'round']);
  });

  it('refuses more than 200 entries in all, however they are spread', () => {
    const entries = (name: string, count: number): Json => ({
      entries: Array.from({ length: count }, (_, at) => aRawEntry(`${name}-${at}`)),
    });
    const spread = (a: number, b: number): Json =>
      withPlan({ blocks: [aRawBlock('a', entries('a', a)), aRawBlock('b', entries('b', b))] });
    expect(parsePlan(spread(100, 100)).ok).toBe(true);
    expectRefused(spread(100, 101), 'tooManyEntries', ['blocks']);
  });

  it('refuses a plan in which nobody ever moves', () => {
    const talk = aRawBlock('a', { entries: [{ kind: 'talk', id: 't', seconds: 30, about: '' }] });
    expectRefused(withPlan({ blocks: [talk] }), 'noWork', ['blocks']);
    const never = [1, 2].map((round) => ({ round, dose: null }));
    const leftOut = aRawBlock('a', { entries: [{ ...aRawEntry('e'), byRound: never }] });
    expectRefused(withPlan({ blocks: [leftOut] }), 'noWork', ['blocks']);
    expect(parsePlan(withPlan({ blocks: [leftOut, aRawBlock('b')] })).ok).toBe(true);
  });

  it.each([undefined, null, 7, 'plan', [], () => 1, Symbol('plan'), new Map()])(
    'refuses %s without throwing',
    (raw) => {
      expect(parsePlan(raw)).toMatchObject({ ok: false });
    },
  );

  it('takes every plan that may be written and changes nothing in it', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        expect(parsePlan(plan)).toEqual({ ok: true, value: plan });
      }),
    );
  });

  it('takes a bent plan as it is or refuses it whole, and never throws', () => {
    let refused = 0;
    fc.assert(
      fc.property(anyPlan, anyBend, (plan, how) => {
        const bent = bend(plan, how);
        const parsed = parsePlan(bent);
        if (parsed.ok)
          expect(JSON.stringify(parsePlan(parsed.value))).toBe(JSON.stringify({ ok: true, value: parsed.value }));
        if (parsed.ok) expect(parsed.value).toEqual(bent);
        else refused += 1;
      }),
      { numRuns: 1000 },
    );
    expect(refused).toBeGreaterThan(250);
  });
});

describe('the moves of a plan', () => {
  const plan = (): Plan => aPlan([aBlock([anEntry('b'), anEntry('a'), anEntry('b', { id: 'again' })])]);

  it('are named once each, in the order of the plan', () => {
    expect(moveIdsOf(plan())).toEqual(['b', 'a']);
  });

  it('are missed at the first place where one stands', () => {
    expect(findUnknownMove(plan(), new Set(['b', 'a']))).toBeNull();
    expect(findUnknownMove(plan(), new Set(['b']))).toEqual(['blocks', 0, 'entries', 1, 'moveId']);
  });
});
