import { Howler } from 'howler/dist/howler.core.min.js';
import { describe, expect, test } from 'vitest';
import { busOf } from '../../../../app/platform/sound/cue-line.ts';
import { howlerContext } from '../../../../app/platform/sound/howler-context.ts';
import type { SoundFact, WantedSound } from '../../../../src/ports/cue-line.ts';
import type { FakeNode } from '../../../fakes/fake-audio-context.ts';
import { phoneWithSound } from './phone-with-sound.ts';

type Phone = ReturnType<typeof phoneWithSound>;

const wantedIn = (phone: Phone, inMs: number, key = 'start'): WantedSound => ({
  key,
  kind: 'start',
  style: 'sharp',
  dueMonoMs: phone.clocks.clocks.monoMs() + inMs,
});

const unlocked = async (options: Parameters<typeof phoneWithSound>[0] = {}): Promise<Phone> => {
  const phone = phoneWithSound(options);
  phone.audio.touch(phone.line.unlock);
  await phone.pass(2000);
  expect(phone.line.fact()).toBe('ok');
  return phone;
};

/** A tick each second for so long. */
const ticks = (phone: Phone, fromMs: number, toMs: number): readonly WantedSound[] => {
  const list: WantedSound[] = [];
  for (let at = fromMs; at <= toMs; at += 1000) list.push(wantedIn(phone, at, `tick ${at}`));
  return list;
};

/** How far what was heard lies from the nearest wanted instant, in ms; the worst. */
const worstMs = (phone: Phone, list: readonly WantedSound[], fromMonoMs = 0): number => {
  const errors = phone
    .heard()
    .filter(({ atMonoMs }) => atMonoMs >= fromMonoMs)
    .map(({ atMonoMs }) => Math.min(...list.map(({ dueMonoMs }) => Math.abs(atMonoMs - dueMonoMs))));
  return Math.max(...errors);
};

describe('sound that was asked for before it may play', () => {
  test('asks the context to run at once, for browsers that allow it without a touch', async () => {
    const phone = phoneWithSound({ needsTouch: false });
    phone.line.want([wantedIn(phone, 3000)]);
    await phone.pass(4000);
    expect(phone.line.fact()).toBe('ok');
    expect(phone.heard()).toHaveLength(1);
  });

  test('makes no context before anything is asked', () => {
    expect(phoneWithSound().audio.contexts).toHaveLength(0);
  });

  test('sets the audio session before the context is made', () => {
    const phone = phoneWithSound();
    const seen: string[] = [];
    const { makeContext } = phone.audio;
    const needs = {
      makeContext: () => {
        seen.push(phone.session.type);
        return makeContext();
      },
      audioSession: phone.session,
      log: phone.log,
    };
    howlerContext(needs).make();
    expect(seen).toEqual(['playback']);
  });

  test.each(['never', 'rejects'] as const)(
    'goes on when resume %s settles, and says that a tap is needed',
    async (how) => {
      const phone = phoneWithSound();
      phone.audio.answerResume(how);
      phone.audio.touch(phone.line.unlock);
      phone.line.want([wantedIn(phone, 1000)]);
      await phone.pass(3000);
      expect(phone.line.fact()).toBe('needsTap');
      expect(phone.heard()).toEqual([]);
    },
  );

  test('takes a new context at a second press when the first brought nothing', async () => {
    const phone = phoneWithSound();
    phone.audio.answerResume('never');
    phone.audio.touch(phone.line.unlock);
    await phone.pass(1000);
    phone.audio.touch(phone.line.unlock);
    await phone.pass(1000);
    expect(phone.audio.contexts).toHaveLength(1);
    phone.audio.answerResume('settles');
    phone.audio.touch(phone.line.unlock);
    await phone.pass(1500);
    expect(phone.audio.contexts.map(({ state }) => state)).toEqual(['closed', 'running']);
    expect(phone.line.fact()).toBe('ok');
  });

  test('says absent where the browser gives none, throws nothing, and tries again at a press', async () => {
    const phone = phoneWithSound();
    phone.audio.refuseContexts(true);
    phone.line.unlock();
    phone.line.want([wantedIn(phone, 1000)]);
    phone.line.playNow('tick', 'sharp');
    await phone.pass(2000);
    expect(phone.line.fact()).toBe('absent');
    expect(phone.log.whats().filter((what) => what === 'sound: no context')).toHaveLength(1);
    phone.audio.refuseContexts(false);
    phone.audio.touch(phone.line.unlock);
    await phone.pass(2000);
    expect(phone.line.fact()).toBe('ok');
  });

  test('plays the sound check when the context has come up within the press', async () => {
    const phone = phoneWithSound({ startMs: 400 });
    phone.audio.touch(phone.line.unlock);
    phone.line.playNow('finish', 'sharp');
    await phone.pass(1000);
    expect(phone.heard().map(({ kind }) => kind)).toEqual(['finish']);
  });

  test('does not play an old sound check when the context comes up much later', async () => {
    const phone = phoneWithSound({ startMs: 5000 });
    phone.audio.touch(phone.line.unlock);
    phone.line.playNow('finish', 'sharp');
    await phone.pass(7000);
    expect(phone.line.fact()).toBe('ok');
    expect(phone.heard()).toEqual([]);
  });
});

describe('the way of a cue', () => {
  test('goes through one node of its own, then Howler, which may hold its volume', async () => {
    const phone = await unlocked();
    const bus = busOf(phone.line) as unknown as FakeNode;
    expect(bus.reaches(Howler.masterGain as unknown as FakeNode)).toBe(true);
    phone.line.want([wantedIn(phone, 500)]);
    const [source] = phone.audio.contexts[0]?.started.slice(-1) ?? [];
    expect([...(source?.outputs ?? [])]).toEqual([bus]);
    expect(Howler.autoSuspend).toBe(false);
  });

  test('starts at a whole frame, rounded up', async () => {
    const phone = await unlocked();
    phone.line.want([wantedIn(phone, 500.0123), wantedIn(phone, 700.7, 'b')]);
    for (const source of phone.audio.contexts[0]?.started.slice(-2) ?? []) {
      const frames = (source.beginSeconds ?? 0.5) * 48_000;
      expect(Math.abs(frames - Math.round(frames))).toBeLessThan(1e-6);
    }
  });

  test('is the recording, or a plain one where it did not load or decode', async () => {
    const load = async (name: string) => {
      if (name === 'sharp/start') throw new Error('not in the cache');
      return new TextEncoder().encode(name === 'sharp/tick' ? 'bad bytes' : name).buffer as ArrayBuffer;
    };
    const phone = await unlocked({ load });
    phone.line.want([
      wantedIn(phone, 500),
      { ...wantedIn(phone, 1500, 'b'), kind: 'tick' },
      { ...wantedIn(phone, 2500, 'c'), kind: 'up' },
    ]);
    await phone.pass(4000);
    expect(phone.audio.heard().map(({ label }) => label)).toEqual(['made', 'made', 'sharp/up']);
    const notes = phone.log.whats();
    expect(notes).toContain('sound: sharp start did not load, a plain one stands in');
    expect(notes.some((what) => what.includes('sharp/tick did not decode'))).toBe(true);
  });

  test('plays a plain one while recordings are still coming, then the recordings', async () => {
    let give: () => void = () => {};
    const gate = new Promise<void>((open) => {
      give = open;
    });
    const load = async (name: string) => {
      await gate;
      return new TextEncoder().encode(name).buffer as ArrayBuffer;
    };
    const phone = await unlocked({ load });
    phone.line.want([wantedIn(phone, 1000), wantedIn(phone, 3000, 'b')]);
    await phone.pass(2000);
    give();
    await phone.pass(2000);
    expect(phone.audio.heard().map(({ label }) => label)).toEqual(['made', 'sharp/start']);
  });

  test('moves on when Howler puts another context in place of its own', async () => {
    const phone = await unlocked();
    const list = ticks(phone, 1000, 9000);
    phone.line.want(list);
    await phone.pass(3500);
    // As Howler.unload() does it.
    phone.audio.touch(() => {
      Howler.ctx.close().catch(() => {});
      Howler.ctx = phone.audio.makeContext();
      const volume = Howler.ctx.createGain();
      volume.connect(Howler.ctx.destination);
      Howler.masterGain = volume;
    });
    await phone.pass(7000);
    expect(phone.heard()).toHaveLength(9);
    expect(worstMs(phone, list)).toBeLessThan(10);
    expect((busOf(phone.line) as unknown as FakeNode).reaches(Howler.masterGain as unknown as FakeNode)).toBe(true);
  });
});

describe('a clock that stands although the context says it runs', () => {
  test.each([
    { cure: 'resume', contexts: 1 },
    { cure: 'suspendAndResume', contexts: 1 },
    { cure: 'newContext', contexts: 2 },
  ] as const)('is brought back by $cure within 5 s, and on time 2 s later', async ({ cure, contexts }) => {
    const phone = await unlocked({ skewPpm: 200 });
    const facts: SoundFact[] = [];
    phone.line.listen((fact) => facts.push(fact));
    const list = ticks(phone, 500, 30_500);
    phone.line.want(list);
    await phone.pass(5000);
    phone.audio.stall(cure);
    const stalledAt = phone.clocks.clocks.monoMs();
    await phone.pass(5000);
    expect(facts[0]).toBe('stalled');
    expect(phone.line.fact()).toBe('ok');
    expect(phone.audio.contexts).toHaveLength(contexts);
    await phone.pass(22_000);
    expect(facts.slice(-1)).toEqual(['ok']);
    expect(worstMs(phone, list, stalledAt + 7000)).toBeLessThan(10);
    expect(phone.heard().filter(({ atMonoMs }) => atMonoMs > stalledAt + 7000)).toHaveLength(19);
  });

  test('a context made in need is made once more at the next press, and only then', async () => {
    const phone = await unlocked();
    const list = ticks(phone, 500, 40_500);
    phone.line.want(list);
    phone.audio.stall('newContext');
    await phone.pass(8000);
    expect(phone.audio.contexts).toHaveLength(2);
    phone.line.unlock();
    await phone.pass(4000);
    expect(phone.audio.contexts).toHaveLength(3);
    phone.line.unlock();
    const from = phone.clocks.clocks.monoMs();
    await phone.pass(20_000);
    expect(phone.audio.contexts).toHaveLength(3);
    expect(worstMs(phone, list, from)).toBeLessThan(10);
  });

  test('is brought back by the gentlest means again the next time', async () => {
    const phone = await unlocked();
    phone.audio.stall('newContext');
    await phone.pass(8000);
    expect(phone.audio.contexts).toHaveLength(2);
    phone.audio.stall('resume');
    await phone.pass(3000);
    expect(phone.line.fact()).toBe('ok');
    expect(phone.audio.contexts).toHaveLength(2);
  });

  test('is not waited for longer because it stood before', async () => {
    const phone = await unlocked();
    for (let time = 0; time < 5; time += 1) {
      phone.audio.stall('newContext');
      await phone.pass(8000);
    }
    const before = phone.audio.contexts.length;
    phone.audio.stall('time');
    await phone.pass(9000);
    expect(phone.audio.contexts.length - before).toBeGreaterThan(1);
  });

  test('plays none of what was due meanwhile, neither late nor in a burst', async () => {
    const phone = await unlocked();
    const list = ticks(phone, 500, 20_500);
    phone.line.want(list);
    await phone.pass(3000);
    phone.audio.stall('time');
    await phone.pass(2400);
    phone.audio.unstall();
    await phone.pass(16_000);
    expect(worstMs(phone, list)).toBeLessThan(150);
    expect(phone.heard().length).toBeGreaterThan(16);
    expect(new Set(phone.heard().map(({ atMonoMs }) => Math.round(atMonoMs / 500))).size).toBe(phone.heard().length);
  });

  test('makes new contexts ever more rarely where nothing helps', async () => {
    const phone = await unlocked();
    phone.audio.stall('time');
    await phone.pass(60_000);
    const inOneMinute = phone.audio.contexts.length;
    await phone.pass(240_000);
    expect(inOneMinute).toBeGreaterThan(2);
    expect(phone.audio.contexts.length).toBeLessThan(inOneMinute + 6);
    expect(phone.audio.contexts.slice(0, -1).every(({ state }) => state === 'closed')).toBe(true);
    phone.audio.unstall();
    await phone.pass(2000);
    expect(phone.line.fact()).toBe('ok');
  });

  test('is brought back after the device was lost and came again', async () => {
    const phone = await unlocked();
    const list = ticks(phone, 500, 30_500);
    phone.line.want(list);
    await phone.pass(3000);
    phone.audio.loseDevice();
    await phone.pass(250);
    expect(phone.line.fact()).not.toBe('ok');
    const facts: SoundFact[] = [];
    phone.line.listen((fact) => facts.push(fact));
    await phone.pass(8000);
    expect(facts).toContain('stalled');
    expect(phone.line.fact()).toBe('ok');
    expect(phone.audio.contexts).toHaveLength(1);
    const from = phone.clocks.clocks.monoMs();
    await phone.pass(20_000);
    expect(worstMs(phone, list, from)).toBeLessThan(10);
  });
});

test('a dropped buffer moves what is queued and is no news for people', async () => {
  const phone = await unlocked();
  const list = ticks(phone, 500, 30_500);
  phone.line.want(list);
  await phone.pass(25_000);
  const facts: SoundFact[] = [];
  phone.line.listen((fact) => facts.push(fact));
  phone.audio.stall('time');
  await phone.clocks.advanceSettling(200);
  phone.audio.unstall();
  await phone.pass(7000);
  expect(facts).toEqual([]);
  expect(phone.heard()).toHaveLength(31);
  const late = phone.heard().slice(-4);
  for (const [at, { atMonoMs }] of late.entries()) {
    expect(Math.abs(atMonoMs - (list.slice(-4)[at]?.dueMonoMs ?? 0))).toBeLessThan(5);
  }
});

describe('a system that takes the sound', () => {
  test('is never asked for it back while it has it', async () => {
    const phone = await unlocked();
    phone.audio.interrupt();
    const calls = phone.audio.resumeCalls();
    phone.audio.touch(phone.line.unlock);
    phone.pageLife.hide();
    phone.pageLife.show();
    await phone.pass(60_000);
    expect(phone.audio.resumeCalls()).toBe(calls);
    expect(phone.line.fact()).toBe('interrupted');
  });

  test('gives it back and is on time again without a touch where that is allowed', async () => {
    const phone = await unlocked();
    const list = ticks(phone, 500, 40_500);
    phone.line.want(list);
    await phone.pass(5000);
    phone.audio.interrupt();
    await phone.pass(20_000);
    phone.audio.endInterruption();
    const from = phone.clocks.clocks.monoMs();
    await phone.pass(15_000);
    expect(phone.line.fact()).toBe('ok');
    expect(phone.heard().filter(({ atMonoMs }) => atMonoMs > from).length).toBeGreaterThan(12);
    expect(worstMs(phone, list, from)).toBeLessThan(10);
  });
});

describe('a page that is hidden or frozen', () => {
  test('plays on while hidden with timers once a second', async () => {
    const phone = await unlocked();
    const list = ticks(phone, 500, 20_500);
    phone.line.want(list);
    phone.pageLife.hide();
    for (let second = 0; second < 22; second += 1) {
      phone.line.tend();
      await phone.clocks.advanceSettling(1000);
    }
    expect(phone.heard()).toHaveLength(21);
    expect(worstMs(phone, list)).toBeLessThan(10);
  });

  test('plays on when the page is blocked for three seconds at a time', async () => {
    const phone = await unlocked();
    const list = ticks(phone, 500, 20_500);
    phone.line.want(list);
    for (let block = 0; block < 7; block += 1) {
      phone.clocks.freeze(3000, { mono: 'runs' });
      await phone.pass(100);
    }
    expect(phone.heard()).toHaveLength(21);
    expect(worstMs(phone, list)).toBeLessThan(10);
  });

  test('does not play after a freeze what was about to begin before it', async () => {
    const phone = await unlocked();
    phone.line.want([wantedIn(phone, 1030)]);
    await phone.pass(1000);
    phone.pageLife.freeze();
    phone.audio.freeze();
    phone.clocks.freeze(3000, { mono: 'runs' });
    phone.audio.thaw();
    await phone.clocks.advanceSettling(40);
    phone.pageLife.thaw();
    await phone.pass(2000);
    expect(phone.heard()).toEqual([]);
  });

  test('plays nothing late after a freeze, and is on time at once', async () => {
    const phone = await unlocked();
    const list = ticks(phone, 500, 20_500);
    phone.line.want(list);
    await phone.pass(3200);
    phone.pageLife.freeze();
    phone.audio.freeze();
    phone.clocks.freeze(3000, { mono: 'runs' });
    phone.audio.thaw();
    phone.pageLife.thaw();
    const from = phone.clocks.clocks.monoMs();
    await phone.pass(15_000);
    expect(worstMs(phone, list, from + 2000)).toBeLessThan(10);
    expect(worstMs(phone, list)).toBeLessThan(50);
    expect(phone.heard().filter(({ atMonoMs }) => atMonoMs > from)).toHaveLength(15);
  });
});

describe('a context that was closed', () => {
  test('is followed by a new one that plays on', async () => {
    const phone = await unlocked();
    const list = ticks(phone, 500, 10_500);
    phone.line.want(list);
    await phone.pass(3200);
    await Howler.ctx.close();
    const from = phone.clocks.clocks.monoMs();
    await phone.pass(9000);
    expect(phone.line.fact()).toBe('ok');
    expect(phone.audio.contexts.map(({ state }) => state)).toEqual(['closed', 'running']);
    expect(phone.heard().filter(({ atMonoMs }) => atMonoMs > from).length).toBeGreaterThan(6);
  });
});

describe('a cue that has begun', () => {
  test.each(['closed', 'frozen'] as const)('does not begin again when its context is %s right after', async (how) => {
    const phone = await unlocked();
    phone.line.want([wantedIn(phone, 500)]);
    await phone.pass(560);
    if (how === 'frozen') {
      phone.pageLife.freeze();
      phone.pageLife.thaw();
    } else {
      await Howler.ctx.close();
      phone.line.tend();
    }
    await phone.pass(2000);
    expect(phone.heard()).toHaveLength(1);
  });
});

describe('rest', () => {
  test('lets the sound device go, and neither page nor time brings it back', async () => {
    const phone = await unlocked();
    phone.line.rest();
    await phone.pass(3000);
    const calls = phone.audio.resumeCalls();
    phone.pageLife.hide();
    phone.pageLife.show();
    await phone.pass(60_000);
    expect(phone.audio.contexts.map(({ state }) => state)).toEqual(['suspended']);
    expect(phone.audio.resumeCalls()).toBe(calls);
  });
});
