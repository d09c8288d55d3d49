import { describe, expect, test } from 'vitest';
import type { Asked } from '../../src/class-run/marks.ts';
import { step } from '../../src/class-run/step.ts';
import {
  CARRY_ON,
  classOf,
  drop,
  FINISH,
  GAP,
  LOOK,
  list,
  marks,
  next,
  PAUSE,
  press,
  RAN_ON,
  ready,
  refusal,
  SEEN,
  sight,
  statusAt,
  taken,
} from '../builders/small-class.ts';
import { aBlock, anEntry, aPlan } from '../builders/small-plan.ts';

describe('before the start', () => {
  const waiting = ready(aPlan([aBlock([anEntry('a')])]));

  test('the class is ready and shows nothing', () => {
    expect([statusAt(waiting, 0), sight(waiting, 0)]).toEqual(['ready', 'nothing']);
  });

  test('the class clock begins with the start, whatever instant it carries', () => {
    expect(marks(waiting, 12, { kind: 'start' })).toEqual(['started@0']);
  });

  test('nothing but starting and abandoning can be asked', () => {
    const others: Asked[] = [PAUSE, CARRY_ON, next(waiting, 0), FINISH, drop('a'), RAN_ON, GAP];
    expect(others.map((asked) => refusal(waiting, 0, asked))).toEqual(others.map(() => 'notNow'));
    expect(marks(waiting, 0, { kind: 'abandon' })).toEqual(['abandoned@0']);
    expect(press(waiting, 0, LOOK)).toEqual({ state: waiting, marks: [], refused: null });
  });

  test('a class is started once', () => {
    expect(refusal(classOf(anEntry('a')), 3, { kind: 'start' })).toBe('notNow');
  });
});

describe('instants', () => {
  test('a press that is older than the last mark counts from that mark', () => {
    const paused = taken(classOf(anEntry('a')), 10, PAUSE);
    expect(marks(paused, 4, CARRY_ON)).toEqual(['carriedOn@10']);
  });

  test('parts of a millisecond are rounded', () => {
    expect(marks(classOf(anEntry('a')), 1.2344, PAUSE)).toEqual(['paused@1.234']);
    const { marks: written } = step(classOf(anEntry('a')), { ...PAUSE, atMs: 1234.6, seen: SEEN });
    expect(written[0]?.atMs).toBe(1235);
  });
});

describe('the end', () => {
  const klass = classOf(anEntry('a'), anEntry('b'));

  test('comes by itself when all has run', () => {
    expect([statusAt(klass, 59.999), statusAt(klass, 60)]).toEqual(['running', 'finished']);
    expect(marks(klass, 60, LOOK)).toEqual(['finished@60']);
  });

  test('a phone that slept for ten hours finished on time', () => {
    expect(marks(klass, 36_000, LOOK)).toEqual(['finished@60']);
  });

  test('is written before an intent that comes after it, which is refused', () => {
    const late = press(klass, 61, PAUSE);
    expect([late.marks.map(({ kind }) => kind), late.refused]).toEqual([['finished'], 'notNow']);
  });

  test('includes what was paused', () => {
    const carried = taken(taken(klass, 10, PAUSE), 25, CARRY_ON);
    expect(marks(carried, 500, LOOK)).toEqual(['finished@75']);
  });

  test('after it nothing is taken, and a look changes nothing', () => {
    const over = taken(klass, 60, LOOK);
    const others: Asked[] = [PAUSE, CARRY_ON, FINISH, { kind: 'abandon' }, drop('a'), { kind: 'noteAway', byMs: 5 }];
    expect(others.map((asked) => refusal(over, 70, asked))).toEqual(others.map(() => 'notNow'));
    expect(press(over, 70, LOOK)).toEqual({ state: over, marks: [], refused: null });
  });
});

describe('showing another option', () => {
  const show = (level: number): Asked => ({ kind: 'show', entryId: 'a', level });

  test('is noted, and changes no time', () => {
    const klass = classOf(anEntry('a'));
    const state = taken(klass, 10, show(1));
    expect([state.shown, list(state)]).toEqual([{ a: 1 }, list(klass)]);
  });

  test('of what is shown already writes nothing', () => {
    const state = taken(classOf(anEntry('a')), 10, show(1));
    expect(press(state, 11, show(1))).toEqual({ state, marks: [], refused: null });
    expect(marks(classOf(anEntry('a')), 1, show(0))).toEqual([]);
  });

  test('can be asked while the class stands', () => {
    expect(marks(taken(classOf(anEntry('a')), 10, PAUSE), 20, show(1))).toEqual(['showed@20']);
  });
});

describe('notes of the clock rule', () => {
  test('are marks and change nothing', () => {
    const klass = classOf(anEntry('a'));
    expect(marks(klass, 10, { kind: 'noteAway', byMs: 4000 })).toEqual(['away@10']);
    expect(marks(klass, 10, { kind: 'noteWallMoved', byMs: -3_600_000 })).toEqual(['wallMoved@10']);
    const noted = taken(klass, 10, { kind: 'noteAway', byMs: 4000 });
    expect([list(noted), sight(noted, 12)]).toEqual([list(klass), sight(klass, 12)]);
  });
});
