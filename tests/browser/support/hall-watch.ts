import type { BrowserContext, Page } from 'playwright-core';

/** What the hall root said at one instant of the page's clocks; all as it stands in the attributes. */
export type HallSeen = {
  readonly monoMs: number;
  readonly wallMs: number;
  readonly status: string;
  readonly kind: string;
  readonly span: string;
  readonly moves: string;
  readonly side: string;
  readonly left: string;
  readonly kept: string;
};

/** Everything that the page saw of itself. */
export type HallWatch = {
  /** One line each time any attribute of the hall root changed. */
  readonly seen: HallSeen[];
  /** Instants of pressing and what was pressed: a button's name or a key. */
  readonly presses: { readonly what: string; readonly monoMs: number }[];
  /** Stretches in which the page got no time at all: nothing in it could have been on time then. */
  readonly stalls: { readonly fromMs: number; readonly toMs: number }[];
  /** What the content security policy kept from happening. */
  readonly violations: string[];
};

declare global {
  interface Window {
    hallWatch: HallWatch;
    readHall: () => HallSeen;
    /** Set by `tellHall`. */
    tellHall?: (seen: HallSeen) => void;
  }
}

/** Makes every page from now on watch its own hall, by its own clock. */
export async function watchHalls(context: Pick<BrowserContext | Page, 'addInitScript'>): Promise<void> {
  await context.addInitScript(watchInPage);
}

function watchInPage(): void {
  const watch: HallWatch = { seen: [], presses: [], stalls: [], violations: [] };
  const NAMES = ['status', 'kind', 'span', 'moves', 'side', 'left', 'kept'] as const;

  const read = (): HallSeen => {
    const root = document.querySelector('[data-hall]');
    const [status, kind, span, moves, side, left, kept] = NAMES.map((name) => root?.getAttribute(`data-${name}`) ?? '');
    const texts = { status, kind, span, moves, side, left, kept } as Record<(typeof NAMES)[number], string>;
    return { monoMs: performance.now(), wallMs: Date.now(), ...texts };
  };

  let before = '';
  const note = (): void => {
    const now = read();
    const text = NAMES.map((name) => now[name]).join('|');
    if (text === before) return;
    before = text;
    watch.seen.push(now);
    window.tellHall?.(now);
  };

  const notePress = (what: string): void => void watch.presses.push({ what, monoMs: performance.now() });
  addEventListener(
    'click',
    ({ target }) => {
      const button = target instanceof Element ? target.closest('button') : null;
      if (button !== null) notePress(button.getAttribute('aria-label') ?? button.textContent ?? '');
    },
    true,
  );
  addEventListener('keydown', ({ key }) => notePress(key), true);
  addEventListener('securitypolicyviolation', ({ blockedURI }) => watch.violations.push(blockedURI));

  let lastMs = performance.now();
  const feelStall = (): void => {
    const nowMs = performance.now();
    if (nowMs - lastMs > 60) watch.stalls.push({ fromMs: lastMs, toMs: nowMs });
    lastMs = nowMs;
    setTimeout(feelStall, 20);
  };
  feelStall();

  const attributeFilter = NAMES.map((name) => `data-${name}`);
  new MutationObserver(note).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter });
  window.hallWatch = watch;
  window.readHall = read;
}

/** All that the page has seen so far. */
export function readWatch(page: Page): Promise<HallWatch> {
  return page.evaluate(() => window.hallWatch);
}

/** The hall root now, with the page's clocks. */
export function hallNow(page: Page): Promise<HallSeen> {
  return page.evaluate(() => window.readHall());
}
