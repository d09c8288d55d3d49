import type { Clocks } from '../../../src/ports/clocks.ts';
import type { Log } from '../../../src/ports/log.ts';
import type { PageLife } from '../../../src/ports/page-life.ts';
import type { WakeFact, WakeLock } from '../../../src/ports/wake-lock.ts';
import { toldFact } from '../hearers.ts';
import { isBack } from '../page-life.ts';

/** As much of a browser's sentinel as is used. */
export type Sentinel = {
  readonly released: boolean;
  readonly release: () => Promise<void>;
  readonly addEventListener: (type: 'release', hear: () => void) => void;
};

export type WakeLockNeeds = {
  /** The browser's `navigator.wakeLock`; undefined where there is none or the page came over plain http. */
  readonly browserLock: { readonly request: (type: 'screen') => Promise<Sentinel> } | undefined;
  readonly pageLife: PageLife;
  readonly clocks: Clocks;
  readonly log: Log;
};

/** A refusal on low battery would be repeated at every look; coming back to the page asks at once. */
const ASK_AGAIN_MS = 5000;

/**
 * The screen's wake lock. The browser drops it whenever the page is hidden and never brings it back, so what counts is
 * `isWanted`, not whether a sentinel is there (w3c/screen-wake-lock 132).
 */
export function browserWakeLock({ browserLock, pageLife, clocks, log }: WakeLockNeeds): WakeLock {
  const { fact, become, listen } = toldFact<WakeFact>('notWanted');
  let isWanted = false;
  let isAsking = false;
  let held: Sentinel | null = null;
  let askedMonoMs = Number.NEGATIVE_INFINITY;

  const letGo = (sentinel: Sentinel) => {
    sentinel.release().catch((error: unknown) => log.note('wake lock: release failed', error));
  };

  const onReleased = (sentinel: Sentinel) => {
    if (held !== sentinel) return;
    held = null;
    if (isWanted) become('lost');
  };

  const onGiven = (sentinel: Sentinel) => {
    isAsking = false;
    if (!isWanted) return letGo(sentinel);
    held = sentinel;
    sentinel.addEventListener('release', () => onReleased(sentinel));
    // Released between the promise and this listener: no event will come.
    if (sentinel.released) onReleased(sentinel);
    else become('asked');
  };

  const onRefused = (error: unknown) => {
    isAsking = false;
    log.note('wake lock: refused', error);
    if (isWanted) become('refused');
  };

  const ask = () => {
    const isHeld = held !== null && !held.released;
    if (!isWanted || isHeld || isAsking) return;
    if (browserLock === undefined) return become('absent');
    // Asking a hidden page's lock is always refused.
    if (!pageLife.isVisible()) return become('lost');
    isAsking = true;
    askedMonoMs = clocks.monoMs();
    browserLock.request('screen').then(onGiven, onRefused);
  };

  pageLife.listen((event) => {
    if (isBack(event)) ask();
  });

  const unwant = () => {
    const sentinel = held;
    held = null;
    become('notWanted');
    if (sentinel !== null) letGo(sentinel);
  };

  return {
    want: (wanted) => {
      const isNews = wanted !== isWanted;
      isWanted = wanted;
      if (!wanted) return unwant();
      if (isNews && browserLock !== undefined && pageLife.isVisible()) become('asked');
      if (isNews || clocks.monoMs() - askedMonoMs >= ASK_AGAIN_MS) ask();
    },
    fact,
    listen,
  };
}
