import { describe, expect, test } from 'vitest';
import { type LiveSetup, liveClass, type ResumableClass } from '../../../app/live/live-class.ts';
import type { Keeper } from '../../../app/live/live-contract.ts';
import type { Mark } from '../../../src/class-run/marks.ts';
import { readyState, replay } from '../../../src/class-run/replay.ts';
import type { Entry } from '../../../src/plan/plan.ts';
import { compile } from '../../../src/running-order/compile.ts';
import { type SmallPhone, smallPhone } from '../../builders/small-phone.ts';
import { aBlock, anEntry, aPlan, aWait, SMALL_LIBRARY } from '../../builders/small-plan.ts';

type Kept = { readonly marks: Mark[]; readonly beats: { atMs: number; wallMs: number }[]; readonly ended: string[] };

function memoryKeeper(): Keeper & { readonly kept: Kept } {
  const kept: Kept = { marks: [], beats: [], ended: [] };
  return {
    kept,
    life: () => 1,
    begin: () => undefined,
    add: (marks) => kept.marks.push(...marks),
    beat: (atMs, wallMs) => kept.beats.push({ atMs, wallMs }),
    end: (outcome) => kept.ended.push(outcome),
    fact: () => 'keeping',
    keptSeq: () => kept.marks.length - 1,
    hasten: () => undefined,
    listen: () => () => undefined,
  };
}

type Class = { readonly live: ResumableClass; readonly phone: SmallPhone; readonly kept: Kept };

function aClass(entries: readonly Entry[], change: Partial<LiveSetup> = {}, phone = smallPhone()): Class {
  const plan = aPlan([aBlock(entries)]);
  const keeper = memoryKeeper();
  const live = liveClass(phone.ports, {
    papers: { plan, library: SMALL_LIBRARY },
    state: readyState(compile(plan, SMALL_LIBRARY)),
    keeper,
    rate: 1,
    isRehearsal: false,
    nameLine: (figure) => (figure.half === 'second' ? 'other side' : figure.name),
    onStart: () => undefined,
    ...change,
  });
  return { live, phone, kept: keeper.kept };
}

/** Starts it, and lets `ms` pass. */
function running(entries: readonly Entry[], ms = 0): Class {
  const one = aClass(entries);
  one.live.ask('start');
  one.phone.time.advance(ms);
  return one;
}

const shown = ({ live }: Class) => `${live.view.value.status} ${live.view.value.kind} ${live.view.value.digits}`;
const heard = ({ phone }: Class, sinceMs: number) =>
  phone.cueLine.heard().map((cue) => `${cue.kind}@${(cue.atMonoMs - sinceMs) / 1000}`);

describe('a class that nobody touches', () => {
  test('runs through on time, is heard on time and ends by itself', () => {
    const one = aClass([anEntry('a'), anEntry('b', { changeoverSeconds: 5 })]);
    const startMs = one.phone.time.clocks.monoMs();
    one.live.ask('start');
    expect(shown(one)).toBe('running countIn 10');
    one.phone.time.advance(10_000);
    expect(shown(one)).toBe('running work 30');
    one.phone.time.advance(65_000);
    expect(one.live.view.value).toMatchObject({ status: 'finished', lateMs: 0 });
    expect(one.live.isLive.value).toBe(false);
    expect(heard(one, startMs)).toEqual([
      ...['tick@7', 'tick@8', 'tick@9', 'start@10', 'tick@37', 'tick@38', 'tick@39', 'change@40'],
      ...['tick@42', 'tick@43', 'tick@44', 'start@45', 'tick@72', 'tick@73', 'tick@74', 'finish@75'],
    ]);
    expect(one.kept.marks.map((mark) => `${mark.kind}@${mark.atMs}`)).toEqual(['started@0', 'finished@75000']);
    expect(one.kept.ended).toEqual(['finished']);
  });

  test('redraws when a digit changes, at the very instant', () => {
    const one = running([anEntry('a')], 10_000);
    const seen: string[] = [];
    one.live.view.subscribe((view) => {
      seen.push(`${view.digits}@${one.phone.time.clocks.monoMs() - 1000}`);
    });
    one.phone.time.advance(3500);
    expect(seen).toEqual(['30@10000', '29@11000', '28@12000', '27@13000']);
  });

  test('speaks the names 8 s before, each once', () => {
    const one = running([anEntry('a'), anEntry('b'), anEntry('sided')], 130_000);
    const lines = one.phone.voice.said().map(({ line, atMonoMs }) => `${line}@${Math.floor((atMonoMs - 1000) / 1000)}`);
    expect(lines).toEqual(['The a@2', 'The b@32', 'The sided@62', 'other side@95']);
  });

  test('keeps the screen on and takes the headset keys from Start to the end', () => {
    const one = aClass([anEntry('a')]);
    expect([one.phone.wakeLock.isWanted(), one.phone.remote.title()]).toEqual([false, null]);
    one.live.ask('start');
    expect([one.phone.wakeLock.isWanted(), one.phone.remote.title()]).toEqual([true, 'Small class']);
    one.phone.time.advance(41_000);
    expect([one.phone.wakeLock.isWanted(), one.phone.remote.title()]).toEqual([false, null]);
  });

  test('leaves a beat every two seconds', () => {
    const one = running([anEntry('a')], 10_000);
    expect(one.kept.beats.length).toBeGreaterThanOrEqual(4);
    expect(
      one.kept.beats.every(
        ({ atMs, wallMs }) => wallMs - atMs === (one.kept.beats[0]?.wallMs ?? 0) - (one.kept.beats[0]?.atMs ?? 0),
      ),
    ).toBe(true);
  });
});

describe('buttons', () => {
  test('pause keeps the seconds left; carry on counts in and goes on', () => {
    const one = running([anEntry('a')], 20_000);
    one.live.ask('pause');
    one.phone.time.advance(60_000);
    expect(shown(one)).toBe('paused work 20');
    one.live.ask('carryOn');
    expect(shown(one)).toBe('running countIn 5');
    one.phone.time.advance(5000);
    expect(shown(one)).toBe('running work 20');
    expect(one.live.view.value.lateMs).toBe(65_000);
  });

  test('a pause is silent from its instant on', () => {
    const one = running([anEntry('a'), anEntry('b')], 20_000);
    const before = one.phone.cueLine.heard().length;
    one.live.ask('pause');
    one.phone.time.advance(120_000);
    expect(one.phone.cueLine.heard()).toHaveLength(before);
  });

  test('kit or floor work counts in for ten seconds', () => {
    const one = running([anEntry('low')], 20_000);
    one.live.ask('pause');
    one.live.ask('carryOn');
    expect(shown(one)).toBe('running countIn 10');
  });

  test('next, back, ten more, lower, drop and finish do what they say', () => {
    const one = running([anEntry('a'), anEntry('b'), anEntry('c')], 20_000);
    one.live.ask('tenMore');
    expect(one.live.view.value.digits).toBe('30');
    one.live.ask('nextMove');
    expect(one.live.view.value.moveIds).toEqual(['b']);
    one.live.ask('goBackOne');
    expect(shown(one)).toBe('running countIn 5');
    expect(one.live.view.value.moveIds).toEqual(['a']);
    one.live.ask('lowerForAll');
    expect(one.live.view.value.level).toBe(1);
    one.live.ask('lowerForAll');
    expect(one.live.view.value.level).toBe(0);
    one.live.ask('dropMove');
    expect(one.live.view.value.moveIds).toEqual(['b']);
    one.live.ask('finish');
    expect(one.live.view.value.status).toBe('finished');
    expect(one.kept.ended).toEqual(['finished']);
  });

  test('what cannot be done is refused with its reason and changes nothing', () => {
    const one = running([anEntry('a')], 38_000);
    one.live.ask('tenMore');
    expect(one.live.refused.value).toBe('begun');
    one.live.ask('carryOn');
    expect(one.live.refused.value).toBe('notNow');
    one.live.ask('pause');
    expect(one.live.refused.value).toBeNull();
  });

  test("someone's hurt: silent at once, standing, and told apart", () => {
    const one = running([anEntry('a')], 9000);
    one.phone.time.advance(1100);
    one.live.ask('hurt');
    expect(one.live.view.value).toMatchObject({ status: 'paused', standing: { cause: 'hurt' } });
    expect(one.phone.cueLine.heard().at(-1)).toMatchObject({ kind: 'start', isCut: true });
    one.live.ask('carryOn');
    expect(one.live.view.value).toMatchObject({ status: 'running', standing: null });
  });

  test("while someone's hurt a headset key does nothing", () => {
    const one = running([anEntry('a')], 20_000);
    one.live.ask('hurt');
    one.phone.remote.key('press');
    one.phone.remote.key('next');
    one.phone.time.advance(1000);
    expect(one.live.view.value).toMatchObject({ status: 'paused', standing: { cause: 'hurt' }, moveIds: ['a'] });
  });

  test('a wait point goes on when asked', () => {
    const one = running([anEntry('a'), aWait({ goesOn: 'whenAsked' }), anEntry('b')], 45_000);
    expect(shown(one)).toBe('waiting wait ');
    one.phone.time.advance(100_000);
    expect(one.live.view.value.status).toBe('waiting');
    one.live.ask('carryOn');
    expect(shown(one)).toBe('running countIn 5');
  });

  test('two quick taps on next go on by one move: the second was meant for what the first one saw', () => {
    const one = running([anEntry('a'), anEntry('b'), anEntry('c')], 20_000);
    one.live.ask('nextMove');
    one.phone.time.advance(200);
    one.live.ask('nextMove');
    expect(one.live.refused.value).toBe('movedOn');
    expect(one.live.view.value.moveIds).toEqual(['b']);
    one.phone.time.advance(1000);
    one.live.ask('nextMove');
    expect(one.live.view.value.moveIds).toEqual(['c']);
  });

  test('a press that comes just after a change was meant for the move before, and is not spent on the next', () => {
    const one = running([anEntry('a'), anEntry('b'), anEntry('c')], 40_050);
    expect(one.live.view.value.moveIds).toEqual(['b']);
    one.live.ask('nextMove');
    expect(one.live.refused.value).toBe('movedOn');
    expect(one.live.view.value.moveIds).toEqual(['b']);
  });
});

describe('a clicker', () => {
  test('starts the class', () => {
    const one = aClass([anEntry('a')]);
    one.live.ask('press');
    one.phone.time.advance(400);
    expect(one.live.view.value.status).toBe('running');
  });

  test('one press pauses, dated when it was pressed; one more carries on', () => {
    const one = running([anEntry('a')], 20_000);
    one.live.ask('press');
    expect(one.live.view.value.status).toBe('running');
    one.phone.time.advance(350);
    expect(one.live.view.value.status).toBe('paused');
    expect(one.kept.marks.at(-1)).toMatchObject({ kind: 'paused', atMs: 20_000 });
    one.live.ask('press');
    one.phone.time.advance(350);
    expect(one.live.view.value.status).toBe('running');
  });

  test('two presses within 350 ms go to the next move and pause nothing', () => {
    const one = running([anEntry('a'), anEntry('b')], 20_000);
    one.live.ask('press');
    one.phone.time.advance(349);
    one.live.ask('press');
    one.phone.time.advance(1000);
    expect(one.live.view.value).toMatchObject({ status: 'running', moveIds: ['b'] });
    expect(one.kept.marks.some((mark) => mark.kind === 'paused')).toBe(false);
  });

  test('headset keys ask the same; a system that stops sound asks for nothing', () => {
    const one = running([anEntry('a'), anEntry('b')], 20_000);
    one.phone.cueLine.become('interrupted');
    one.phone.time.advance(5000);
    expect(one.live.view.value.status).toBe('running');
    expect(one.live.facts.value.sound).toBe('interrupted');
    one.phone.remote.key('next');
    expect(one.live.view.value.moveIds).toEqual(['b']);
  });
});

describe('a phone that sleeps', () => {
  test('lands in the right second, plays nothing of what it missed, and offers to go back', () => {
    const one = running([anEntry('a'), anEntry('b'), anEntry('c')], 20_000);
    const before = one.phone.cueLine.heard().length;
    one.phone.page.hide();
    one.phone.time.freeze(45_000);
    one.phone.page.show();
    expect(shown(one)).toBe('running work 5');
    expect(one.live.view.value.moveIds).toEqual(['b']);
    expect(one.phone.cueLine.heard()).toHaveLength(before);
    expect(one.live.facts.value.away).toMatchObject({ byMs: 45_000 });
    one.live.ask('goBackToStop');
    expect(one.live.view.value).toMatchObject({ moveIds: ['a'], digits: '20' });
    expect(one.live.facts.value.away).toBeNull();
  });

  test('the offer ends after 20 s, and with the next thing that is asked', () => {
    const one = running([anEntry('a'), anEntry('b'), anEntry('c')], 20_000);
    const sleep = () => {
      one.phone.page.hide();
      one.phone.time.freeze(5000);
      one.phone.page.show();
    };
    sleep();
    one.phone.time.advance(20_100);
    expect(one.live.facts.value.away).toBeNull();
    sleep();
    expect(one.live.facts.value.away).not.toBeNull();
    one.live.ask('nextMove');
    expect(one.live.facts.value.away).toBeNull();
  });

  test('over ten minutes it does not move but asks', () => {
    const one = running([anEntry('a'), anEntry('b')], 20_000);
    one.phone.page.hide();
    one.phone.time.freeze(11 * 60_000);
    one.phone.page.show();
    expect(one.live.view.value).toMatchObject({ status: 'asking', digits: '20' });
    expect(one.live.facts.value.gapMs).toBe(660_000);
    one.live.ask('carryOn');
    expect(shown(one)).toBe('running countIn 5');
    expect(one.live.facts.value.gapMs).toBeNull();
  });

  test('asked, the class may have run on and be over, on time', () => {
    const one = running([anEntry('a'), anEntry('b')], 20_000);
    one.phone.page.hide();
    one.phone.time.freeze(11 * 60_000);
    one.phone.page.show();
    one.live.ask('ranOn');
    expect(one.live.view.value).toMatchObject({ status: 'finished', finishAtMs: 70_000 });
  });

  test('a pause of half an hour asleep is a pause', () => {
    const one = running([anEntry('a')], 20_000);
    one.live.ask('pause');
    one.phone.page.hide();
    one.phone.time.freeze(30 * 60_000);
    one.phone.page.show();
    expect(shown(one)).toBe('paused work 20');
    expect(one.live.view.value.lateMs).toBe(30 * 60_000);
  });
});

describe('clocks that are moved', () => {
  test.each([3_600_000, -3_600_000])('the wall set by %s ms while watched moves nothing', (byMs) => {
    const one = running([anEntry('a')], 20_000);
    one.phone.time.moveWall(byMs);
    one.phone.time.advance(1000);
    expect(shown(one)).toBe('running work 19');
    expect(one.live.facts.value.wallMoved).toBe(true);
    expect(one.kept.marks.at(-1)).toMatchObject({ kind: 'wallMoved', byMs });
  });
});

describe('after a reload', () => {
  const taken = (marks: readonly Mark[], stoppedAtMs: number, gapMs: number) => {
    const plan = aPlan([aBlock([anEntry('a'), anEntry('b')])]);
    const replayed = replay(compile(plan, SMALL_LIBRARY), JSON.parse(JSON.stringify(marks)));
    if (!replayed.ok) throw new Error('the marks of the test do not replay');
    const one = aClass([anEntry('a'), anEntry('b')], { state: replayed.state });
    const verdict = gapMs > 600_000 || gapMs < 0 ? ('ask' as const) : ('runOn' as const);
    one.live.takeUp(stoppedAtMs, { verdict, gapMs });
    return one;
  };

  test('it runs on at the second of the clock, and can go back to where it stopped', () => {
    const before = running([anEntry('a'), anEntry('b')], 20_000);
    const one = taken(before.kept.marks, 20_000, 8000);
    expect(shown(one)).toBe('running work 12');
    one.live.ask('goBackToStop');
    expect(shown(one)).toBe('running work 20');
  });

  test('a pause is still a pause, longer by the gap', () => {
    const before = running([anEntry('a'), anEntry('b')], 20_000);
    before.live.ask('pause');
    const one = taken(before.kept.marks, 20_000, 8000);
    expect(shown(one)).toBe('paused work 20');
    expect(one.live.view.value.lateMs).toBe(8000);
  });

  test('the wall gone back: it asks', () => {
    const before = running([anEntry('a'), anEntry('b')], 20_000);
    expect(taken(before.kept.marks, 20_000, -5000).live.view.value.status).toBe('asking');
  });

  test('past its end it is finished on time', () => {
    const before = running([anEntry('a'), anEntry('b')], 60_000);
    const one = taken(before.kept.marks, 60_000, 300_000);
    expect(one.live.view.value).toMatchObject({ status: 'finished', finishAtMs: 70_000 });
    expect(one.kept.ended).toEqual(['finished']);
  });
});

test('sound that comes back is heard from there on, with nothing of what was missed', () => {
  const one = aClass([anEntry('a'), anEntry('b')]);
  one.phone.cueLine.allowUnlock(false);
  one.live.ask('start');
  one.phone.time.advance(38_500);
  expect(one.phone.cueLine.heard()).toEqual([]);
  one.phone.cueLine.become('ok');
  one.phone.time.advance(2000);
  expect(heard(one, 1000)).toEqual(['tick@39', 'start@40']);
});

test('taken up without a touch it has no sound; any touch brings it', () => {
  const one = aClass([anEntry('a')]);
  one.live.ask('start');
  one.phone.time.advance(12_000);
  one.phone.cueLine.become('needsTap');
  one.phone.time.advance(10_000);
  expect(one.live.facts.value.sound).toBe('needsTap');
  one.live.touch();
  expect(one.live.facts.value.sound).toBe('ok');
});

test('a rehearsal runs faster, in step with its own sounds', () => {
  const one = aClass([anEntry('a')], { rate: 8, isRehearsal: true });
  one.live.ask('start');
  one.phone.time.advance(1250);
  expect(shown(one)).toBe('running work 30');
  one.phone.time.advance(3750);
  expect(one.live.view.value.status).toBe('finished');
  expect(heard(one, 1000).filter((cue) => cue.startsWith('start'))).toEqual(['start@1.25']);
});

test('after leaving nothing runs on, and nothing that is asked is done', () => {
  const one = running([anEntry('a')], 7500);
  const heardBefore = one.phone.cueLine.heard().length;
  one.live.leave();
  one.live.ask('nextMove');
  one.live.touch();
  one.phone.time.advance(5000);
  expect(one.kept.marks).toHaveLength(1);
  expect(one.phone.cueLine.heard()).toHaveLength(heardBefore);
  expect(one.phone.time.waiting()).toBe(0);
  expect(one.phone.wakeLock.isWanted()).toBe(false);
});
