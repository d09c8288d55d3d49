import { describe, expect, test } from 'vitest';
import { browserWindowLock } from '../../../../app/platform/store/browser-window-lock.ts';
import { settle } from '../../../fakes/fake-clocks.ts';
import { fakeLocks } from '../../../fakes/fake-locks.ts';
import { memoryLog } from '../../../fakes/memory-log.ts';

/** One window of a phone, and what was said to it, in order. */
function aWindow(locks: LockManager | undefined) {
  const log = memoryLog();
  const lock = browserWindowLock({ locks, log });
  const said: string[] = [];
  lock.onLost(() => said.push('lost'));
  const say = (word: string) => () => {
    said.push(word);
  };
  return {
    said,
    log,
    lock,
    hold: () => lock.hold(say('held'), say('waiting')),
    take: () => lock.takeFromOther(say('taken')),
  };
}

describe('with the locks of a browser', () => {
  test('the first window has it, without having waited', async () => {
    const one = aWindow(fakeLocks().locks);
    one.hold();
    expect(one.said).toEqual([]);
    await settle();
    expect(one.said).toEqual(['held']);
  });

  test('the second one waits and has it when the first lets go', async () => {
    const { locks } = fakeLocks();
    const [one, two] = [aWindow(locks), aWindow(locks)];
    const letGo = one.hold();
    await settle();
    two.hold();
    await settle();
    expect(two.said).toEqual(['waiting']);
    letGo();
    await settle();
    expect([one.said, two.said]).toEqual([['held'], ['waiting', 'held']]);
  });

  test('taking it tells the other window that it is lost, once', async () => {
    const { locks } = fakeLocks();
    const [one, two] = [aWindow(locks), aWindow(locks)];
    const letGo = one.hold();
    await settle();
    two.take();
    await settle();
    expect([one.said, two.said]).toEqual([['held', 'lost'], ['taken']]);
    letGo();
    await settle();
    expect([one.said, two.said]).toEqual([['held', 'lost'], ['taken']]);
  });

  test('a window that waited may take it, and is then told once only', async () => {
    const { locks, waiting } = fakeLocks();
    const [one, two] = [aWindow(locks), aWindow(locks)];
    one.hold();
    await settle();
    two.hold();
    await settle();
    const letGo = two.take();
    await settle();
    expect([two.said, waiting()]).toEqual([['waiting', 'taken'], 0]);
    letGo();
    await settle();
    expect(two.said).toEqual(['waiting', 'taken']);
  });

  test('it can be taken back and forth', async () => {
    const { locks } = fakeLocks();
    const [one, two] = [aWindow(locks), aWindow(locks)];
    one.hold();
    await settle();
    two.take();
    await settle();
    one.take();
    await settle();
    expect([one.said, two.said]).toEqual([
      ['held', 'lost', 'taken'],
      ['taken', 'lost'],
    ]);
  });

  test('who lets go while waiting waits no more and is never told', async () => {
    const { locks, waiting } = fakeLocks();
    const [one, two] = [aWindow(locks), aWindow(locks)];
    const letGoOne = one.hold();
    await settle();
    const letGoTwo = two.hold();
    await settle();
    letGoTwo();
    letGoOne();
    await settle();
    expect([two.said, waiting(), two.log.whats()]).toEqual([['waiting'], 0, []]);
  });

  test.each(['hold', 'take'] as const)(
    'letting go at once after %s leaves the lock free and says nothing',
    async (how) => {
      const { locks, isHeld } = fakeLocks();
      const one = aWindow(locks);
      one[how]()();
      await settle();
      expect([one.said, isHeld()]).toEqual([[], false]);
    },
  );

  /** How many settled promises to let run on before letting go: the browser may be anywhere in its answer by then. */
  const turns = [0, 1, 2, 3, 4, 5, 6, 7, 8];

  test.each(turns)('letting go after %i turns leaves the lock free and says nothing any more', async (count) => {
    const { locks, isHeld } = fakeLocks();
    const one = aWindow(locks);
    const letGo = one.hold();
    for (let turn = 0; turn < count; turn += 1) await Promise.resolve();
    letGo();
    const saidBefore = [...one.said];
    await settle();
    expect([one.said, isHeld()]).toEqual([saidBefore, false]);
  });

  test.each(turns)('letting go of a lock that another has, after %i turns, says nothing any more', async (count) => {
    const { locks, waiting } = fakeLocks();
    const [one, two] = [aWindow(locks), aWindow(locks)];
    one.hold();
    await settle();
    const letGo = two.hold();
    for (let turn = 0; turn < count; turn += 1) await Promise.resolve();
    letGo();
    const saidBefore = [...two.said];
    await settle();
    expect([two.said, waiting()]).toEqual([saidBefore, 0]);
  });

  test('letting go frees it, is harmless twice and is no loss', async () => {
    const { locks, isHeld } = fakeLocks();
    const one = aWindow(locks);
    const letGo = one.hold();
    await settle();
    letGo();
    letGo();
    await settle();
    expect([one.said, isHeld(), one.log.whats()]).toEqual([['held'], false, []]);
  });

  test('who no longer listens is not told of the loss', async () => {
    const { locks } = fakeLocks();
    const [one, two] = [aWindow(locks), aWindow(locks)];
    const heard: string[] = [];
    one.lock.onLost(() => heard.push('lost'))();
    one.hold();
    await settle();
    two.take();
    await settle();
    expect([heard, one.said]).toEqual([[], ['held', 'lost']]);
  });
});

describe('without locks', () => {
  test.each(['hold', 'take'] as const)(
    'every window has it after %s, not before the call has returned',
    async (how) => {
      const one = aWindow(undefined);
      one[how]();
      expect(one.said).toEqual([]);
      await settle();
      expect(one.said).toEqual([how === 'hold' ? 'held' : 'taken']);
    },
  );

  test('who lets go at once is not told', async () => {
    const one = aWindow(undefined);
    one.hold()();
    await settle();
    expect(one.said).toEqual([]);
  });

  test('a browser that refuses them for this page counts as having none', async () => {
    const refusing = {
      request: () => Promise.reject(new DOMException('not here', 'SecurityError')),
    } as unknown as LockManager;
    const one = aWindow(refusing);
    one.hold();
    await settle();
    expect([one.said, one.log.whats()]).toEqual([['held'], ['window lock: lost or refused']]);
  });
});
