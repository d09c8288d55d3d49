import { beforeEach, describe, expect, test } from 'vitest';
import { createOutbox, type Outbox } from '../../../app/live/outbox.ts';
import type { StoreReason } from '../../../src/ports/class-store.ts';
import { aBeat, aHead, aMark, aPaper, ended, someMarks } from '../../builders/kept-class.ts';
import { takeValue } from '../../contracts/class-store.ts';
import { type FakeClocks, fakeClocks, settle } from '../../fakes/fake-clocks.ts';
import { type MemoryClassStore, memoryClassStore } from '../../fakes/memory-class-store.ts';
import { type MemoryLog, memoryLog } from '../../fakes/memory-log.ts';

let time: FakeClocks;
let log: MemoryLog;
let store: MemoryClassStore;

beforeEach(() => {
  time = fakeClocks();
  log = memoryLog();
  store = memoryClassStore();
});

/** The outbox of a class in a window of its own; `life` 1 unless told otherwise. */
function anOutbox(change: { readonly life?: number | null; readonly keptSeq?: number | null } = {}): Outbox {
  const { clocks, timers } = time;
  return createOutbox({ store, clocks, timers, log, recordId: 'class-1', life: 1, keptSeq: null, ...change });
}

/** An outbox whose class has begun and is stored. */
async function begunOutbox(): Promise<Outbox> {
  const outbox = anOutbox();
  outbox.begin(aHead(), aPaper());
  await settle();
  return outbox;
}

const stored = async () => {
  const other = memoryClassStore(store.disk);
  return takeValue(await other.openClass());
};

describe('what goes in is stored', () => {
  test('the beginning first, then marks in order, then the beat', async () => {
    const outbox = anOutbox();
    outbox.begin(aHead(), aPaper());
    outbox.beat(aBeat());
    outbox.add([aMark(0)]);
    outbox.add(someMarks(1, 3));
    await settle();
    expect(await stored()).toEqual({ head: aHead(), paper: aPaper(), marks: someMarks(0, 3), beat: aBeat() });
  });

  test('and known to be: the last seq, state and what waits', async () => {
    const outbox = await begunOutbox();
    expect([outbox.keptSeq(), outbox.behindSinceMs()]).toEqual([null, null]);
    outbox.add(someMarks(0, 1));
    expect([outbox.keptSeq(), outbox.behindSinceMs()]).toEqual([null, time.clocks.monoMs()]);
    await settle();
    expect([outbox.keptSeq(), outbox.behindSinceMs(), outbox.state()]).toEqual([1, null, 'keeping']);
  });

  test('at once: the first write is under way when `add` returns', async () => {
    const outbox = await begunOutbox();
    store.behave('holdAnswer');
    outbox.add([aMark(0)]);
    expect((await stored())?.marks).toEqual([aMark(0)]);
  });

  test('the end with the marks that still wait, in one write', async () => {
    const outbox = await begunOutbox();
    store.behave('holdAnswer', 1);
    outbox.add([aMark(0)]);
    outbox.add(someMarks(1, 2));
    outbox.finish(ended(aHead()));
    const before = store.asked();
    store.release();
    await settle();
    expect(store.asked() - before).toBe(1);
    expect(await stored()).toBeNull();
    const [line] = takeValue(await store.listRecords(Number.POSITIVE_INFINITY, 9));
    expect(line).toEqual({ readable: true, head: ended(aHead()), lastSeq: 2 });
    expect(outbox.keptSeq()).toBe(2);
  });

  test('in batches when much waits, the end with the last of them', async () => {
    const outbox = await begunOutbox();
    store.behave({ refuse: 'unavailable' }, 1);
    for (let seq = 0; seq < 250; seq += 1) outbox.add([aMark(seq)]);
    outbox.finish(ended(aHead()));
    const before = store.asked();
    await time.advanceSettling(250);
    expect(store.asked() - before).toBe(3);
    expect(outbox.keptSeq()).toBe(249);
    expect(store.disk.marks.get('class-1')?.size).toBe(250);
  });

  test('going on with a class needs no beginning and counts from what is stored', async () => {
    const first = await begunOutbox();
    first.add(someMarks(0, 4));
    await settle();
    const outbox = anOutbox({ keptSeq: 4 });
    expect(outbox.keptSeq()).toBe(4);
    outbox.add([aMark(5)]);
    await settle();
    expect([outbox.keptSeq(), (await stored())?.marks.length]).toEqual([5, 6]);
  });

  test('a mark that comes twice is taken once; one that leaves a hole is noted', async () => {
    const outbox = await begunOutbox();
    store.behave('holdAnswer', 1);
    outbox.add([aMark(0)]);
    outbox.add(someMarks(1, 2));
    outbox.add([aMark(1)]);
    const before = store.asked();
    store.release();
    await settle();
    expect([store.asked() - before, outbox.keptSeq()]).toEqual([1, 2]);
    outbox.add([aMark(4)]);
    await settle();
    expect([...(store.disk.marks.get('class-1')?.keys() ?? [])]).toEqual([0, 1, 2, 4]);
    expect(log.whats()).toEqual(['outbox: a mark out of order', 'outbox: a mark out of order']);
  });

  test('a mark that comes while the end is being written is not said to be kept with it', async () => {
    const outbox = await begunOutbox();
    outbox.add([aMark(0)]);
    await settle();
    store.behave('holdAnswer', 1);
    outbox.finish(ended(aHead()));
    outbox.add([aMark(1)]);
    store.behave({ refuse: 'unavailable' }, 1);
    store.release();
    await settle();
    expect(outbox.keptSeq()).toBe(0);
    await time.advanceSettling(250);
    expect(outbox.keptSeq()).toBe(1);
  });
});

describe('beats', () => {
  test('only the newest of those that wait is written, after the marks', async () => {
    const outbox = await begunOutbox();
    store.behave('holdAnswer', 1);
    outbox.add([aMark(0)]);
    for (const atMs of [2000, 4000, 6000]) outbox.beat(aBeat('class-1', atMs));
    outbox.add([aMark(1)]);
    const before = store.asked();
    store.release();
    await settle();
    expect(store.asked() - before).toBe(2);
    expect(await stored()).toMatchObject({ marks: someMarks(0, 1), beat: { atMs: 6000 } });
  });

  test('a newer one that comes while one is being written is written too', async () => {
    const outbox = await begunOutbox();
    store.behave('holdAnswer', 1);
    outbox.beat(aBeat('class-1', 2000));
    outbox.beat(aBeat('class-1', 4000));
    store.release();
    await settle();
    expect((await stored())?.beat?.atMs).toBe(4000);
  });

  test('carry the number they are written under', async () => {
    const outbox = anOutbox({ life: 7 });
    outbox.begin(aHead(), aPaper());
    outbox.beat(aBeat('class-1', 2000, 0));
    await settle();
    expect((await stored())?.beat?.life).toBe(7);
  });

  test('are of no interest once the class has finished', async () => {
    const outbox = await begunOutbox();
    store.behave({ refuse: 'unavailable' }, 1);
    outbox.beat(aBeat());
    outbox.finish(ended(aHead()));
    outbox.beat(aBeat('class-1', 2000));
    await time.advanceSettling(1000);
    expect([store.disk.beats.size, await stored()]).toEqual([0, null]);
  });

  test('that wait make nobody say that keeping is behind', async () => {
    const outbox = await begunOutbox();
    store.behave({ refuse: 'unavailable' });
    outbox.beat(aBeat());
    await time.advanceSettling(10_000);
    expect([outbox.state(), outbox.behindSinceMs()]).toEqual(['keeping', null]);
  });
});

describe('a store that fails', () => {
  test.each(['unavailable', 'full', 'tooNew'] as const)(
    'with %s is asked again until it takes them',
    async (reason) => {
      const outbox = await begunOutbox();
      store.behave({ refuse: reason });
      outbox.add(someMarks(0, 2));
      await time.advanceSettling(20 * 60_000);
      expect([outbox.keptSeq(), outbox.state()]).toEqual([null, 'behind']);
      store.behave('obey');
      await time.advanceSettling(8000);
      expect([outbox.keptSeq(), outbox.state(), (await stored())?.marks]).toEqual([2, 'keeping', someMarks(0, 2)]);
    },
  );

  test('is asked after 250 ms, then after twice as long each time, never longer than 8 s', async () => {
    const outbox = await begunOutbox();
    store.behave({ refuse: 'unavailable' });
    outbox.beat(aBeat());
    const waits: number[] = [];
    for (let at = 0; at < 8; at += 1) {
      await settle();
      const waitMs = (time.nextDueMonoMs() ?? Number.NaN) - time.clocks.monoMs();
      waits.push(waitMs);
      await time.advanceSettling(waitMs);
    }
    expect(waits).toEqual([250, 500, 1000, 2000, 4000, 8000, 8000, 8000]);
  });

  test('and then works starts from short waits again', async () => {
    const outbox = await begunOutbox();
    store.behave({ refuse: 'unavailable' }, 5);
    outbox.add([aMark(0)]);
    await time.advanceSettling(60_000);
    expect(outbox.keptSeq()).toBe(0);
    store.behave({ refuse: 'unavailable' }, 1);
    outbox.add([aMark(1)]);
    await time.advanceSettling(250);
    expect(outbox.keptSeq()).toBe(1);
  });

  test('is asked at once when the page comes back', async () => {
    const outbox = await begunOutbox();
    store.behave({ refuse: 'unavailable' }, 6);
    outbox.add([aMark(0)]);
    await time.advanceSettling(10_000);
    store.behave('obey');
    outbox.hasten();
    await settle();
    expect(outbox.keptSeq()).toBe(0);
    outbox.hasten();
    expect([store.unanswered(), time.waiting()]).toEqual([0, 0]);
  });

  test('never has two writes at a time, however much comes in', async () => {
    const outbox = await begunOutbox();
    store.behave('holdAnswer');
    for (let seq = 0; seq < 5; seq += 1) {
      outbox.add([aMark(seq)]);
      outbox.beat(aBeat('class-1', seq));
      outbox.hasten();
    }
    outbox.finish(ended(aHead()));
    await time.advanceSettling(4999);
    expect(store.unanswered()).toBe(1);
  });

  test('that loses its answer gets the same rows once more, and they are there once', async () => {
    const outbox = await begunOutbox();
    store.behave('loseAnswer', 1);
    outbox.add(someMarks(0, 2));
    await settle();
    expect(outbox.keptSeq()).toBeNull();
    await time.advanceSettling(250);
    expect([outbox.keptSeq(), (await stored())?.marks]).toEqual([2, someMarks(0, 2)]);
  });

  test('that never answers is given up after 5 s and asked again', async () => {
    const outbox = await begunOutbox();
    store.behave('hang', 1);
    outbox.add([aMark(0)]);
    await time.advanceSettling(5249);
    expect(outbox.keptSeq()).toBeNull();
    await time.advanceSettling(1);
    expect(outbox.keptSeq()).toBe(0);
  });

  test('whose answer comes after it was given up is believed', async () => {
    const outbox = await begunOutbox();
    store.behave('holdAnswer', 1);
    outbox.add(someMarks(0, 1));
    store.behave('hang');
    await time.advanceSettling(5000);
    expect(outbox.keptSeq()).toBeNull();
    store.release();
    await settle();
    expect([outbox.keptSeq(), outbox.behindSinceMs()]).toEqual([1, null]);
  });

  test('whose answer comes while the next try is under way does not get a second one beside it', async () => {
    const outbox = await begunOutbox();
    store.behave('holdAnswer', 1);
    outbox.add([aMark(0)]);
    store.behave('hang');
    await time.advanceSettling(5250);
    outbox.add([aMark(1)]);
    expect(store.unanswered()).toBe(2);
    store.release();
    await time.advanceSettling(4999);
    expect([outbox.keptSeq(), store.unanswered()]).toEqual([0, 1]);
  });

  test('whose early answer comes after a later one takes nothing back', async () => {
    const outbox = await begunOutbox();
    store.behave('holdAnswer', 1);
    outbox.add([aMark(0)]);
    await time.advanceSettling(5250);
    outbox.add(someMarks(1, 4));
    await settle();
    expect(outbox.keptSeq()).toBe(4);
    store.release();
    await settle();
    expect([outbox.keptSeq(), outbox.behindSinceMs()]).toEqual([4, null]);
  });

  test('that throws, against its promise, costs nothing either', async () => {
    const outbox = createOutbox({
      store: {
        ...store,
        putMarks: (...given) => {
          if (store.asked() < 2) {
            void store.hallCard();
            throw new Error('no such thing');
          }
          return store.putMarks(...given);
        },
      },
      clocks: time.clocks,
      timers: time.timers,
      log,
      recordId: 'class-1',
      life: 1,
      keptSeq: null,
    });
    outbox.begin(aHead(), aPaper());
    await settle();
    outbox.add([aMark(0)]);
    await time.advanceSettling(250);
    expect([outbox.keptSeq(), log.whats()]).toEqual([0, ['outbox: the store threw']]);
  });
});

describe('saying so', () => {
  test('keeping is behind once something has waited for two seconds, and told at that instant', async () => {
    const outbox = await begunOutbox();
    store.behave('hang', 1);
    const states: (string | number)[] = [];
    outbox.listen(() => states.push(outbox.state(), time.clocks.monoMs()));
    const since = time.clocks.monoMs();
    outbox.add([aMark(0)]);
    await time.advanceSettling(1999);
    expect([outbox.state(), states]).toEqual(['keeping', []]);
    await time.advanceSettling(1);
    expect([outbox.state(), states]).toEqual(['behind', ['behind', since + 2000]]);
    await time.advanceSettling(3250);
    expect(states.slice(2)).toEqual(['keeping', since + 5250]);
  });

  test('the oldest counts: a later mark that was stored makes no earlier one younger', async () => {
    const outbox = await begunOutbox();
    store.behave({ refuse: 'full' });
    outbox.add([aMark(0)]);
    const since = time.clocks.monoMs();
    await time.advanceSettling(1500);
    outbox.add([aMark(1)]);
    expect(outbox.behindSinceMs()).toBe(since);
    await time.advanceSettling(500);
    expect(outbox.state()).toBe('behind');
  });

  test('a beginning and an end that wait count as well', async () => {
    const outbox = anOutbox();
    store.behave({ refuse: 'full' });
    outbox.begin(aHead(), aPaper());
    await time.advanceSettling(2000);
    expect(outbox.state()).toBe('behind');
    store.behave('obey');
    await time.advanceSettling(8000);
    store.behave({ refuse: 'full' });
    outbox.finish(ended(aHead()));
    await time.advanceSettling(2000);
    expect(outbox.state()).toBe('behind');
  });

  test('every new kept seq is told, until who listened has enough', async () => {
    const outbox = await begunOutbox();
    const seqs: (number | null)[] = [];
    const enough = outbox.listen(() => seqs.push(outbox.keptSeq()));
    outbox.add([aMark(0)]);
    await settle();
    outbox.add([aMark(1)]);
    await settle();
    enough();
    outbox.add([aMark(2)]);
    await settle();
    expect(seqs).toEqual([0, 1]);
  });

  test('who throws while hearing stops neither the keeping nor the others', async () => {
    const outbox = await begunOutbox();
    const seqs: (number | null)[] = [];
    outbox.listen(() => {
      throw new Error('a screen that is gone');
    });
    outbox.listen(() => seqs.push(outbox.keptSeq()));
    outbox.add([aMark(0)]);
    await settle();
    outbox.add([aMark(1)]);
    await settle();
    expect([seqs, outbox.keptSeq()]).toEqual([[0, 1], 1]);
    expect(log.whats()).toEqual(['outbox: a hearer threw', 'outbox: a hearer threw']);
  });
});

describe('another window takes over', () => {
  test('nothing more is written or asked for from here, and it is said', async () => {
    const outbox = await begunOutbox();
    outbox.add([aMark(0)]);
    await settle();
    takeValue(await memoryClassStore(store.disk).takeOver());
    takeValue(await memoryClassStore(store.disk).takeOver());
    let told = 0;
    outbox.listen(() => {
      told += 1;
    });
    outbox.add([aMark(1)]);
    await settle();
    expect([outbox.state(), outbox.keptSeq(), outbox.behindSinceMs(), told]).toEqual(['fenced', 0, null, 1]);
    const before = store.asked();
    outbox.add([aMark(2)]);
    outbox.beat(aBeat());
    outbox.finish(ended(aHead()));
    outbox.hasten();
    await time.advanceSettling(60_000);
    expect([store.asked() - before, (await stored())?.marks, time.waiting()]).toEqual([0, [aMark(0)], 0]);
  });

  test('a beat is enough to notice it', async () => {
    const outbox = await begunOutbox();
    const other = memoryClassStore(store.disk);
    await other.takeOver();
    await other.takeOver();
    outbox.beat(aBeat());
    await settle();
    expect(outbox.state()).toBe('fenced');
  });

  test('who waits for everything to be stored waits no more', async () => {
    const outbox = await begunOutbox();
    store.behave({ refuse: 'fenced' });
    outbox.add([aMark(0)]);
    await expect(outbox.flushed()).resolves.toBeUndefined();
  });
});

describe('without a fencing number', () => {
  test.each(['unavailable', 'full', 'tooNew'] satisfies StoreReason[])(
    'keeping is off (%s), and begins as soon as one can be had',
    async (reason) => {
      store.behave({ refuse: reason });
      const outbox = anOutbox({ life: null });
      await settle();
      expect([outbox.state(), outbox.life()]).toEqual(['off', null]);
      outbox.begin(aHead(), aPaper());
      outbox.add(someMarks(0, 3));
      await time.advanceSettling(60_000);
      expect([outbox.state(), store.disk.heads.size]).toEqual(['off', 0]);
      store.behave('obey');
      await time.advanceSettling(8000);
      expect([outbox.state(), outbox.life(), outbox.keptSeq()]).toEqual(['keeping', 1, 3]);
      expect((await stored())?.marks).toEqual(someMarks(0, 3));
    },
  );

  test('one is asked for before there is anything to keep', async () => {
    const outbox = anOutbox({ life: null });
    expect(outbox.state()).toBe('keeping');
    await settle();
    expect([outbox.life(), store.asked()]).toEqual([1, 1]);
  });

  test('a number that comes late is not taken: a later try may have raised it, and this window would fence itself', async () => {
    store.behave('holdAnswer', 1);
    const outbox = anOutbox({ life: null });
    await time.advanceSettling(5000);
    store.behave('loseAnswer', 1);
    await time.advanceSettling(250);
    store.release();
    await settle();
    outbox.begin(aHead(), aPaper());
    outbox.add([aMark(0)]);
    await time.advanceSettling(500);
    expect([outbox.life(), outbox.state(), outbox.keptSeq()]).toEqual([3, 'keeping', 0]);
  });
});

describe('waiting until everything is stored', () => {
  const isSettled = async (promise: Promise<void>): Promise<boolean> => {
    let answer = false;
    void promise.then(() => {
      answer = true;
    });
    await settle();
    return answer;
  };

  test('is over at once where nothing waits', async () => {
    expect(await isSettled((await begunOutbox()).flushed())).toBe(true);
  });

  test.each(['begin', 'add', 'beat', 'finish'] as const)('lasts until what came by %s is stored', async (how) => {
    const outbox = how === 'begin' ? anOutbox() : await begunOutbox();
    store.behave({ refuse: 'unavailable' }, 3);
    if (how === 'begin') outbox.begin(aHead(), aPaper());
    if (how === 'add') outbox.add([aMark(0)]);
    if (how === 'beat') outbox.beat(aBeat());
    if (how === 'finish') outbox.finish(ended(aHead()));
    const flushed = outbox.flushed();
    await time.advanceSettling(1749);
    expect(await isSettled(flushed)).toBe(false);
    await time.advanceSettling(1);
    expect(await isSettled(flushed)).toBe(true);
  });

  test('leaves no timer behind', async () => {
    const outbox = await begunOutbox();
    store.behave({ refuse: 'unavailable' }, 3);
    outbox.add([aMark(0)]);
    await time.advanceSettling(10_000);
    await outbox.flushed();
    expect(time.waiting()).toBe(0);
  });
});
