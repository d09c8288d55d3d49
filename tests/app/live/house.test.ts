import { describe, expect, test } from 'vitest';
import type { HallNeeds } from '../../../app/live/hall-visit.ts';
import { type House, house } from '../../../app/live/house.ts';
import { browserWindowLock } from '../../../app/platform/store/browser-window-lock.ts';
import { type SmallPhone, smallPhone } from '../../builders/small-phone.ts';
import { aBlock, anEntry, aPlan, SMALL_LIBRARY } from '../../builders/small-plan.ts';
import { type FakeClocks, fakeClocks, settle } from '../../fakes/fake-clocks.ts';
import { type FakeLocks, fakeLocks } from '../../fakes/fake-locks.ts';
import { type MemoryClassStore, memoryClassStore } from '../../fakes/memory-class-store.ts';
import { type MemoryDisk, memoryDisk } from '../../fakes/memory-disk.ts';
import { memoryLog } from '../../fakes/memory-log.ts';

const SHELVED = { plan: aPlan([aBlock([anEntry('a'), anEntry('b'), anEntry('c')])]), library: SMALL_LIBRARY };
const nothing = (): void => undefined;
const HASH = 'ab'.repeat(32);

type Window = {
  readonly house: House;
  readonly phone: SmallPhone;
  readonly store: MemoryClassStore;
  readonly die: () => Promise<void>;
};

/** One window of a phone: its own page over the phone's disk, locks and time. */
function aWindow(time: FakeClocks, disk: MemoryDisk, locks: FakeLocks, change: Partial<HallNeeds> = {}): Window {
  const phone = smallPhone(time);
  const store = memoryClassStore(disk);
  const lock = browserWindowLock({ locks: locks.locks, log: memoryLog() });
  const { clocks, timers } = time;
  const needs: HallNeeds = {
    phone: phone.ports,
    keeping: { store, clocks, timers, log: memoryLog() },
    digest: { sha256Hex: async () => HASH },
    ids: { newId: () => `record-${clocks.monoMs()}` },
    zone: () => 'Europe/Berlin',
    nameLine: (figure) => figure.name,
    onStart: () => undefined,
    ...change,
  };
  const die = async (): Promise<void> => {
    store.die();
    // A window that is gone holds no lock: asking afresh lets the old claim go, and this one too.
    lock.hold(nothing, nothing)();
    await settle();
  };
  return { house: house(needs, store, lock), phone, store, die };
}

function aPhone() {
  const time = fakeClocks();
  const disk = memoryDisk();
  const locks = fakeLocks();
  return { time, disk, open: (change: Partial<HallNeeds> = {}) => aWindow(time, disk, locks, change) };
}

const live = ({ house: { visit } }: Window) => {
  const there = visit.value?.live;
  if (there === undefined) throw new Error('nobody is in the hall');
  return there;
};

/** As the app does it when it opens: a class that is found not to have ended is taken up. */
async function takenUp({ house: it, store }: Window): Promise<void> {
  const found = await store.openClass();
  if (!found.ok || found.value === null) throw new Error('no class is open');
  await it.takeUp(found.value);
}

async function started(window: Window, time: FakeClocks, ms: number): Promise<void> {
  window.house.enter(SHELVED);
  await settle();
  live(window).ask('start');
  await time.advanceSettling(ms);
}

describe('a class in one window', () => {
  test('is kept mark by mark, and its end with it', async () => {
    const { time, disk, open } = aPhone();
    const window = open();
    await started(window, time, 20_000);
    expect(live(window).keptSeq.value).toBe(0);
    await time.advanceSettling(81_000);
    const [head] = [...disk.heads.values()];
    expect(head).toMatchObject({
      planName: 'Small class',
      zone: 'Europe/Berlin',
      outcome: 'finished',
      paperHash: HASH,
    });
    expect(live(window).keptSeq.value).toBe(1);
  });

  test('killed, it comes back into the right second with everything that was shown as kept', async () => {
    const { time, open } = aPhone();
    const before = open();
    await started(before, time, 20_000);
    live(before).ask('tenMore');
    await time.advanceSettling(5000);
    const kept = live(before).keptSeq.value ?? -1;
    await before.die();
    time.freeze(8000, { mono: 'runs' });
    const after = open();
    await takenUp(after);
    expect(live(after).view.value).toMatchObject({ status: 'running', moveIds: ['a'], digits: '17' });
    expect(live(after).keptSeq.value).toBeGreaterThanOrEqual(kept);
  });

  test('a class that has ended since it was found is not taken up, and the seat is free again', async () => {
    const { time, open } = aPhone();
    const before = open();
    await started(before, time, 20_000);
    const after = open();
    const found = await after.store.openClass();
    if (!found.ok || found.value === null) throw new Error('no class is open');
    await time.advanceSettling(100_000);
    await before.die();
    await after.house.takeUp(found.value);
    expect(after.house.visit.value).toBeNull();
    expect(after.house.seat.value).toBe('none');
  });

  test('the hall is not left while the class is live', async () => {
    const { time, open } = aPhone();
    const window = open();
    await started(window, time, 20_000);
    window.house.leave();
    expect(live(window).view.value.status).toBe('running');
    live(window).ask('finish');
    window.house.leave();
    expect(window.house.visit.value).toBeNull();
  });

  test('without papers nothing is kept, the class runs and the fact says so', async () => {
    const { time, disk, open } = aPhone();
    const window = open({ digest: { sha256Hex: async () => null } });
    await started(window, time, 20_000);
    expect(live(window).view.value.status).toBe('running');
    expect(live(window).facts.value.keeping).toBe('off');
    expect(disk.heads.size).toBe(0);
  });

  test('a store that hangs holds up nothing, and the fact says that marks wait', async () => {
    const { time, open } = aPhone();
    const window = open();
    window.store.behave({ refuse: 'unavailable' });
    await started(window, time, 20_000);
    expect(live(window).view.value).toMatchObject({ status: 'running', digits: '20' });
    expect(live(window).facts.value.keeping).not.toBe('keeping');
    window.store.behave('obey');
    await time.advanceSettling(15_000);
    expect(live(window).facts.value.keeping).toBe('keeping');
    expect(live(window).keptSeq.value).toBe(0);
  });
});

describe('a rehearsal', () => {
  test('runs faster, keeps nothing, and the class is ready again after it', async () => {
    const { time, disk, open } = aPhone();
    const window = open();
    window.house.enter(SHELVED);
    await settle();
    window.house.rehearse();
    await time.advanceSettling(13_000);
    expect(live(window)).toMatchObject({ isRehearsal: true });
    expect(live(window).view.value.status).toBe('finished');
    expect(disk.heads.size).toBe(0);
    window.house.readyAgain();
    expect(live(window)).toMatchObject({ isRehearsal: false });
    expect(live(window).view.value.status).toBe('ready');
  });
});

describe('two windows', () => {
  test('the second stands back while the first has the hall open', async () => {
    const { time, open } = aPhone();
    const [first, second] = [open(), open()];
    await started(first, time, 20_000);
    second.house.enter(SHELVED);
    await settle();
    expect(second.house.visit.value).toBeNull();
    expect(second.house.seat.value).toBe('other');
  });

  test('when the first dies the second takes its class up', async () => {
    const { time, open } = aPhone();
    const [first, second] = [open(), open()];
    await started(first, time, 20_000);
    await takenUp(second);
    expect(second.house.seat.value).toBe('other');
    await first.die();
    await settle();
    expect(live(second).view.value).toMatchObject({ status: 'running', moveIds: ['a'] });
  });

  test('taken over by hand, the first falls silent and can write no more', async () => {
    const { time, disk, open } = aPhone();
    const [first, second] = [open(), open()];
    await started(first, time, 20_000);
    const old = live(first);
    second.house.enter(SHELVED);
    await settle();
    second.house.takeFromOther();
    await time.advanceSettling(1000);
    expect(live(second).view.value).toMatchObject({ status: 'running', moveIds: ['a'] });
    expect(first.house.visit.value).toBeNull();
    expect(first.house.seat.value).toBe('other');
    const marks = [...disk.marks.values()].map((rows) => rows.size);
    old.ask('pause');
    await time.advanceSettling(1000);
    expect([...disk.marks.values()].map((rows) => rows.size)).toEqual(marks);
    expect(first.phone.cueLine.wanted()).toEqual([]);
  });

  test('a mark that the old window stores after the class was found is taken up too', async () => {
    const time = fakeClocks();
    const disk = memoryDisk();
    const first = aWindow(time, disk, fakeLocks());
    const second = aWindow(time, disk, fakeLocks());
    await started(first, time, 20_000);
    const found = await second.store.openClass();
    if (!found.ok || found.value === null) throw new Error('no class is open');
    live(first).ask('tenMore');
    await settle();
    void second.house.takeUp(found.value);
    await time.advanceSettling(1000);
    // 20 s were left of the move, ten were given, one has run.
    expect(live(second).view.value).toMatchObject({ moveIds: ['a'], digits: '29' });
    live(second).ask('pause');
    await time.advanceSettling(1000);
    const kept = await second.store.openClass();
    expect(kept.ok && kept.value?.marks.map((mark) => mark.kind)).toEqual(['started', 'changed', 'away', 'paused']);
  });

  test('a frozen window that wakes up late is fenced off even without locks, and stands back', async () => {
    const time = fakeClocks();
    const disk = memoryDisk();
    const first = aWindow(time, disk, fakeLocks());
    const second = aWindow(time, disk, fakeLocks());
    await started(first, time, 20_000);
    await takenUp(second);
    await time.advanceSettling(1000);
    live(first).ask('pause');
    await time.advanceSettling(1000);
    expect(live(first).facts.value.keeping).toBe('fenced');
    expect(first.phone.cueLine.wanted()).toEqual([]);
    expect(live(second).view.value.status).toBe('running');
  });
});
