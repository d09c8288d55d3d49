import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPlanFile, writePlanFile } from '../../src/exchange/plan-file.ts';
import { libraryOf } from '../../src/moves/library.ts';
import type { FieldPath } from '../../src/records/parsed.ts';
import { ANY_PLAN_MOVES, anyBend, anyPlan, anyPlanFile, bend } from '../builders/any-plan.ts';
import { aBlock, aMove, anEntry, aPlan } from '../builders/small-plan.ts';

const none = libraryOf([]);
const plan = aPlan([aBlock([anEntry('a'), anEntry('b')])]);
const file = { format: 'hallpace-plan', v: 1, plan, moves: [aMove('a'), aMove('b')] };
const read = (value: unknown, library = none) => readPlanFile(JSON.stringify(value), library);
const refused = (reason: string, field: FieldPath) => ({ ok: false, reason, field });

describe('readPlanFile', () => {
  it('gives the plan and the moves that the library does not have', () => {
    expect(read(file)).toEqual({ ok: true, plan, ownMoves: [aMove('a'), aMove('b')] });
    expect(read(file, libraryOf([aMove('b')]))).toEqual({ ok: true, plan, ownMoves: [aMove('a')] });
    expect(read({ ...file, moves: [] }, libraryOf([aMove('a'), aMove('b')]))).toEqual({ ok: true, plan, ownMoves: [] });
  });

  it('leaves out a move that the plan does not use', () => {
    expect(read({ ...file, moves: [...file.moves, aMove('c')] })).toEqual({ ok: true, plan, ownMoves: file.moves });
  });

  it.each([null, 7, 'plan', [], {}, { v: 1 }, { format: 'other', v: 1 }])(
    'does not take %j for a plan file',
    (value) => {
      expect(read(value)).toEqual(refused('notAPlan', []));
    },
  );

  it('refuses a newer version before it looks at anything in it', () => {
    expect(read({ format: 'hallpace-plan', v: 2, scenes: [] })).toEqual(refused('tooNew', ['v']));
    expect(read({ ...file, v: 1e9 })).toEqual(refused('tooNew', ['v']));
  });

  it.each(['1', 0, -1, 1.5, null])('refuses the version %j', (v) => {
    expect(read({ ...file, v })).toEqual(refused('badField', ['v']));
  });

  it('says that the version or a part is missing', () => {
    const { v: _v, ...versionless } = file;
    expect(read(versionless)).toEqual(refused('missing', ['v']));
    const { moves: _moves, ...moveless } = file;
    expect(read(moveless)).toEqual(refused('missing', ['moves']));
  });

  it('refuses whole for one field, and names it from the top of the file', () => {
    const bent = aPlan([aBlock([anEntry('a'), anEntry('b', { dose: { kind: 'seconds', seconds: 4 } })])]);
    expect(read({ ...file, plan: bent })).toEqual(
      refused('badField', ['plan', 'blocks', 0, 'entries', 1, 'dose', 'seconds']),
    );
    expect(read({ ...file, moves: [aMove('a'), { ...aMove('b'), hallName: '' }] })).toEqual(
      refused('badField', ['moves', 1, 'hallName']),
    );
    expect(read({ ...file, author: 'me' })).toEqual(refused('unknownField', ['author']));
  });

  it('checks what no schema says, in plan and moves alike', () => {
    const twice = aPlan([aBlock([anEntry('a'), anEntry('b', { id: 'a' })])]);
    expect(read({ ...file, plan: twice })).toEqual(refused('usedTwice', ['plan', 'blocks', 0, 'entries', 1, 'id']));
    expect(read({ ...file, moves: [aMove('a'), aMove('b', { options: [] })] })).toEqual(
      refused('noLowerOption', ['moves', 1, 'options']),
    );
    expect(read({ ...file, moves: [aMove('a'), aMove('b'), aMove('a')] })).toEqual(
      refused('usedTwice', ['moves', 2, 'id']),
    );
  });

  it('refuses a move that nobody knows', () => {
    const field = ['plan', 'blocks', 0, 'entries', 1, 'moveId'];
    expect(read({ ...file, moves: [aMove('a')] })).toEqual(refused('unknownMove', field));
  });

  it('refuses a move that differs from the one the library has under its id, and takes the same one', () => {
    const library = libraryOf([aMove('a'), aMove('b')]);
    const changed = aMove('b', { name: 'Another b' });
    expect(read({ ...file, moves: [changed] }, library)).toEqual(refused('clash', ['moves', 0, 'id']));
    const { id, ...rest } = aMove('b');
    expect(read({ ...file, moves: [aMove('b')] }, libraryOf([aMove('a'), { ...rest, id }]))).toEqual({
      ok: true,
      plan,
      ownMoves: [],
    });
  });

  describe('with hostile text', () => {
    const text = JSON.stringify(file);

    it('refuses ten megabytes before reading them', () => {
      expect(readPlanFile(`${text}${' '.repeat(10_000_000)}`, none)).toEqual(refused('tooLarge', []));
    });

    it('refuses lists within lists without end', () => {
      const deep = text.replace('"about":""', `"about":${'['.repeat(50_000)}${']'.repeat(50_000)}`);
      expect(deep).not.toBe(text);
      expect(readPlanFile(deep, none)).toMatchObject({ ok: false, reason: 'tooDeep' });
    });

    it('refuses keys of objects themselves', () => {
      const hostile = text.replace('"about":""', '"about":"","__proto__":{"rounds":9}');
      expect(readPlanFile(hostile, none)).toEqual(refused('unknownField', ['plan', '__proto__']));
      expect('rounds' in {}).toBe(false);
    });

    it('refuses a key that stands twice', () => {
      const hostile = text.replace('"countInSeconds":', '"countInSeconds":5,"countInSeconds":');
      expect(readPlanFile(hostile, none)).toEqual(refused('sameKeyTwice', ['plan', 'countInSeconds']));
    });

    it.each(['1e999', '-1e999', '1e21', '0.5', '9007199254740993'])('refuses the number %s for seconds', (number) => {
      const hostile = text.replace(/"countInSeconds":\d+/, `"countInSeconds":${number}`);
      expect(hostile).not.toBe(text);
      expect(readPlanFile(hostile, none)).toEqual(refused('badField', ['plan', 'countInSeconds']));
    });

    it.each(['\\ud800', '\\udc00\\ud800', '\\u0000', '\\u0007', '\\u202e', '\\u2028', '\\r\\n'])(
      'refuses %s in a name',
      (odd) => {
        const hostile = text.replace(JSON.stringify(plan.name), `"x${odd}y"`);
        expect(hostile).not.toBe(text);
        expect(readPlanFile(hostile, none)).toEqual(refused('badField', ['plan', 'name']));
      },
    );

    it('takes markup as the plain text it is, letter by letter', () => {
      const name = '</script><img src=x onerror="alert(1)">{{7*7}}';
      const opened = read({ ...file, plan: { ...plan, name } });
      expect(opened.ok && opened.plan.name).toBe(name);
    });
  });

  it('takes a bent file as it is or refuses it whole, and never throws', () => {
    fc.assert(
      fc.property(anyPlanFile, anyBend, (sound, how) => {
        const bent = bend(sound, how);
        const opened = readPlanFile(JSON.stringify(bent), none);
        if (opened.ok) {
          expect(JSON.parse(JSON.stringify(bent))).toMatchObject({ plan: JSON.parse(JSON.stringify(opened.plan)) });
          expect(readPlanFile(writePlanFile(opened.plan, opened.ownMoves), none)).toEqual(opened);
        } else {
          expect(Object.keys(opened).sort()).toEqual(['field', 'ok', 'reason']);
        }
      }),
      { numRuns: 1000 },
    );
  });

  it('takes bent text or refuses it whole, and never throws', () => {
    const text = JSON.stringify(file);
    fc.assert(
      fc.property(fc.nat(text.length), fc.nat(6), fc.string({ maxLength: 4 }), (at, cut, put) => {
        const opened = readPlanFile(text.slice(0, at) + put + text.slice(at + cut), none);
        expect(opened.ok ? Object.keys(opened) : Object.keys(opened).sort()).toEqual(
          opened.ok ? ['ok', 'plan', 'ownMoves'] : ['field', 'ok', 'reason'],
        );
      }),
      { numRuns: 1000 },
    );
  });
});

describe('writePlanFile', () => {
  it('writes what reads back as the same plan and moves', () => {
    fc.assert(
      fc.property(anyPlan, (any) => {
        const used = new Set(
          any.blocks.flatMap(({ entries }) => entries.map((one) => (one.kind === 'move' ? one.moveId : ''))),
        );
        const ownMoves = ANY_PLAN_MOVES.filter(({ id }) => used.has(id));
        const again = readPlanFile(writePlanFile(any, ANY_PLAN_MOVES), none);
        expect(again).toEqual({ ok: true, plan: JSON.parse(JSON.stringify(any)), ownMoves });
      }),
    );
  });

  it('says what it is, in text that people can read, with a line end', () => {
    const text = writePlanFile(plan, file.moves);
    expect(text).toMatch(/^\{\n {2}"format": "hallpace-plan",\n {2}"v": 1,\n {2}"plan": \{\n/);
    expect(text.endsWith('}\n')).toBe(true);
  });
});
