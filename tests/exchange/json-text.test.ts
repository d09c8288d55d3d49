import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isLongerThan, MOST_BYTES, MOST_DEPTH, readJson } from '../../src/exchange/json-text.ts';

const nested = (depth: number): string => '['.repeat(depth) + ']'.repeat(depth);

describe('readJson', () => {
  it('reads any JSON text that nests no deeper than it may', () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 6 }), (text) => {
        const read = readJson(text);
        // A random object may have one key twice in its text; then it is refused, whatever it holds.
        if (read.ok || read.reason !== 'sameKeyTwice') expect(read).toEqual({ ok: true, value: JSON.parse(text) });
      }),
    );
  });

  it('never throws, and refuses what JSON.parse refuses', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.stringMatching(/^[[\]{}",:\\ 1a]{0,40}$/)), (text) => {
        const read = readJson(text);
        if (read.ok) expect(read.value).toEqual(JSON.parse(text.replace(/^\ufeff/, '')));
        else expect(['notJson', 'tooDeep', 'sameKeyTwice']).toContain(read.reason);
      }),
    );
  });

  it('passes over the mark that some editors put first', () => {
    expect(readJson('\ufeff{"a":1}')).toEqual({ ok: true, value: { a: 1 } });
  });

  it.each([
    '',
    '   ',
    '{',
    '{"a":}',
    "{'a':1}",
    '{"a":1,}',
    'NaN',
    '[Infinity]',
    '/* note */ {}',
    '"torn',
    'undefined',
  ])('does not take %j for JSON', (text) => {
    expect(readJson(text)).toEqual({ ok: false, reason: 'notJson', field: [] });
  });

  it('looks at depth before it builds anything', () => {
    expect(readJson(nested(MOST_DEPTH)).ok).toBe(true);
    expect(readJson(nested(MOST_DEPTH + 1))).toMatchObject({ ok: false, reason: 'tooDeep' });
    expect(readJson('['.repeat(500_000))).toMatchObject({ ok: false, reason: 'tooDeep' });
    expect(readJson('{"a":'.repeat(100_000))).toMatchObject({ ok: false, reason: 'tooDeep' });
    expect(readJson(`"${'['.repeat(100)}"`)).toEqual({ ok: true, value: '['.repeat(100) });
  });

  it('refuses a key that stands twice, however it is spelt, and says where', () => {
    const refused = (field: readonly (string | number)[]) => ({ ok: false, reason: 'sameKeyTwice', field });
    expect(readJson('{"a":1,"a":2}')).toEqual(refused(['a']));
    expect(readJson('{"plan":{"blocks":[{},{"id":1,"b":[0,1],"\\u0069d":2}]}}')).toEqual(
      refused(['plan', 'blocks', 1, 'id']),
    );
    expect(readJson('[{"a":{"b":1}},{"a":[{"b":1,"c":{"b":1}}],"b":"\\"a\\":"}]').ok).toBe(true);
  });

  it('keeps a key named __proto__ as a key like any other', () => {
    const read = readJson('{"__proto__":{"polluted":true}}');
    expect(read.ok && Object.keys(Object(read.value))).toEqual(['__proto__']);
    expect('polluted' in {}).toBe(false);
  });

  it('weighs a text as UTF-8 before it reads it', () => {
    const text = (bytes: number): string => `"${'x'.repeat(bytes - 2)}"`;
    expect(readJson(text(MOST_BYTES)).ok).toBe(true);
    expect(readJson(text(MOST_BYTES + 1))).toEqual({ ok: false, reason: 'tooLarge', field: [] });
    expect(readJson(`"${'€'.repeat(MOST_BYTES / 3)}"`)).toEqual({ ok: false, reason: 'tooLarge', field: [] });
    expect(readJson('['.repeat(10_000_000))).toEqual({ ok: false, reason: 'tooLarge', field: [] });
  });

  it('weighs every text as its encoder does', () => {
    fc.assert(
      fc.property(
        fc.string({
          unit: fc.constantFrom('a', '\u007f', '\u0080', 'é', '\u07ff', '\u0800', '€', '🙂', '\ud800', '\udc00'),
        }),
        (text) => {
          const bytes = new TextEncoder().encode(text).length;
          expect([isLongerThan(text, bytes), isLongerThan(text, bytes - 1)]).toEqual([false, true]);
        },
      ),
    );
  });
});
