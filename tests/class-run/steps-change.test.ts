import { describe, expect, test } from 'vitest';
import type { ClassState } from '../../src/class-run/class-state.ts';
import { readyState } from '../../src/class-run/replay.ts';
import {
  back,
  books,
  changing,
  classOf,
  drop,
  list,
  marks,
  next,
  PAUSE,
  press,
  refusal,
  sight,
  started,
  statusAt,
  taken,
  tenMore,
  trim,
} from '../builders/small-class.ts';
import { aBlock, anEntry, aPlan, aTalk, aWait } from '../builders/small-plan.ts';

describe('the next move', () => {
  test('ends this one and keeps the way into the next', () => {
    const klass = classOf(anEntry('a'), changing('b', 8));
    const state = taken(klass, 10, next(klass, 10));
    expect([sight(state, 10), books(state)]).toEqual(['changeover b 8', [0, 20, 0]]);
  });

  test('in the way into a move begins the work', () => {
    const klass = classOf(anEntry('a'), changing('b', 8));
    expect(sight(taken(klass, 32, next(klass, 32)), 32)).toBe('work b 30');
  });

  test('on the first side passes over the second', () => {
    const klass = classOf(anEntry('sided'), anEntry('b'));
    expect(sight(taken(klass, 10, next(klass, 10)), 10)).toBe('work b 30');
  });

  test('in the count-in after a pause begins the rest of the move', () => {
    const counted = taken(taken(classOf(anEntry('a')), 12, PAUSE), 20, { kind: 'carryOn', countInMs: 5000 });
    expect(sight(taken(counted, 22, next(counted, 22)), 22)).toBe('work a 18');
  });

  test('pressed twice goes on once: the second press saw a span that is gone', () => {
    const klass = classOf(anEntry('a'), anEntry('b'), anEntry('c'));
    const press = next(klass, 10);
    const once = taken(klass, 10, press);
    expect([refusal(once, 10.2, press), sight(once, 10.2)]).toEqual(['movedOn', 'work b 29.8']);
  });

  test('while paused the class stands before the next', () => {
    const paused = taken(classOf(anEntry('a'), anEntry('b')), 10, PAUSE);
    const state = taken(paused, 15, next(paused, 15));
    expect([statusAt(state, 90), sight(state, 90)]).toEqual(['paused', 'work b 30']);
  });

  test('on the last move ends the class', () => {
    const klass = classOf(anEntry('a'));
    expect(marks(klass, 10, next(klass, 10))).toEqual(['skip@10', 'finished@10']);
  });

  test('on the last move while paused ends the class at that instant', () => {
    const paused = taken(classOf(anEntry('a')), 10, PAUSE);
    const { state } = press(paused, 25, next(paused, 25));
    expect(state.phase).toEqual({ kind: 'finished', atMs: 25_000 });
    expect(state.endMs + state.pausedMs).toBe(25_000);
  });

  test('talk and water are passed over too', () => {
    const klass = classOf(aTalk(), anEntry('a'));
    expect(sight(taken(klass, 4, next(klass, 4)), 4)).toBe('work a 30');
  });
});

describe('going back one', () => {
  const klass = classOf(anEntry('a'), changing('b', 8), anEntry('c'));

  test('runs the move before again, and then this one from its start', () => {
    const state = taken(klass, 50, back(klass, 50, 5000));
    expect(list(state)).toEqual([
      ...['work a 30', 'changeover b 8', 'work b 12'],
      ...['countIn a 5', 'work a 30', 'changeover b 8', 'work b 30', 'work c 30'],
    ]);
    expect([sight(state, 50), books(state)]).toEqual(['countIn a 5', [55, 0, 0]]);
  });

  test('from the way into a move runs the one just finished', () => {
    const state = taken(klass, 32, back(klass, 32));
    expect(list(state).slice(2)).toEqual(['work a 30', 'changeover b 8', 'work b 30', 'work c 30']);
  });

  test('copies the plan, not what ran', () => {
    const skipped = taken(klass, 10, next(klass, 10));
    const again = taken(skipped, 20, back(skipped, 20));
    expect(sight(again, 20)).toBe('work a 30');
  });

  test('brings back both sides in full', () => {
    const sided = classOf(anEntry('sided'), anEntry('b'));
    const skipped = taken(sided, 10, next(sided, 10));
    expect(list(taken(skipped, 15, back(skipped, 15)))).toEqual([
      ...['work sided left 10', 'work b 5'],
      ...['work sided left 30', 'sideChange sided right 3', 'work sided right 30', 'work b 30'],
    ]);
  });

  test('twice goes back two', () => {
    const once = taken(klass, 80, back(klass, 80));
    expect(sight(once, 80)).toBe('work b 30');
    expect(sight(taken(once, 85, back(once, 85)), 85)).toBe('work a 30');
  });

  test('in the first move begins it anew', () => {
    const state = taken(klass, 12, back(klass, 12));
    expect(list(state).slice(0, 2)).toEqual(['work a 12', 'work a 30']);
  });

  test('before the first move there is nothing to go back to', () => {
    const counting = started(aPlan([aBlock([anEntry('a')])]));
    expect(refusal(counting, 3, back(counting, 3))).toBe('nothingBefore');
  });

  test('passes over a move that was dropped', () => {
    const dropped = taken(klass, 50, drop('b'));
    expect(sight(taken(dropped, 55, back(dropped, 55)), 55)).toBe('work a 30');
  });

  test('from the closing rest runs the last move again, and then the rest', () => {
    const resting = started(
      aPlan([aBlock([anEntry('a'), anEntry('b')], { closingRestSeconds: 10 })], { countInSeconds: 0 }),
    );
    const state = taken(resting, 64, back(resting, 64));
    expect(list(state).slice(2)).toEqual(['rest 4', 'work b 30', 'rest 10']);
  });

  test('from a talk runs the move before it, and then the talk', () => {
    const talk = classOf(anEntry('a'), aTalk(), anEntry('b'));
    expect(list(taken(talk, 35, back(talk, 35))).slice(1)).toEqual(['talk 5', 'work a 30', 'talk 20', 'work b 30']);
  });

  test('a wait that was asked for waits again', () => {
    const wait = classOf(anEntry('a'), aWait({ goesOn: 'whenAsked' }), anEntry('b'));
    const state = taken(wait, 100, back(wait, 100));
    expect([sight(state, 100), statusAt(state, 600)]).toEqual(['work a 30', 'waiting']);
  });

  test('leaves no second copy where dropped moves stand between', () => {
    const plan = aPlan([aBlock([anEntry('a'), anEntry('b'), aWait({ goesOn: 'whenAsked' })], { rounds: 2 })], {
      countInSeconds: 0,
    });
    const waiting = taken(started(plan), 0, drop('a'));
    const counted = taken(waiting, 40, { kind: 'carryOn', countInMs: 5000 });
    const state = taken(counted, 42, back(counted, 42));
    expect(list(state)).toEqual([
      'work b 30',
      'wait 10',
      'countIn b 2',
      'work b 30',
      'wait 20',
      'work b 30',
      'wait 20',
    ]);
  });

  test('of a span that is gone is refused', () => {
    expect(refusal(klass, 50, back(klass, 10))).toBe('movedOn');
  });
});

describe('ten seconds more', () => {
  test('make this move longer, and the class', () => {
    const klass = classOf(anEntry('a'), anEntry('b'));
    const state = taken(klass, 10, tenMore(klass, 10));
    expect([list(state), books(state)]).toEqual([
      ['work a 40', 'work b 30'],
      [10, 0, 0],
    ]);
  });

  test('on the first side go to the other side too', () => {
    const klass = classOf(anEntry('sided'));
    const state = taken(klass, 10, tenMore(klass, 10));
    expect(list(state)).toEqual(['work sided left 40', 'sideChange sided right 3', 'work sided right 40']);
    expect(books(state)).toEqual([20, 0, 0]);
  });

  test('after a count-in within the first side still go to the other', () => {
    const counted = taken(taken(classOf(anEntry('sided')), 10, PAUSE), 20, { kind: 'carryOn', countInMs: 5000 });
    expect(list(taken(counted, 26, tenMore(counted, 26))).slice(2)).toEqual([
      ...['work sided left 30', 'sideChange sided right 3', 'work sided right 40'],
    ]);
  });

  test('on the second side stay there: the first is done', () => {
    const klass = classOf(anEntry('sided'));
    expect(list(taken(klass, 40, tenMore(klass, 40)))[0]).toBe('work sided left 30');
  });

  test('are not added to a count that has begun', () => {
    const klass = classOf(anEntry('a'));
    expect([refusal(klass, 26.999, tenMore(klass, 26)), refusal(klass, 27, tenMore(klass, 27))]).toEqual([
      null,
      'begun',
    ]);
  });

  test('are for moves only', () => {
    const klass = classOf(anEntry('a'), changing('b', 8), aTalk(), aWait());
    expect([35, 70, 95].map((seconds) => refusal(klass, seconds, tenMore(klass, seconds)))).toEqual([
      ...['notNow', 'notNow', 'notNow'],
    ]);
  });

  test('that are no seconds are refused', () => {
    expect(refusal(classOf(anEntry('a')), 10, { kind: 'give', span: 0, byMs: 0 })).toBe('notNow');
  });

  test('on the minute eat the slack after the work first', () => {
    const { order } = classOf(anEntry('a'), aTalk({ seconds: 8 }), anEntry('b'));
    const spans = order.spans.map((span) =>
      span.id === 1 ? { ...span, kind: 'rest', entryId: 'a', gives: true } : span,
    );
    const klass = taken(readyState({ ...order, spans: spans as typeof order.spans }), 0, { kind: 'start' });
    const once = taken(klass, 10, { kind: 'give', span: 0, byMs: 5000 });
    expect(list(once)).toEqual(['work a 35', 'rest 3', 'work b 30']);
    expect(list(taken(once, 20, tenMore(once, 20)))).toEqual(['work a 45', 'work b 30']);
  });

  test('for a span that is gone are refused', () => {
    const klass = classOf(anEntry('a'), anEntry('b'));
    expect(refusal(klass, 31, tenMore(klass, 10))).toBe('movedOn');
  });

  test('can be given in a pause', () => {
    const paused = taken(classOf(anEntry('a')), 10, PAUSE);
    expect(sight(taken(paused, 20, tenMore(paused, 20)), 20)).toBe('work a 30');
  });
});

describe('dropping a move', () => {
  const rounds = (breatherSeconds = 0): ClassState =>
    started(aPlan([aBlock([anEntry('a'), changing('b', 8)], { rounds: 2, breatherSeconds })], { countInSeconds: 0 }));

  test('takes it out of this round and all that come, with the way into it', () => {
    const state = taken(rounds(), 10, drop('b'));
    expect([list(state), books(state)]).toEqual([
      ['work a 30', 'work a 30'],
      [0, 76, 0],
    ]);
    expect(state.dropped).toEqual(['b']);
  });

  test('ends it at once while it runs', () => {
    const state = taken(rounds(), 10, drop('a'));
    expect([sight(state, 10), list(state)]).toEqual([
      'changeover b 8',
      ['work a 10', 'changeover b 8', 'work b 30', 'changeover b 8', 'work b 30'],
    ]);
  });

  test('keeps the breather that leads into it', () => {
    expect(list(taken(rounds(45), 10, drop('a'))).slice(3)).toEqual(['breather a 45', 'changeover b 8', 'work b 30']);
  });

  test('that has run out, or that nobody knows, finds nothing', () => {
    const klass = classOf(anEntry('a'), anEntry('b'));
    expect([refusal(klass, 40, drop('a')), refusal(klass, 40, drop('nobody'))]).toEqual(['notFound', 'notFound']);
  });

  test('that was the last of the class ends it, also while paused', () => {
    const klass = classOf(anEntry('a'));
    expect(marks(klass, 10, drop('a'))).toEqual(['drop@10', 'finished@10']);
    expect(marks(taken(klass, 10, PAUSE), 25, drop('a'))).toEqual(['drop@25', 'finished@25']);
  });

  test('that was the last to come leaves the one before it standing in its pause', () => {
    const paused = taken(classOf(anEntry('a'), anEntry('b')), 10, PAUSE);
    expect(sight(taken(paused, 25, drop('b')), 25)).toBe('work a 20');
  });
});

describe('trimming to a finish', () => {
  const klass = classOf(anEntry('a'), changing('b', 8), anEntry('c'), anEntry('sided'));

  test('takes entries out in the order given until the class fits', () => {
    const state = taken(klass, 10, trim(135, 'b', 'c', 'sided'));
    expect(list(state)).toEqual(['work a 30', 'work c 30', ...list(klass).slice(4)]);
    expect([books(state), state.dropped]).toEqual([[0, 0, 38], []]);
  });

  test('counts the time that the class stands', () => {
    const paused = taken(klass, 10, PAUSE);
    expect(press(paused, 40, trim(131, 'b', 'c')).state.books.trimmedMs).toBe(68_000);
  });

  test('never takes what has begun, nor its other side', () => {
    const sided = classOf(anEntry('sided'), anEntry('b'));
    expect(list(taken(sided, 10, trim(0, 'sided', 'b')))).toEqual(list(sided).slice(0, 3));
  });

  test('at a wait that has lasted too long counts what it lasted', () => {
    const wait = classOf(aWait({ goesOn: 'whenAsked' }), anEntry('a'), anEntry('b'));
    expect(refusal(wait, 20, trim(80, 'b'))).toBe('nothingToTrim');
    expect(list(taken(wait, 50, trim(80, 'b')))).toEqual(['wait 20', 'work a 30']);
  });

  test('finds nothing to trim where the class fits, and where nothing named is left', () => {
    expect(refusal(klass, 10, trim(161, 'b'))).toBe('nothingToTrim');
    expect(refusal(klass, 10, trim(20, 'a', 'nobody'))).toBe('nothingToTrim');
    expect(refusal(klass, 10, trim(20))).toBe('nothingToTrim');
  });
});
