import { Workbox } from 'workbox-window';
import type { Timers } from '../../../src/ports/clocks.ts';
import type { Log } from '../../../src/ports/log.ts';
import type { OfflineCopy, OfflineFact } from '../../../src/ports/offline-copy.ts';
import type { PageLife } from '../../../src/ports/page-life.ts';

/** As much of workbox-window as is used; its own class fits. */
export type WorkerLink = {
  readonly register: () => Promise<{ readonly active: unknown } | undefined>;
  readonly update: () => Promise<void>;
  readonly messageSkipWaiting: () => void;
  readonly addEventListener: (type: 'activated' | 'controlling' | 'redundant' | 'waiting', hear: () => void) => void;
};

export type WorkerNeeds = {
  /** Null where the browser has no workers for this address. */
  readonly makeLink: (() => WorkerLink) | null;
  readonly isLive: () => boolean;
  readonly reload: () => void;
  /** Runs the work once the first picture is on the screen. */
  readonly afterFirstPaint: (work: () => void) => void;
  readonly whenIdle: (work: () => void) => void;
  readonly pageLife: PageLife;
  readonly timers: Timers;
  readonly log: Log;
};

/** WebKit may never say that the new worker took over (koala73/worldmonitor PR 1662). */
const TAKE_OVER_MS = 4000;

/** Keeps the app on the phone by its service worker. The page is opened again only after `applyUpdate`. */
export function registerWorker(needs: WorkerNeeds): OfflineCopy {
  const { makeLink, isLive, log } = needs;
  const hearers = new Set<(fact: OfflineFact) => void>();
  let fact: OfflineFact = makeLink === null ? 'notSupported' : 'installing';
  let link: WorkerLink | null = null;
  let isApplying = false;
  let isLooking = false;

  function tell(now: OfflineFact): void {
    if (fact === now) return;
    fact = now;
    for (const hear of [...hearers]) hear(now);
  }

  function finishApplying(): void {
    if (!isApplying) return;
    isApplying = false;
    // A class begun meanwhile goes on; the new version comes when the app is next opened.
    if (!isLive()) needs.reload();
  }

  function listenTo(made: WorkerLink): void {
    // Not told apart by `isUpdate`: after a plain reload a version that waits comes without it.
    made.addEventListener('waiting', () => tell('waiting'));
    made.addEventListener('controlling', finishApplying);
    made.addEventListener('activated', () => {
      tell('ready');
      finishApplying();
    });
    // One file that cannot be fetched ends the whole install, long after `register` went well
    // (GoogleChrome/workbox#1832). With an older copy at hand that one goes on serving.
    made.addEventListener('redundant', () => {
      if (fact === 'installing') tell('failed');
    });
  }

  async function register(): Promise<void> {
    if (makeLink === null) return;
    try {
      const made = makeLink();
      listenTo(made);
      const registration = await made.register();
      link = made;
      if (fact === 'installing' && registration?.active) tell('ready');
    } catch (error) {
      log.note('the worker was not registered', error);
      tell('failed');
    }
  }

  async function look(): Promise<void> {
    try {
      if (fact !== 'failed') return await link?.update();
      tell('installing');
      await register();
    } catch (error) {
      // Without a network every look fails: that is no news.
      log.note('no look for a newer version', error);
    }
  }

  const copy: OfflineCopy = {
    fact: () => fact,
    listen: (hear) => {
      hearers.add(hear);
      return () => hearers.delete(hear);
    },
    applyUpdate: () => {
      if (isLive()) return 'classIsLive';
      if (fact !== 'waiting' || link === null) return 'nothingWaiting';
      isApplying = true;
      needs.timers.after(TAKE_OVER_MS, finishApplying);
      link.messageSkipWaiting();
      return 'begun';
    },
    lookForUpdate: async () => {
      if (isLooking || isLive()) return;
      isLooking = true;
      await look();
      isLooking = false;
    },
  };

  needs.afterFirstPaint(() => void register());
  // An app on the home screen may stay open for weeks and is then never told of a new version.
  needs.pageLife.listen((event) => {
    if (event !== 'visible') return;
    needs.whenIdle(() => {
      if (needs.pageLife.isVisible()) void copy.lookForUpdate();
    });
  });
  return copy;
}

/** What a browser gives of the needs. */
export function browserWorkerNeeds(): Pick<WorkerNeeds, 'makeLink' | 'reload' | 'afterFirstPaint' | 'whenIdle'> {
  const isSupported = window.isSecureContext && 'serviceWorker' in navigator;
  return {
    makeLink: isSupported ? () => new Workbox('./worker.js') : null,
    reload: () => location.reload(),
    // The frame in which the first picture is drawn, then the first moment after it.
    afterFirstPaint: (work) => void requestAnimationFrame(() => setTimeout(work)),
    whenIdle: (work) => void ('requestIdleCallback' in window ? requestIdleCallback(work) : setTimeout(work, 1000)),
  };
}
