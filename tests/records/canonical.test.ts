import fc from 'fast-check';
import { expect, it } from 'vitest';
import { canonicalJson } from '../../src/records/canonical.ts';

it('gives one text for equal values, however their keys stood', () => {
  expect(canonicalJson({ b: [{ z: 1, a: null }], a: 'ä' })).toBe('{"a":"ä","b":[{"a":null,"z":1}]}');
  expect(canonicalJson({ b: 1, a: { d: 1, c: 2 } })).toBe(canonicalJson({ a: { c: 2, d: 1 }, b: 1 }));
});

it('keeps the order of lists, and tells different values apart', () => {
  expect(canonicalJson([2, 1])).not.toBe(canonicalJson([1, 2]));
  expect(canonicalJson({ a: 1 })).not.toBe(canonicalJson({ a: '1' }));
});

it('loses nothing of any JSON value', () => {
  fc.assert(
    fc.property(fc.jsonValue(), (value) => {
      expect(JSON.parse(canonicalJson(value))).toEqual(JSON.parse(JSON.stringify(value)));
    }),
  );
});
