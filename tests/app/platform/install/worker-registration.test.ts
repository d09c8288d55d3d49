import { describe, expect, it } from 'vitest';
import { registerWorker, type WorkerLink } from '../../../../app/platform/install/worker-registration.ts';
import type { OfflineFact } from '../../../../src/ports/offline-copy.ts';
import type { PageEvent } from '../../../../src/ports/page-life.ts';
import { fakeClocks, settle } from '../../../fakes/fake-clocks.ts';

type Moment = 'activated' | 'controlling' | 'redundant' | 'waiting';
type Case = {
  readonly active?: boolean;
  readonly registers?: 'refused';
  readonly updates?: 'refused';
  readonly none?: true;
};

/** A page with a worker link that says what the test lets it say, painted at once and idle whenever asked. */
function aPage(given: Case = {}) {
  const clock = fakeClocks();
  const calls = { registered: 0, looked: 0, skipped: 0, reloaded: 0, notes: 0 };
  const is = { live: false, visible: true, refused: given.registers === 'refused' };
  const hearers = new Map<Moment, Set<() => void>>();
  const pageHearers = new Set<(event: PageEvent) => void>();
  const waitingForPaint: (() => void)[] = [];

  const makeLink = (): WorkerLink => ({
    register: async () => {
      calls.registered += 1;
      if (is.refused) throw new Error('no network');
      return { active: given.active === true ? {} : null };
    },
    update: async () => {
      calls.looked += 1;
      if (given.updates === 'refused') throw new Error('no network');
    },
    messageSkipWaiting: () => {
      calls.skipped += 1;
    },
    addEventListener: (type, hear) => {
      const some = hearers.get(type) ?? new Set();
      hearers.set(type, some.add(hear));
    },
  });

  const copy = registerWorker({
    makeLink: given.none === true ? null : makeLink,
    isLive: () => is.live,
    reload: () => {
      calls.reloaded += 1;
    },
    afterFirstPaint: (work) => void waitingForPaint.push(work),
    whenIdle: (work) => work(),
    pageLife: {
      isVisible: () => is.visible,
      listen: (hear) => {
        pageHearers.add(hear);
        return () => pageHearers.delete(hear);
      },
    },
    timers: clock.timers,
    log: {
      note: () => {
        calls.notes += 1;
      },
    },
  });
  const facts: OfflineFact[] = [];
  copy.listen((fact) => facts.push(fact));

  return {
    copy,
    calls,
    is,
    facts,
    clock,
    paint: async () => {
      for (const work of waitingForPaint.splice(0)) work();
      await settle();
    },
    happens: (moment: Moment) => {
      for (const hear of hearers.get(moment) ?? []) hear();
    },
    page: async (event: PageEvent) => {
      for (const hear of pageHearers) hear(event);
      await settle();
    },
  };
}

async function paintedPage(given: Case = {}) {
  const page = aPage(given);
  await page.paint();
  return page;
}

async function pageWithNewVersion() {
  const page = await paintedPage({ active: true });
  page.happens('waiting');
  return page;
}

describe('the copy of the app on the phone', () => {
  it('waits for the first picture before it registers', async () => {
    const page = aPage();
    await settle();
    expect(page.calls.registered).toBe(0);
    await page.paint();
    expect(page.calls.registered).toBe(1);
  });

  it('is ready only once the worker is active, not when registering went well', async () => {
    const page = await paintedPage();
    expect(page.copy.fact()).toBe('installing');
    page.happens('activated');
    expect(page.copy.fact()).toBe('ready');
  });

  it('is ready at once where a worker was active before', async () => {
    const page = await paintedPage({ active: true });
    expect(page.facts).toEqual(['ready']);
  });

  it('says so where the browser has no workers', async () => {
    const page = await paintedPage({ none: true });
    await page.copy.lookForUpdate();
    expect(page.copy.fact()).toBe('notSupported');
    expect(page.copy.applyUpdate()).toBe('nothingWaiting');
  });

  it('has failed when registering was refused', async () => {
    const page = await paintedPage({ registers: 'refused' });
    expect(page.facts).toEqual(['failed']);
  });

  it('has failed when the first install broke off', async () => {
    const page = await paintedPage();
    page.happens('redundant');
    expect(page.copy.fact()).toBe('failed');
  });

  it('stays ready when a newer version breaks off', async () => {
    const page = await paintedPage({ active: true });
    page.happens('redundant');
    expect(page.copy.fact()).toBe('ready');
  });

  it('tries again after a failure when the page is seen', async () => {
    const page = await paintedPage({ registers: 'refused' });
    page.is.refused = false;
    await page.page('visible');
    page.happens('activated');
    expect(page.calls.registered).toBe(2);
    expect(page.facts).toEqual(['failed', 'installing', 'ready']);
  });
});

describe('a newer version', () => {
  it('is told and never opens the page again by itself', async () => {
    const page = await pageWithNewVersion();
    page.happens('controlling');
    page.clock.advance(60_000);
    expect(page.facts).toEqual(['ready', 'waiting']);
    expect(page.calls).toMatchObject({ skipped: 0, reloaded: 0 });
  });

  it('takes over when asked, and the page opens again once it has', async () => {
    const page = await pageWithNewVersion();
    expect(page.copy.applyUpdate()).toBe('begun');
    expect(page.calls).toMatchObject({ skipped: 1, reloaded: 0 });
    page.happens('controlling');
    page.happens('activated');
    page.clock.advance(60_000);
    expect(page.calls.reloaded).toBe(1);
  });

  it('opens the page again after four seconds where the browser never says that it took over', async () => {
    const page = await pageWithNewVersion();
    page.copy.applyUpdate();
    page.clock.advance(3999);
    expect(page.calls.reloaded).toBe(0);
    page.clock.advance(1);
    expect(page.calls.reloaded).toBe(1);
  });

  it('is refused while a class is live', async () => {
    const page = await pageWithNewVersion();
    page.is.live = true;
    expect(page.copy.applyUpdate()).toBe('classIsLive');
    page.clock.advance(60_000);
    expect(page.calls).toMatchObject({ skipped: 0, reloaded: 0 });
  });

  it('leaves a class alone that began after it was asked for', async () => {
    const page = await pageWithNewVersion();
    page.copy.applyUpdate();
    page.is.live = true;
    page.happens('controlling');
    page.clock.advance(60_000);
    page.is.live = false;
    page.happens('controlling');
    expect(page.calls.reloaded).toBe(0);
  });

  it('is not there to be asked for while none waits', async () => {
    const page = await paintedPage({ active: true });
    expect(page.copy.applyUpdate()).toBe('nothingWaiting');
    expect(page.calls.skipped).toBe(0);
  });
});

describe('looking for a newer version', () => {
  it('happens when the page is seen again, not when it is hidden', async () => {
    const page = await paintedPage({ active: true });
    await page.page('hidden');
    expect(page.calls.looked).toBe(0);
    await page.page('visible');
    expect(page.calls.looked).toBe(1);
  });

  it('does not happen when the page was hidden again before there was time', async () => {
    const page = await paintedPage({ active: true });
    page.is.visible = false;
    await page.page('visible');
    expect(page.calls.looked).toBe(0);
  });

  it('does not happen in a class', async () => {
    const page = await paintedPage({ active: true });
    page.is.live = true;
    await page.page('visible');
    await page.copy.lookForUpdate();
    expect(page.calls.looked).toBe(0);
  });

  it('changes nothing without a network, twenty times over', async () => {
    const page = await paintedPage({ active: true, updates: 'refused' });
    for (let times = 0; times < 20; times += 1) await page.copy.lookForUpdate();
    expect(page.facts).toEqual(['ready']);
    expect(page.calls).toMatchObject({ looked: 20, notes: 20 });
  });

  it('happens once at a time', async () => {
    const page = await paintedPage({ active: true });
    await Promise.all([page.copy.lookForUpdate(), page.copy.lookForUpdate()]);
    expect(page.calls.looked).toBe(1);
  });

  it('tells nobody who stopped listening', async () => {
    const page = aPage({ active: true });
    const heard: OfflineFact[] = [];
    page.copy.listen((fact) => heard.push(fact))();
    await page.paint();
    expect(heard).toEqual([]);
    expect(page.facts).toEqual(['ready']);
  });
});
