import { describe, expect, it } from 'vitest';
import type { Effort, Impact, KitNeeds, Part, Pattern, Position, Region, Sides } from '../../src/moves/move.ts';
import { parseMove } from '../../src/records/move.ts';
import { parseMoves } from '../../src/records/paper.ts';
import type { FieldPath } from '../../src/records/parsed.ts';
import { aMove } from '../builders/small-plan.ts';

const lower = { level: 'lower', name: 'Smaller', hallName: 'Smaller', how: 'Half as far.', figure: 'halfSquat' };
const higher = { ...lower, level: 'higher' };

describe('parseMove', () => {
  it('gives back a sound move, whole', () => {
    const move = aMove('squat-2', { kit: { mat: 1, handWeight: 2 }, takeCareIf: ['Sore knees: less deep.'] });
    expect(parseMove(move)).toEqual({ ok: true, value: move });
  });

  it.each([
    ['an id with capitals', { id: 'Squat' }, ['id']],
    ['the id "constructor"', { id: 'constructor' }, ['id']],
    ['an id of 65 characters', { id: 'x'.repeat(65) }, ['id']],
    ['a hall name of 11 characters', { hallName: 'Twelve-inch' }, ['hallName']],
    ['an empty hall name', { hallName: '' }, ['hallName']],
    ['another part', { part: 'lunch' }, ['part']],
    ['another pattern', { pattern: 'fly' }, ['pattern']],
    ['no region', { regions: [] }, ['regions']],
    ['another region', { regions: ['legs', 'tail'] }, ['regions', 1]],
    ['another position', { position: 'hanging' }, ['position']],
    ['another impact', { impact: 'crash' }, ['impact']],
    ['another effort', { effort: 'brutal' }, ['effort']],
    ['other sides', { sides: 'top' }, ['sides']],
    ['kit as a list', { kit: [] }, ['kit']],
    ['none of a piece of kit', { kit: { mat: 0 } }, ['kit', 'mat']],
    ['half a piece of kit', { kit: { mat: 0.5 } }, ['kit', 'mat']],
    ['eleven of a piece of kit', { kit: { mat: 11 } }, ['kit', 'mat']],
    ['an option of another level', { options: [{ ...lower, level: 'sideways' }] }, ['options', 0, 'level']],
    [
      'an option with a long hall name',
      { options: [{ ...lower, hallName: 'x'.repeat(11) }] },
      ['options', 0, 'hallName'],
    ],
    ['a form point of 241 characters', { formPoints: ['x'.repeat(241)] }, ['formPoints', 0]],
    ['seven form points', { formPoints: Array(7).fill('Stand tall.') }, ['formPoints']],
    ['a caution of two lines', { takeCareIf: ['a\nb'] }, ['takeCareIf', 0]],
    ['a figure with a path in it', { figure: '../up' }, ['figure']],
  ] as [string, Record<string, unknown>, FieldPath][])('refuses %s at its field', (_what, change, field) => {
    expect(parseMove({ ...aMove('squat'), ...change })).toEqual({ ok: false, reason: 'badField', field });
  });

  it('says which field is missing and which is not known', () => {
    const { effort: _effort, ...effortless } = aMove('squat');
    expect(parseMove(effortless)).toEqual({ ok: false, reason: 'missing', field: ['effort'] });
    const kit = { trampoline: 1 };
    expect(parseMove({ ...aMove('squat'), kit })).toEqual({
      ok: false,
      reason: 'unknownField',
      field: ['kit', 'trampoline'],
    });
  });

  it('asks a circuit move for a lower option, and no other move', () => {
    const options = [higher];
    const field = ['options'];
    expect(parseMove({ ...aMove('squat'), options })).toEqual({ ok: false, reason: 'noLowerOption', field });
    expect(parseMove({ ...aMove('squat'), options, part: 'stretch' }).ok).toBe(true);
  });

  it('takes four options each way and no fifth', () => {
    const four = Array(4).fill(lower);
    expect(parseMove({ ...aMove('squat'), options: [...four, ...Array(4).fill(higher)] }).ok).toBe(true);
    const refused = { ok: false, reason: 'tooManyOptions', field: ['options'] };
    expect(parseMove({ ...aMove('squat'), options: [...four, lower] })).toEqual(refused);
    expect(parseMove({ ...aMove('squat'), options: [lower, ...Array(5).fill(higher)] })).toEqual(refused);
  });

  it('refuses a region named twice', () => {
    const regions = ['legs', 'hips', 'legs'];
    expect(parseMove({ ...aMove('squat'), regions })).toEqual({
      ok: false,
      reason: 'usedTwice',
      field: ['regions', 2],
    });
  });

  /** Every word of the move type: these do not check when one is forgotten. */
  const WORDS: {
    readonly part: Record<Part, 1>;
    readonly pattern: Record<Pattern, 1>;
    readonly position: Record<Position, 1>;
    readonly impact: Record<Impact, 1>;
    readonly effort: Record<Effort, 1>;
    readonly sides: Record<Sides, 1>;
  } = {
    part: { warmUp: 1, circuit: 1, stretch: 1 },
    pattern: {
      squat: 1,
      lunge: 1,
      hinge: 1,
      push: 1,
      pull: 1,
      brace: 1,
      rotate: 1,
      carry: 1,
      jump: 1,
      run: 1,
      mobilise: 1,
      stretch: 1,
    },
    position: { standing: 1, sitting: 1, kneeling: 1, allFours: 1, lyingFront: 1, lyingBack: 1, lyingSide: 1 },
    impact: { none: 1, low: 1, jump: 1 },
    effort: { light: 1, moderate: 1, hard: 1 },
    sides: { both: 1, alternating: 1, inTurn: 1, reverse: 1 },
  };
  const REGIONS: Record<Region, 1> = {
    legs: 1,
    hips: 1,
    calves: 1,
    chest: 1,
    back: 1,
    shoulders: 1,
    arms: 1,
    trunk: 1,
    neck: 1,
    heartAndLungs: 1,
  };
  const PIECES: Required<KitNeeds> = {
    mat: 1,
    band: 1,
    loopBand: 1,
    bandHook: 1,
    handWeight: 1,
    step: 1,
    chair: 1,
    wall: 1,
    rope: 1,
    floorLine: 1,
  };

  it('knows every word that a move may use', () => {
    const oneWord = Object.entries(WORDS).flatMap(([key, words]) =>
      Object.keys(words).map((word) => ({ [key]: word })),
    );
    const lists = [...Object.keys(REGIONS).map((region) => ({ regions: [region] })), { kit: PIECES }];
    for (const change of [...oneWord, ...lists]) {
      expect(parseMove({ ...aMove('squat'), ...change }).ok, JSON.stringify(change)).toBe(true);
    }
  });
});

describe('parseMoves', () => {
  it('gives all or none, and says which one is at fault', () => {
    expect(parseMoves([aMove('a'), aMove('b')])).toEqual({ ok: true, value: [aMove('a'), aMove('b')] });
    const bent = [aMove('a'), { ...aMove('b'), name: 3 }];
    expect(parseMoves(bent)).toEqual({ ok: false, reason: 'badField', field: [1, 'name'] });
  });

  it('refuses one id for two moves', () => {
    expect(parseMoves([aMove('a'), aMove('a')])).toEqual({ ok: false, reason: 'usedTwice', field: [1, 'id'] });
  });
});
