import { describe, expect, test } from 'vitest';
import { libraryOf } from '../../src/moves/library.ts';
import type { Entry, Plan } from '../../src/plan/plan.ts';
import { canRun, compile } from '../../src/running-order/compile.ts';
import { totalsOf } from '../../src/running-order/totals.ts';
import { aBlock, anEntry, aPlan, aTalk, aWait, SMALL_LIBRARY } from '../builders/small-plan.ts';

const seconds = (plan: Plan): string[] =>
  compile(plan, SMALL_LIBRARY).spans.map((span) => `${span.kind} ${span.lengthMs / 1000}`);

const of = (...entries: Entry[]): string[] => seconds(aPlan([aBlock(entries)]));

describe('lead-ins', () => {
  test('the first changeover lies inside the count-in, which is at least that long', () => {
    expect(of(anEntry('a', { changeoverSeconds: 8 }))).toEqual(['countIn 10', 'work 30']);
    expect(of(anEntry('a', { changeoverSeconds: 15 }))).toEqual(['countIn 15', 'work 30']);
  });

  test('without a count-in the class starts with work', () => {
    expect(seconds(aPlan([aBlock([anEntry('a')])], { countInSeconds: 0 }))).toEqual(['work 30']);
  });

  test('straight in makes no span', () => {
    expect(of(anEntry('a'), anEntry('b'))).toEqual(['countIn 10', 'work 30', 'work 30']);
  });

  test('a breather takes the first changeover of the next round in, and is at least that long', () => {
    const entries = [anEntry('a', { changeoverSeconds: 8 })];
    const rounds = (breatherSeconds: number) =>
      seconds(aPlan([aBlock(entries, { rounds: 2, breatherSeconds })])).slice(2);
    expect(rounds(45)).toEqual(['breather 45', 'work 30']);
    expect(rounds(5)).toEqual(['breather 8', 'work 30']);
    expect(rounds(0)).toEqual(['changeover 8', 'work 30']);
  });

  test('a later block begins after its lead-in', () => {
    const plan = aPlan([
      aBlock([anEntry('a')]),
      aBlock([anEntry('b', { id: 'b2' })], { id: 'two', leadInSeconds: 20 }),
    ]);
    expect(seconds(plan)).toEqual(['countIn 10', 'work 30', 'breather 20', 'work 30']);
  });

  test('belong to what they lead into', () => {
    const plan = aPlan([aBlock([anEntry('a'), anEntry('sided', { changeoverSeconds: 5 })])]);
    const changeover = compile(plan, SMALL_LIBRARY).spans[2];
    expect(changeover).toMatchObject({
      kind: 'changeover',
      entryId: 'sided',
      doing: [{ moveId: 'sided', side: 'left' }],
    });
  });
});

describe('sides', () => {
  test('in turn: full time each, the swap between, the halves naming each other', () => {
    const { spans } = compile(aPlan([aBlock([anEntry('sided')])]), SMALL_LIBRARY);
    expect(spans.map((span) => [span.kind, span.doing[0]?.side, span.pair])).toEqual([
      ['countIn', 'left', null],
      ['work', 'left', 3],
      ['sideChange', 'right', null],
      ['work', 'right', 1],
    ]);
  });

  test('without a swap the halves join', () => {
    const { spans } = compile(aPlan([aBlock([anEntry('sided', { swapSeconds: 0 })])]), SMALL_LIBRARY);
    expect(spans.map((span) => span.pair)).toEqual([null, 2, 1]);
  });

  test('reverse goes forward and back; alternating and both are one span', () => {
    const sidesOf = (moveId: string) =>
      compile(aPlan([aBlock([anEntry(moveId)])]), SMALL_LIBRARY)
        .spans.filter((span) => span.kind === 'work')
        .map((span) => span.doing[0]?.side);
    expect(sidesOf('turned')).toEqual(['forward', 'reverse']);
    expect(sidesOf('swapping')).toEqual(['alternating']);
    expect(sidesOf('a')).toEqual(['both']);
  });

  test('the entry may say otherwise than the move', () => {
    expect(of(anEntry('sided', { sides: 'both' }))).toEqual(['countIn 10', 'work 30']);
    expect(of(anEntry('a', { sides: 'inTurn' }))).toEqual(['countIn 10', 'work 30', 'sideChange 3', 'work 30']);
  });
});

describe('doses', () => {
  test('a count takes its tempo', () => {
    expect(of(anEntry('a', { dose: { kind: 'count', count: 12, secondsEach: 2.5 } }))).toEqual([
      'countIn 10',
      'work 30',
    ]);
  });

  test('differ by round, and a round may leave an entry out with its changeover', () => {
    const some = anEntry('b', {
      changeoverSeconds: 5,
      byRound: [
        { round: 2, dose: { kind: 'seconds', seconds: 20 } },
        { round: 3, dose: null },
      ],
    });
    expect(seconds(aPlan([aBlock([anEntry('a'), some], { rounds: 3 })]))).toEqual([
      ...['countIn 10', 'work 30', 'changeover 5', 'work 30'],
      ...['work 30', 'changeover 5', 'work 20'],
      'work 30',
    ]);
  });

  test('a round that is left out whole brings no breather', () => {
    const only = anEntry('a', { byRound: [{ round: 2, dose: null }] });
    expect(seconds(aPlan([aBlock([only], { rounds: 3, breatherSeconds: 45 })]))).toEqual([
      ...['countIn 10', 'work 30', 'breather 45', 'work 30'],
    ]);
  });
});

describe('what is not a move', () => {
  test('talk and water take their time; nobody does a move in them', () => {
    const { spans } = compile(aPlan([aBlock([anEntry('a'), aTalk()])]), SMALL_LIBRARY);
    expect(spans[2]).toMatchObject({ kind: 'talk', lengthMs: 20_000, entryId: 'talk', doing: [] });
  });

  test('a wait point is open only when the instructor ends it', () => {
    const openOf = (goesOn: 'byItself' | 'whenAsked') =>
      compile(aPlan([aBlock([anEntry('a'), aWait({ goesOn })])]), SMALL_LIBRARY).spans[2]?.open;
    expect(openOf('byItself')).toBe(false);
    expect(openOf('whenAsked')).toBe(true);
  });

  test('a closing rest stands after the last round only', () => {
    const plan = aPlan([aBlock([anEntry('a')], { rounds: 2, closingRestSeconds: 10 })]);
    expect(seconds(plan)).toEqual(['countIn 10', 'work 30', 'work 30', 'rest 10']);
  });
});

test('totals run from the first work to the end, whatever the count-in', () => {
  const plan = (countInSeconds: number) =>
    aPlan([aBlock([anEntry('a'), anEntry('b', { changeoverSeconds: 5 })], { closingRestSeconds: 10 })], {
      countInSeconds,
    });
  for (const countIn of [0, 7, 60]) {
    const totals = totalsOf(compile(plan(countIn), SMALL_LIBRARY));
    expect(totals).toEqual({ totalMs: 75_000, workMs: 60_000, beforeWorkMs: countIn * 1000 });
  }
});

test('a plan without work has no total', () => {
  const order = compile(aPlan([aBlock([aTalk()])]), SMALL_LIBRARY);
  expect(totalsOf(order)).toEqual({ totalMs: 0, workMs: 0, beforeWorkMs: 0 });
});

test('ids are dense and lengths whole and above zero', () => {
  const { spans, plannedMs } = compile(
    aPlan([
      aBlock([anEntry('a'), anEntry('sided'), aWait(), anEntry('low', { changeoverSeconds: 5 })], {
        rounds: 3,
        breatherSeconds: 45,
      }),
    ]),
    SMALL_LIBRARY,
  );
  expect(spans.map((span) => span.id)).toEqual(spans.map((_span, index) => index));
  expect(spans.every((span) => Number.isInteger(span.lengthMs) && span.lengthMs > 0)).toBe(true);
  expect(plannedMs).toBe(spans.reduce((sum, span) => sum + span.lengthMs, 0));
});

test('a move that is not in the library is a mistake of the caller', () => {
  expect(() => compile(aPlan([aBlock([anEntry('a')])]), libraryOf([]))).toThrow(/a is not in the library/);
});

test('other formats are kept but not run yet', () => {
  expect(canRun(aPlan([aBlock([anEntry('a')])]))).toBe(true);
  expect(canRun(aPlan([aBlock([anEntry('a')], { format: { kind: 'stations' } })]))).toBe(false);
});
