import type { Log } from '../../../src/ports/log.ts';
import type { WindowLock } from '../../../src/ports/window-lock.ts';
import { hearers } from '../hearers.ts';

export type WindowLockNeeds = {
  /** The browser's `navigator.locks`; undefined where there is none or the page came over plain http. */
  readonly locks: LockManager | undefined;
  readonly log: Log;
};

const NAME = 'hallpace-class';

/** One wish of this window for the lock, from the asking to the letting go. */
type Claim = { readonly letGo: () => void };

/**
 * The browser's exclusive lock; the browser frees it when the window dies. Where there is none every window has it, and
 * only the fencing number keeps two of them from writing.
 */
export function browserWindowLock({ locks, log }: WindowLockNeeds): WindowLock {
  const { tell, listen } = hearers<undefined>();
  let current: Claim | null = null;

  const claim = (
    held: () => void,
    ask: (locks: LockManager, keep: (lock: Lock | null) => Promise<void>, signal: AbortSignal) => Promise<unknown>,
  ): (() => void) => {
    // One claim a window: who asks again starts afresh and is never told twice.
    current?.letGo();
    const wish = new AbortController();
    let isHeld = false;
    let isOver = false;
    let release = (): void => undefined;

    const begin = (): void => {
      if (isOver) return;
      isHeld = true;
      held();
    };

    const keep = (lock: Lock | null): Promise<void> => {
      if (lock === null || isOver) return Promise.resolve();
      const released = new Promise<void>((resolve) => {
        release = resolve;
      });
      begin();
      return released;
    };

    const onFault = (fault: unknown): void => {
      if (isOver) return;
      log.note('window lock: lost or refused', fault);
      // Never had: refused for this page (no secure origin, document going away), as if the browser had no locks.
      if (!isHeld) {
        begin();
        return;
      }
      isOver = true;
      tell(undefined);
    };

    // Never before this returns, whatever the browser has: `held` may use what is returned here.
    void Promise.resolve()
      .then(() => (isOver ? undefined : locks === undefined ? begin() : ask(locks, keep, wish.signal)))
      .catch(onFault);

    current = {
      letGo: () => {
        isOver = true;
        release();
        wish.abort();
      },
    };
    return current.letGo;
  };

  return {
    hold: (held, waiting) =>
      claim(held, async (manager, keep, signal) => {
        let isFree = false;
        await manager.request(NAME, { ifAvailable: true }, (lock) => {
          isFree = lock !== null;
          return keep(lock);
        });
        if (isFree || signal.aborted) return;
        waiting();
        await manager.request(NAME, { signal }, keep);
      }),
    takeFromOther: (held) => claim(held, (manager, keep) => manager.request(NAME, { steal: true }, keep)),
    onLost: (hear) => listen(hear),
  };
}
