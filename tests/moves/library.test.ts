import { expect, it } from 'vitest';
import { libraryOf } from '../../src/moves/library.ts';
import { aMove } from '../builders/small-plan.ts';

it('finds moves by their id, in the order given', () => {
  const library = libraryOf([aMove('b'), aMove('a')]);
  expect([...library.keys()]).toEqual(['b', 'a']);
  expect(library.get('a')).toEqual(aMove('a'));
});

it('throws for two moves of one id: that is a mistake in the program', () => {
  expect(() => libraryOf([aMove('a'), aMove('a')])).toThrow(/same id/);
});
