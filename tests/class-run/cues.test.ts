import { describe, expect, test } from 'vitest';
import type { ClassState } from '../../src/class-run/class-state.ts';
import { cuesBetween } from '../../src/class-run/cues.ts';
import { readyState } from '../../src/class-run/replay.ts';
import { step } from '../../src/class-run/step.ts';
import type { Entry, Plan } from '../../src/plan/plan.ts';
import { compile } from '../../src/running-order/compile.ts';
import { aBlock, anEntry, aPlan, aTalk, aWait, SMALL_LIBRARY } from '../builders/small-plan.ts';

const SEEN = { monoMs: 0, wallMs: 0, life: 1 };

function started(plan: Plan): ClassState {
  return step(readyState(compile(plan, SMALL_LIBRARY)), { kind: 'start', atMs: 0, seen: SEEN }).state;
}

const classOf = (...entries: Entry[]): ClassState => started(aPlan([aBlock(entries)]));

/** Cues as `kind@second` of the run clock, names as `name@second:move`. */
function heard(state: ClassState, fromMs = -1, toMs = state.endMs): string[] {
  return cuesBetween(state, SMALL_LIBRARY, fromMs, toMs).map((cue) => {
    const said = cue.says === null ? '' : `:${state.live[cue.says.spanIndex]?.doing[0]?.moveId}`;
    return `${cue.kind}@${cue.dueRunMs / 1000}${said}`;
  });
}

const sounds = (state: ClassState): string[] => heard(state).filter((cue) => !cue.startsWith('name'));

describe('the count', () => {
  test('three ticks lead into each start, and into the end, on whole seconds before it', () => {
    expect(sounds(classOf(anEntry('a')))).toEqual([
      ...['tick@7', 'tick@8', 'tick@9', 'start@10'],
      ...['tick@37', 'tick@38', 'tick@39', 'finish@40'],
    ]);
  });

  test('straight in: the next start is the only sound at the change', () => {
    const cues = sounds(classOf(anEntry('a'), anEntry('b')));
    expect(cues).toContain('start@40');
    expect(cues.filter((cue) => cue.endsWith('@40'))).toEqual(['start@40']);
  });

  test('a changeover is heard to begin, counted and started', () => {
    const cues = sounds(classOf(anEntry('a'), anEntry('b', { changeoverSeconds: 5 })));
    expect(cues).toEqual(expect.arrayContaining(['tick@39', 'change@40', 'tick@42', 'tick@43', 'tick@44', 'start@45']));
  });

  test('a soft block has no ticks, and its sounds are soft', () => {
    const state = started(aPlan([aBlock([anEntry('a'), anEntry('b')], { cueStyle: 'soft' })]));
    expect(sounds(state)).toEqual(['start@10', 'start@40', 'finish@70']);
    expect(cuesBetween(state, SMALL_LIBRARY, -1, 70_000).every((cue) => cue.style === 'soft')).toBe(true);
  });

  test('a silent block makes no sound and says no name', () => {
    expect(heard(started(aPlan([aBlock([anEntry('a')], { cueStyle: 'silent' })])))).toEqual([]);
  });
});

describe('sides', () => {
  test('the other side sounds at the swap, whose own count begins with it', () => {
    const cues = sounds(classOf(anEntry('sided')));
    expect(cues).toEqual([
      ...['tick@7', 'tick@8', 'tick@9', 'start@10', 'tick@37', 'tick@38', 'tick@39'],
      ...['otherSide@40', 'tick@41', 'tick@42', 'start@43', 'tick@70', 'tick@71', 'tick@72', 'finish@73'],
    ]);
  });

  test('swapped straight over, the other side is said in place of the start', () => {
    const cues = sounds(classOf(anEntry('sided', { swapSeconds: 0 })));
    expect(cues.filter((cue) => cue.endsWith('@40'))).toEqual(['otherSide@40']);
  });

  test('no halfway with sides in turn, however long', () => {
    const cues = sounds(classOf(anEntry('sided', { dose: { kind: 'seconds', seconds: 60 } })));
    expect(cues.some((cue) => cue.startsWith('halfway'))).toBe(false);
  });
});

describe('halfway', () => {
  test('is heard from 45 s on, not below', () => {
    const halfways = (seconds: number) =>
      sounds(classOf(anEntry('a', { dose: { kind: 'seconds', seconds } }))).filter((cue) => cue.startsWith('halfway'));
    expect(halfways(44)).toEqual([]);
    expect(halfways(45)).toEqual(['halfway@32.5']);
  });

  test('stays the middle of the whole move across a pause', () => {
    const state = classOf(anEntry('a', { dose: { kind: 'seconds', seconds: 60 } }));
    const paused = step(state, { kind: 'pause', cause: 'asked', atMs: 20_000, seen: SEEN }).state;
    const on = step(paused, { kind: 'carryOn', countInMs: 5000, atMs: 90_000, seen: SEEN }).state;
    // 10 s ran before the pause; the count-in takes 20-25 s; half of 60 s is 20 s further.
    expect(heard(on, 20_000)).toContain('halfway@45');
  });
});

describe('changes that need getting ready for', () => {
  test('down and up sound where work ends into a changeover', () => {
    const cues = sounds(
      classOf(anEntry('a'), anEntry('low', { changeoverSeconds: 5 }), anEntry('b', { changeoverSeconds: 5 })),
    );
    expect(cues).toContain('down@40');
    expect(cues).toContain('up@75');
  });

  test('straight in, down sounds 8 s before instead, and the start keeps its instant', () => {
    const cues = sounds(classOf(anEntry('a'), anEntry('low')));
    expect(cues).toContain('down@32');
    expect(cues.filter((cue) => cue.endsWith('@40'))).toEqual(['start@40']);
  });

  test.each([
    ['a jump', anEntry('jump')],
    ['kit that is not in use', anEntry('band')],
    ['a wait point', aWait()],
  ])('%s is announced 15 s before', (_what, next) => {
    const cues = sounds(classOf(anEntry('a'), next, anEntry('b')));
    expect(cues).toContain('headsUp@25');
  });

  test('kit that is in use already needs no heads-up', () => {
    const cues = sounds(classOf(anEntry('band'), anEntry('band', { id: 'again' })));
    expect(cues.some((cue) => cue.startsWith('headsUp'))).toBe(false);
  });
});

describe('names', () => {
  test('are said 8 s before the start, in the lead-in where it is that long, else in the work before', () => {
    const names = (changeoverSeconds: number) =>
      heard(classOf(anEntry('a'), anEntry('b', { changeoverSeconds }))).filter((cue) => cue.startsWith('name'));
    expect(names(0)).toEqual(['name@2:a', 'name@32:b']);
    expect(names(5)).toEqual(['name@2:a', 'name@32:b']);
    expect(names(8)).toEqual(['name@2:a', 'name@40:b']);
    expect(names(15)).toEqual(['name@2:a', 'name@47:b']);
  });

  test('the other side is named 5 s before and done before the count', () => {
    const state = classOf(anEntry('sided'));
    const cue = cuesBetween(state, SMALL_LIBRARY, 12_000, 60_000).find((one) => one.kind === 'name');
    expect(cue?.dueRunMs).toBe(35_000);
    expect(cue?.says?.doneByRunMs).toBe(37_000);
  });

  test('after a talk the coming move is named once, in time', () => {
    const cues = heard(classOf(anEntry('a'), aTalk(), anEntry('b', { changeoverSeconds: 5 })));
    expect(cues.filter((cue) => cue.endsWith(':b'))).toEqual(['name@57:b']);
  });

  test('behind a gate the name is said before it, as nobody knows when it opens', () => {
    const cues = heard(classOf(anEntry('a'), aWait({ goesOn: 'whenAsked' }), anEntry('b')));
    expect(cues.filter((cue) => cue.endsWith(':b'))).toEqual(['name@32:b']);
  });

  test('a name due with a sound comes just after it', () => {
    const cues = heard(classOf(anEntry('a'), anEntry('low')));
    expect(cues).toEqual(expect.arrayContaining(['down@32', 'name@32.7:low']));
  });
});

describe('wait points', () => {
  test('nothing is cued beyond a gate', () => {
    const cues = sounds(classOf(anEntry('a'), aWait({ goesOn: 'whenAsked' }), anEntry('b')));
    expect(cues.at(-1)).toBe('change@40');
  });

  test('one that goes on by itself counts into the work', () => {
    const cues = sounds(classOf(anEntry('a'), aWait(), anEntry('b')));
    expect(cues).toEqual(expect.arrayContaining(['change@40', 'tick@57', 'tick@58', 'tick@59', 'start@60']));
  });
});

describe('a pause in the middle of a move', () => {
  test('is counted in again; the count of the cut piece is not heard twice', () => {
    const state = classOf(anEntry('a'));
    const paused = step(state, { kind: 'pause', cause: 'asked', atMs: 20_000, seen: SEEN }).state;
    const on = step(paused, { kind: 'carryOn', countInMs: 5000, atMs: 60_000, seen: SEEN }).state;
    expect(heard(on, 20_000).filter((cue) => !cue.startsWith('name'))).toEqual([
      ...['tick@22', 'tick@23', 'tick@24', 'start@25'],
      ...['tick@42', 'tick@43', 'tick@44', 'finish@45'],
    ]);
  });
});

test('windows that join give what one window gives, wherever they are cut', () => {
  const state = classOf(
    anEntry('a'),
    anEntry('low'),
    aTalk(),
    anEntry('sided', { changeoverSeconds: 5 }),
    aWait(),
    anEntry('jump'),
  );
  const whole = heard(state);
  for (const cutMs of [999, 1000, 9700, 10_000, 31_999, 32_000, 40_000, 40_300, 61_234]) {
    expect([...heard(state, -1, cutMs), ...heard(state, cutMs)]).toEqual(whole);
  }
});

test('sounds of one class are never closer than the least gap', () => {
  const state = started(
    aPlan([
      aBlock(
        [anEntry('a', { dose: { kind: 'seconds', seconds: 5 } }), anEntry('low'), anEntry('sided', { swapSeconds: 1 })],
        { rounds: 3 },
      ),
    ]),
  );
  const dues = cuesBetween(state, SMALL_LIBRARY, -1, state.endMs)
    .filter((cue) => cue.kind !== 'name')
    .map((cue) => cue.dueRunMs);
  const gaps = dues.slice(1).map((due, index) => due - (dues[index] ?? 0));
  expect(Math.min(...gaps)).toBeGreaterThanOrEqual(300);
});
