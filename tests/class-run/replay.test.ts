import { describe, expect, test } from 'vitest';
import { readyState, replay } from '../../src/class-run/replay.ts';
import { classOf, SEEN } from '../builders/small-class.ts';
import { anEntry } from '../builders/small-plan.ts';

describe('replay', () => {
  const klass = classOf(anEntry('a'));
  const mark = (seq: number, atMs: number, kind: 'started' | 'carriedOn' | 'finished') => ({
    seq,
    atMs,
    seen: SEEN,
    kind,
  });

  test('of no marks is a class that is ready', () => {
    expect(replay(klass.order, [])).toEqual({ ok: true, state: readyState(klass.order) });
  });

  test('refuses marks that no class wrote, and says which', () => {
    const bent = [
      [mark(1, 0, 'started')],
      [mark(0, 0, 'carriedOn')],
      [mark(0, 0, 'started'), mark(1, 0, 'started')],
      [mark(0, 5, 'started'), mark(1, 4, 'finished')],
      [mark(0, 0, 'started'), mark(1, 0.5, 'finished')],
    ];
    expect(bent.map((marks) => replay(klass.order, marks).ok)).toEqual(bent.map(() => false));
    expect(replay(klass.order, [mark(0, 0, 'started'), mark(1, 0, 'carriedOn')])).toEqual({
      ok: false,
      reason: 'bentMark',
      seq: 1,
    });
  });
});
