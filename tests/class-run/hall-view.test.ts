import { describe, expect, test } from 'vitest';
import type { ClassState } from '../../src/class-run/class-state.ts';
import { digitsOf, type HallView, hallViewOf } from '../../src/class-run/hall-view.ts';
import type { Asked } from '../../src/class-run/marks.ts';
import { readyState } from '../../src/class-run/replay.ts';
import { step } from '../../src/class-run/step.ts';
import type { Entry, Plan } from '../../src/plan/plan.ts';
import { compile } from '../../src/running-order/compile.ts';
import { aBlock, anEntry, aPlan, aTalk, aWait, SMALL_LIBRARY } from '../builders/small-plan.ts';

const SEEN = { monoMs: 0, wallMs: 0, life: 1 };

type Shown = { readonly at: (atMs: number) => HallView; readonly after: (asked: Asked, atMs: number) => Shown };

function shown(plan: Plan, state: ClassState): Shown {
  return {
    at: (atMs) => hallViewOf(state, { plan, library: SMALL_LIBRARY }, atMs),
    after: (asked, atMs) => shown(plan, step(state, { ...asked, atMs, seen: SEEN }).state),
  };
}

function ready(plan: Plan): Shown {
  return shown(plan, readyState(compile(plan, SMALL_LIBRARY)));
}

const running = (plan: Plan): Shown => ready(plan).after({ kind: 'start' }, 0);
const of = (...entries: Entry[]): Shown => running(aPlan([aBlock(entries)]));

describe('digits', () => {
  test.each([
    [null, ''],
    [0, '0'],
    [9, '9'],
    [59, '59'],
    [60, '1:00'],
    [90, '1:30'],
    [605, '10:05'],
  ])('%s seconds read %s', (seconds, digits) => {
    expect(digitsOf(seconds)).toBe(digits);
  });

  test('round up: the last second shows 1 until it is over', () => {
    const hall = of(anEntry('a'));
    expect(hall.at(10_000).digits).toBe('30');
    expect(hall.at(10_001).digits).toBe('30');
    expect(hall.at(11_000).digits).toBe('29');
    expect(hall.at(39_999).digits).toBe('1');
  });

  test('say when they change next', () => {
    const hall = of(anEntry('a'));
    expect(hall.at(10_000).changesAtMs).toBe(11_000);
    expect(hall.at(10_400).changesAtMs).toBe(11_000);
  });
});

describe('before the start', () => {
  test('is ready, with no move and the planned finish', () => {
    const view = ready(aPlan([aBlock([anEntry('a')])])).at(0);
    expect(view).toMatchObject({ status: 'ready', kind: null, leftSeconds: null, finishAtMs: 40_000, lateMs: 0 });
  });
});

describe('the scene', () => {
  test('the count-in shows the coming move, dark', () => {
    expect(of(anEntry('a')).at(4000)).toMatchObject({
      kind: 'countIn',
      moveIds: ['a'],
      field: 'dark',
      leftSeconds: 6,
      main: { moveId: 'a', hallName: 'a' },
      lower: { hallName: 'easy' },
      next: null,
    });
  });

  test('work is light until its last three seconds', () => {
    const hall = of(anEntry('a'), anEntry('b'));
    expect(hall.at(36_999).field).toBe('light');
    expect(hall.at(37_000).field).toBe('dark');
    expect(hall.at(40_000).field).toBe('light');
  });

  test('work of under nine seconds stays light', () => {
    const hall = of(anEntry('a', { dose: { kind: 'seconds', seconds: 8 } }), anEntry('b'));
    expect(hall.at(17_500).field).toBe('light');
  });

  test('soft blocks never go dark', () => {
    const hall = running(aPlan([aBlock([anEntry('a'), anEntry('b', { changeoverSeconds: 5 })], { cueStyle: 'soft' })]));
    expect([5000, 38_000, 42_000].map((atMs) => hall.at(atMs).field)).toEqual(['light', 'light', 'light']);
  });

  test('the next move is shown from nine seconds on, with how to get there', () => {
    const hall = of(anEntry('a'), anEntry('low', { changeoverSeconds: 5 }), anEntry('band', { changeoverSeconds: 0 }));
    expect(hall.at(30_999).next).toBeNull();
    expect(hall.at(31_000).next).toMatchObject({ figure: { moveId: 'low' }, turn: 'down', straightIn: false });
    expect(hall.at(70_000).next).toMatchObject({
      figure: { moveId: 'band', kit: [{ kit: 'band', count: 1 }] },
      turn: 'up',
      straightIn: true,
    });
  });

  test('staying in position is said too', () => {
    expect(of(anEntry('a'), anEntry('b')).at(35_000).next).toMatchObject({ turn: 'stay', straightIn: true });
  });

  test('sides in turn: first, the way over, second', () => {
    const hall = of(anEntry('sided'));
    expect(hall.at(20_000)).toMatchObject({ side: 'left', main: { half: 'first' } });
    expect(hall.at(41_000)).toMatchObject({
      kind: 'sideChange',
      side: 'right',
      main: { half: 'second' },
      field: 'dark',
    });
    expect(hall.at(50_000)).toMatchObject({ kind: 'work', side: 'right', main: { half: 'second' } });
  });

  test('alternating has one half', () => {
    expect(of(anEntry('swapping')).at(20_000)).toMatchObject({ side: 'alternating', main: { half: null } });
  });

  test('a talk shows its words and what comes', () => {
    const view = of(anEntry('a'), aTalk(), anEntry('b')).at(45_000);
    expect(view).toMatchObject({
      kind: 'talk',
      words: { kind: 'talk', text: 'today' },
      moveIds: [],
      next: { figure: { moveId: 'b' } },
    });
  });
});

describe('wait points', () => {
  test('a gate has no digits and no end', () => {
    const view = of(anEntry('a'), aWait({ goesOn: 'whenAsked' }), anEntry('b')).at(45_000);
    expect(view).toMatchObject({ status: 'waiting', gate: true, digits: '', leftSeconds: null, main: { moveId: 'b' } });
    expect(view.floor.runs).toBe(false);
  });

  test('one that goes on by itself counts down in hollow digits', () => {
    const view = of(anEntry('a'), aWait(), anEntry('b')).at(45_000);
    expect(view).toMatchObject({ status: 'waiting', gate: false, digits: '15', hollow: true });
  });
});

describe('standing', () => {
  test('a pause keeps the seconds left, hollow and light, and runs late by the second', () => {
    const hall = of(anEntry('a')).after({ kind: 'pause', cause: 'asked' }, 38_000);
    expect(hall.at(38_000)).toMatchObject({ status: 'paused', digits: '2', hollow: true, field: 'light', lateMs: 0 });
    expect(hall.at(98_000)).toMatchObject({ digits: '2', lateMs: 60_000, finishAtMs: 100_000 });
    expect(hall.at(98_000).floor).toMatchObject({ runs: false, leftMs: 2000 });
  });

  test("someone's hurt is told apart from a pause", () => {
    const hall = of(anEntry('a'));
    expect(hall.after({ kind: 'pause', cause: 'hurt' }, 20_000).at(20_000).standing?.cause).toBe('hurt');
    expect(hall.after({ kind: 'pause', cause: 'asked' }, 20_000).at(20_000).standing?.cause).toBe('asked');
  });
});

describe('lower for all', () => {
  test('makes the lower option the main figure, and the ramp shows the one below or nobody', () => {
    const view = of(anEntry('a')).after({ kind: 'show', entryId: 'a', level: 1 }, 20_000).at(20_000);
    expect(view).toMatchObject({ level: 1, main: { hallName: 'easy', figure: 'halfSquat' }, lower: null });
  });
});

describe('the one line', () => {
  test('set-up first, then the lower option, then form points', () => {
    const hall = of(anEntry('a'));
    expect(hall.at(12_000).line).toBe('a set-up');
    expect(hall.at(17_000).line).toBe('Easy a: smaller');
    expect([hall.at(22_000).line, hall.at(35_000).line]).toEqual(['a point two', 'a point one']);
  });

  test('some may do something else on the same clock', () => {
    const entry = anEntry('a', { forSome: { who: 'new people', doing: 'march', dose: null } });
    expect(of(entry).at(20_000).forSome).toBe('new people: march');
  });
});

describe('milestones', () => {
  const moves = ['a', 'b', 'c', 'a', 'b', 'c', 'a', 'b', 'c', 'a'].map((moveId, index) =>
    anEntry(moveId, { id: `e${index}` }),
  );
  const hall = of(...moves);

  test.each([
    [1, null],
    [5, 'halfDone'],
    [6, 'threeToGo'],
    [7, null],
    [9, 'lastOne'],
  ])('at move %s of ten: %s', (index, milestone) => {
    expect(hall.at(10_000 + index * 30_000 + 1000).milestone).toBe(milestone);
  });

  test('three to go comes when three follow', () => {
    const five = of(...moves.slice(0, 5));
    expect(five.at(10_000 + 30_000 + 1000).milestone).toBe('threeToGo');
  });
});

test('the end is derived: a class nobody looked at is finished on time', () => {
  const view = of(anEntry('a')).at(3_600_000);
  expect(view).toMatchObject({ status: 'finished', finishAtMs: 40_000, lateMs: 0, changesAtMs: null });
});
