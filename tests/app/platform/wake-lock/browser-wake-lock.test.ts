import { describe, expect, test } from 'vitest';
import { browserWakeLock, type Sentinel } from '../../../../app/platform/wake-lock/browser-wake-lock.ts';
import { wakeLockContract } from '../../../contracts/wake-lock.ts';
import { fakeClocks, settle } from '../../../fakes/fake-clocks.ts';
import { fakePageLife } from '../../../fakes/fake-page-life.ts';
import { memoryLog } from '../../../fakes/memory-log.ts';

class FakeSentinel implements Sentinel {
  released = false;
  /** The event comes when this is called, where it is not told at once. */
  tellLater: (() => void) | null = null;
  isSlow = false;
  private hear: (() => void)[] = [];
  addEventListener(_type: 'release', hear: () => void): void {
    this.hear.push(hear);
  }
  async release(): Promise<void> {
    if (this.released) return;
    this.released = true;
    this.tellLater = () => {
      for (const each of this.hear) each();
    };
    if (!this.isSlow) this.tellLater();
  }
}

/** A phone that hands out sentinels and releases them when the page is hidden, as all browsers do. */
function phone(has = true) {
  const clocks = fakeClocks();
  const pageLife = fakePageLife();
  const log = memoryLog();
  const sentinels: FakeSentinel[] = [];
  let gives = true;
  let answers = true;
  let waiting: (() => void)[] = [];
  const request = async () => {
    if (!answers) await new Promise<void>((go) => waiting.push(go));
    if (!gives || !pageLife.isVisible()) throw new DOMException('refused', 'NotAllowedError');
    const sentinel = new FakeSentinel();
    sentinels.push(sentinel);
    return sentinel;
  };
  const releaseAll = () => {
    for (const sentinel of sentinels) void sentinel.release();
  };
  pageLife.listen((event) => {
    if (event === 'hidden') releaseAll();
  });
  const lock = browserWakeLock({ browserLock: has ? { request } : undefined, pageLife, clocks: clocks.clocks, log });
  return {
    lock,
    pageLife,
    log,
    clocks,
    sentinels,
    releaseAll,
    give: (does: boolean) => {
      gives = does;
    },
    keepWaiting: () => {
      answers = false;
    },
    answerAll: async () => {
      answers = true;
      for (const go of waiting) go();
      waiting = [];
      await settle();
    },
    pass: () => clocks.advanceSettling(10_000),
    held: () => sentinels.filter(({ released }) => !released).length,
  };
}

wakeLockContract('of the browser', () => {
  const none = phone(false);
  const real = phone();
  let has = true;
  const now = () => (has ? real : none);
  return {
    lock: {
      want: (wanted) => now().lock.want(wanted),
      fact: () => now().lock.fact(),
      listen: (hear) => now().lock.listen(hear),
    },
    pageLife: real.pageLife,
    answer: (how) => {
      has = how !== 'hasNone';
      real.give(how === 'gives');
    },
    takeBack: real.releaseAll,
    pass: real.pass,
  };
});

describe('the wake lock of the browser', () => {
  test('asks once while the answer is out, and holds no more than one', async () => {
    const { lock, keepWaiting, answerAll, held, sentinels } = phone();
    keepWaiting();
    lock.want(true);
    lock.want(true);
    await answerAll();
    lock.want(true);
    await settle();
    expect(sentinels).toHaveLength(1);
    expect(held()).toBe(1);
  });

  test('asks once while the answer is out, however often the page comes back', async () => {
    const { lock, pageLife, keepWaiting, answerAll, sentinels } = phone();
    keepWaiting();
    lock.want(true);
    pageLife.focus();
    pageLife.focus();
    await answerAll();
    expect(sentinels).toHaveLength(1);
  });

  test('is not lost when a lock that was let go says so late', async () => {
    const { lock, sentinels } = phone();
    lock.want(true);
    await settle();
    const [first] = sentinels;
    if (first === undefined) throw new Error('nothing was given');
    first.isSlow = true;
    lock.want(false);
    lock.want(true);
    await settle();
    first.tellLater?.();
    expect(lock.fact()).toBe('asked');
  });

  test('lets go of what is given after it is no longer wanted', async () => {
    const { lock, keepWaiting, answerAll, held, sentinels } = phone();
    keepWaiting();
    lock.want(true);
    lock.want(false);
    await answerAll();
    expect(sentinels).toHaveLength(1);
    expect(held()).toBe(0);
    expect(lock.fact()).toBe('notWanted');
  });

  test('lets go when it is no longer wanted', async () => {
    const { lock, held } = phone();
    lock.want(true);
    await settle();
    expect(held()).toBe(1);
    lock.want(false);
    await settle();
    expect(held()).toBe(0);
  });

  test('does not repeat a refused wish at every look, but every five seconds', async () => {
    const { lock, give, clocks, log } = phone();
    give(false);
    for (let look = 0; look < 20; look += 1) {
      lock.want(true);
      await clocks.advanceSettling(1000);
    }
    const refusals = log.whats().filter((what) => what === 'wake lock: refused').length;
    expect(refusals).toBeGreaterThan(2);
    expect(refusals).toBeLessThan(6);
  });

  test('holds one again after the page was hidden ten times', async () => {
    const { lock, pageLife, held, sentinels } = phone();
    lock.want(true);
    await settle();
    for (let time = 0; time < 10; time += 1) {
      pageLife.hide();
      pageLife.show();
      await settle();
    }
    expect(held()).toBe(1);
    expect(sentinels).toHaveLength(11);
  });

  test('waits for the page to be seen before it asks', async () => {
    const { lock, pageLife, log } = phone();
    pageLife.hide();
    lock.want(true);
    await settle();
    expect(lock.fact()).toBe('lost');
    expect(log.whats()).toEqual([]);
    pageLife.show();
    await settle();
    expect(lock.fact()).toBe('asked');
  });
});
