import { describe, expect, test } from 'vitest';
import type { ClassState } from '../../src/class-run/class-state.ts';
import type { Asked } from '../../src/class-run/marks.ts';
import { readyState } from '../../src/class-run/replay.ts';
import {
  back,
  books,
  CARRY_ON,
  changing,
  classOf,
  drop,
  FINISH,
  GAP,
  LOOK,
  list,
  marks,
  next,
  PAUSE,
  RAN_ON,
  refusal,
  sight,
  statusAt,
  taken,
  tenMore,
  trim,
} from '../builders/small-class.ts';
import { anEntry, aWait } from '../builders/small-plan.ts';

describe('pause', () => {
  const klass = classOf(anEntry('a'));
  const paused = taken(klass, 10, PAUSE);

  test('the seconds left are kept, however long it lasts', () => {
    expect([sight(paused, 10), sight(paused, 4000)]).toEqual(['work a 20', 'work a 20']);
    expect(statusAt(paused, 4000)).toBe('paused');
    expect(sight(taken(paused, 4000, CARRY_ON), 4005)).toBe('work a 15');
  });

  test('a second pause is refused', () => {
    expect(refusal(paused, 11, PAUSE)).toBe('notNow');
  });

  test('someone hurt changes the cause of a pause, not its beginning', () => {
    const hurt = taken(paused, 20, { kind: 'pause', cause: 'hurt' });
    expect(hurt.phase).toEqual({ kind: 'live', standing: { sinceMs: 10_000, cause: 'hurt' } });
    expect(refusal(hurt, 21, { kind: 'pause', cause: 'hurt' })).toBe('notNow');
    expect(refusal(hurt, 21, PAUSE)).toBe('notNow');
    expect(sight(taken(hurt, 30, CARRY_ON), 30)).toBe('work a 20');
  });

  test('a wait point can be paused, and waits again afterwards', () => {
    const wait = classOf(aWait(), anEntry('a'));
    const stands = taken(wait, 5, PAUSE);
    expect([statusAt(stands, 6), statusAt(taken(stands, 65, CARRY_ON), 65)]).toEqual(['paused', 'waiting']);
  });
});

describe('carrying on after a pause', () => {
  const carriedOn = (klass: ClassState, seconds: number, countInMs: number) =>
    taken(taken(klass, seconds, PAUSE), seconds + 60, { kind: 'carryOn', countInMs });

  test('counts in before the rest of a move, which loses nothing', () => {
    const state = carriedOn(classOf(anEntry('a')), 12, 5000);
    expect(list(state)).toEqual(['work a 12', 'countIn a 5', 'work a 18']);
    expect(books(state)).toEqual([5, 0, 0]);
    expect(state.live.at(-1)?.doneMs).toBe(12_000);
  });

  test('without a count-in the live list stays as it is', () => {
    expect(list(carriedOn(classOf(anEntry('a')), 12, 0))).toEqual(['work a 30']);
  });

  test('at the very start of a move the whole of it is counted in to', () => {
    const state = carriedOn(classOf(anEntry('a'), anEntry('b')), 30, 5000);
    expect(list(state)).toEqual(['work a 30', 'countIn b 5', 'work b 30']);
  });

  test('a changeover with enough time left is its own count-in', () => {
    const klass = classOf(anEntry('a'), changing('b', 8));
    expect(list(carriedOn(klass, 32, 5000))).toEqual(list(klass));
  });

  test('a changeover with too little left is made as long as the count-in', () => {
    const state = carriedOn(classOf(anEntry('a'), changing('b', 8)), 36, 5000);
    expect(list(state)).toEqual(['work a 30', 'changeover b 11', 'work b 30']);
    expect(books(state)).toEqual([3, 0, 0]);
    expect(sight(state, 96)).toBe('changeover b 5');
  });

  test('a wait point has no use for a count-in', () => {
    expect(list(carriedOn(classOf(aWait(), anEntry('a')), 5, 5000))).toEqual(['wait 20', 'work a 30']);
  });

  test('open work stays open, and has at least a second left', () => {
    const { order } = classOf(anEntry('a'), anEntry('b'));
    const spans = order.spans.map((span) =>
      span.id === 0 ? { ...span, kind: 'openWork' as const, open: true } : span,
    );
    const klass = taken(readyState({ ...order, spans }), 0, { kind: 'start' });
    const state = carriedOn(klass, 50, 5000);
    expect(list(state)).toEqual(['openWork a 50', 'countIn a 5', 'openWork a 1', 'work b 30']);
    expect([state.live[2]?.open, sight(state, 600)]).toEqual([true, 'openWork a 0']);
  });

  test('is refused where nothing stands', () => {
    expect(refusal(classOf(anEntry('a')), 3, CARRY_ON)).toBe('notNow');
  });
});

describe('a wait point', () => {
  const asked = classOf(anEntry('a'), aWait({ goesOn: 'whenAsked' }), anEntry('b'));
  const byItself = classOf(anEntry('a'), aWait(), anEntry('b'));

  test('that goes on by itself does so after its seconds', () => {
    expect([statusAt(byItself, 40), statusAt(byItself, 50)]).toEqual(['waiting', 'running']);
    expect(sight(byItself, 50)).toBe('work b 30');
  });

  test('that waits to be asked waits, be it ten hours', () => {
    expect([statusAt(asked, 49), statusAt(asked, 36_000)]).toEqual(['waiting', 'waiting']);
    expect(marks(asked, 36_000, LOOK)).toEqual([]);
  });

  test('goes on when asked; what was not waited is skipped', () => {
    const state = taken(asked, 37, CARRY_ON);
    expect([sight(state, 37), books(state)]).toEqual(['work b 30', [0, 13, 0]]);
  });

  test('what was waited beyond the plan is given', () => {
    const state = taken(asked, 65, CARRY_ON);
    expect([sight(state, 65), books(state)]).toEqual(['work b 30', [15, 0, 0]]);
  });

  test('is left over a count-in where work comes straight after', () => {
    const state = taken(asked, 50, { kind: 'carryOn', countInMs: 5000 });
    expect(list(state)).toEqual(['work a 30', 'wait 20', 'countIn b 5', 'work b 30']);
  });

  test('is left without one where a changeover comes after', () => {
    const klass = classOf(aWait(), changing('a', 8));
    expect(list(taken(klass, 15, { kind: 'carryOn', countInMs: 5000 }))).toEqual([
      'wait 15',
      'changeover a 8',
      'work a 30',
    ]);
  });

  test('is left by asking for the next move', () => {
    expect(list(taken(asked, 40, next(asked, 40)))).toEqual(['work a 30', 'wait 10', 'work b 30']);
  });

  test('left while paused, the class stands before what comes', () => {
    const paused = taken(asked, 40, PAUSE);
    const state = taken(paused, 45, next(paused, 45));
    expect([statusAt(state, 45), sight(state, 45)]).toEqual(['paused', 'work b 30']);
  });

  test('that is last ends the class when it is left', () => {
    const last = classOf(anEntry('a'), aWait({ goesOn: 'whenAsked' }));
    expect(marks(last, 70, CARRY_ON)).toEqual(['wentOn@70', 'finished@70']);
  });
});

describe('finishing early', () => {
  const klass = classOf(anEntry('a'), aWait({ goesOn: 'whenAsked' }), anEntry('b'));

  test('ends the class now and books the rest as skipped', () => {
    expect(marks(klass, 10, FINISH)).toEqual(['finishEarly@10', 'finished@10']);
    const state = taken(klass, 10, FINISH);
    expect([list(state), books(state)]).toEqual([['work a 10'], [0, 70, 0]]);
  });

  test('while paused finishes at the press, and the pause is in it', () => {
    const state = taken(taken(klass, 10, PAUSE), 25, FINISH);
    expect(state.phase).toEqual({ kind: 'finished', atMs: 25_000 });
    expect(state.endMs + state.pausedMs).toBe(25_000);
  });

  test('at a wait that lasted too long books the wait as given, not as skipped', () => {
    expect(books(taken(klass, 70, FINISH))).toEqual([20, 30, 0]);
  });
});

describe('abandoning', () => {
  test('ends the class and leaves the live list as it was', () => {
    const klass = classOf(anEntry('a'));
    const state = taken(klass, 10, { kind: 'abandon' });
    expect([state.phase, list(state)]).toEqual([{ kind: 'abandoned', atMs: 10_000 }, list(klass)]);
  });

  test('while paused counts the pause as paused', () => {
    expect(taken(taken(classOf(anEntry('a')), 10, PAUSE), 25, { kind: 'abandon' }).pausedMs).toBe(15_000);
  });
});

describe('after a gap', () => {
  const klass = classOf(anEntry('a'), anEntry('b'));
  const asking = taken(klass, 10, GAP);

  test('that is asked about, the class stands', () => {
    expect([statusAt(asking, 10), sight(asking, 5000)]).toEqual(['asking', 'work a 20']);
  });

  test('nothing that changes the class is taken until it is answered', () => {
    const others: Asked[] = [next(klass, 10), back(klass, 10), tenMore(klass, 10), drop('a'), trim(0, 'b'), PAUSE, GAP];
    expect(others.map((asked) => refusal(asking, 12, asked))).toEqual(others.map(() => 'notNow'));
  });

  test('"carry on" goes on from where it stood', () => {
    expect(sight(taken(asking, 910, CARRY_ON), 910)).toBe('work a 20');
  });

  test('"it ran on" goes on where it would be by now', () => {
    const state = taken(asking, 35, RAN_ON);
    expect([sight(state, 35), state.pausedMs]).toEqual(['work b 25', 0]);
  });

  test('"it ran on" past the end finished on time', () => {
    const state = taken(asking, 910, RAN_ON);
    expect(state.phase).toEqual({ kind: 'finished', atMs: 60_000 });
  });

  test('"it ran on" past the end finished on time, also when something was written while asking', () => {
    const noted = taken(asking, 300, { kind: 'noteAway', byMs: 5000 });
    const state = taken(noted, 910, RAN_ON);
    expect(state.phase).toEqual({ kind: 'finished', atMs: 60_000 });
  });

  test('is asked about only while the class runs', () => {
    expect(refusal(taken(klass, 10, PAUSE), 12, GAP)).toBe('notNow');
    expect(refusal(classOf(aWait({ goesOn: 'whenAsked' })), 3, GAP)).toBe('notNow');
    expect(refusal(klass, 12, RAN_ON)).toBe('notNow');
  });

  test('is asked about at a wait that goes on by itself, as that moves by the clock', () => {
    const waiting = taken(classOf(anEntry('a'), aWait(), anEntry('b')), 35, GAP);
    expect(statusAt(waiting, 40)).toBe('asking');
    expect(sight(taken(waiting, 900, CARRY_ON), 900)).toBe('wait 15');
  });
});

describe('going back to where it stopped', () => {
  const toStop = (seconds: number): Asked => ({ kind: 'goBackToStop', stoppedAtMs: seconds * 1000 });
  const klass = classOf(anEntry('a'), anEntry('b'));
  const away = taken(klass, 45, { kind: 'noteAway', byMs: 25_000 });

  test('takes the time since as stood, to the millisecond', () => {
    const state = taken(away, 50, toStop(20));
    expect([sight(state, 50), state.pausedMs]).toEqual(['work a 10', 30_000]);
    expect(marks(state, 500, LOOK)).toEqual(['finished@90']);
  });

  test('never takes back what was decided since', () => {
    const decided = taken(klass, 26, next(klass, 26));
    expect([refusal(decided, 40, toStop(25.999)), refusal(decided, 40, toStop(26))]).toEqual(['notNow', null]);
    const paused = taken(taken(klass, 20, PAUSE), 30, CARRY_ON);
    expect([refusal(paused, 40, toStop(29)), refusal(paused, 40, toStop(30))]).toEqual(['notNow', null]);
  });

  test('is refused for what has not been yet, and while the class stands', () => {
    expect(refusal(klass, 50, toStop(51))).toBe('notNow');
    expect(refusal(taken(klass, 10, PAUSE), 15, toStop(12))).toBe('notNow');
  });
});
