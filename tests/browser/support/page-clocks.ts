import type { BrowserContext, Page } from 'playwright-core';

declare global {
  interface Window {
    /** How far the monotonic clock has stood still, ms. */
    sleptMs: number;
  }
}

const KEY = 'test-wall-ahead-ms';

/** Pages of the context have a wall clock that `moveWall` moves, and that stays moved over a reload. */
export async function movableWall(context: Pick<BrowserContext | Page, 'addInitScript'>): Promise<void> {
  await context.addInitScript((key) => {
    const trueNow = Date.now.bind(Date);
    Date.now = () => trueNow() + Number(sessionStorage.getItem(key) ?? 0);
  }, KEY);
}

/** Sets the wall clock of the page by so much ahead of the true one; negative is behind. */
export async function setWallAhead(page: Page, byMs: number): Promise<void> {
  await page.evaluate(([key, ms]) => sessionStorage.setItem(key, ms), [KEY, String(byMs)] as const);
}

/**
 * Pages of the context have a monotonic clock that stands still while they are frozen, as that of a phone does while it
 * sleeps (w3c/hr-time 115: on every system but one). Chromium's own goes on in a freeze.
 */
export async function sleepyClock(context: Pick<BrowserContext | Page, 'addInitScript'>): Promise<void> {
  await context.addInitScript(() => {
    const trueNow = performance.now.bind(performance);
    let frozeMs: number | null = null;
    window.sleptMs = 0;
    performance.now = () => (frozeMs ?? trueNow()) - window.sleptMs;
    document.addEventListener('freeze', () => {
      frozeMs = trueNow();
    });
    document.addEventListener('resume', () => {
      if (frozeMs !== null) window.sleptMs += trueNow() - frozeMs;
      frozeMs = null;
    });
  });
}
