import type { PageLife } from '../../src/ports/page-life.ts';
import type { WakeFact, WakeLock } from '../../src/ports/wake-lock.ts';

export type FakeWakeLock = WakeLock & {
  /** What the phone answers from now on. */
  readonly answer: (how: 'gives' | 'refuses' | 'hasNone') => void;
  /** The phone takes it back while the page is seen, as on low battery. */
  readonly takeBack: () => void;
  readonly isWanted: () => boolean;
};

/** A wake lock without a phone: given at once, dropped whenever the page is hidden. */
export function fakeWakeLock(pageLife: PageLife): FakeWakeLock {
  const hearers = new Set<{ readonly hear: (fact: WakeFact) => void }>();
  let answer: 'gives' | 'refuses' | 'hasNone' = 'gives';
  let isWanted = false;
  let fact: WakeFact = 'notWanted';

  const become = (now: WakeFact) => {
    if (now === fact) return;
    fact = now;
    for (const one of [...hearers]) one.hear(now);
  };
  const ask = () => {
    if (!isWanted) return become('notWanted');
    if (answer === 'hasNone') return become('absent');
    if (!pageLife.isVisible()) return become('lost');
    become(answer === 'gives' ? 'asked' : 'refused');
  };
  pageLife.listen(() => {
    if (isWanted) ask();
  });

  return {
    want: (wanted) => {
      isWanted = wanted;
      ask();
    },
    fact: () => fact,
    listen: (hear) => {
      const one = { hear };
      hearers.add(one);
      return () => {
        hearers.delete(one);
      };
    },
    answer: (how) => {
      answer = how;
    },
    takeBack: () => {
      if (fact === 'asked') become('lost');
    },
    isWanted: () => isWanted,
  };
}
