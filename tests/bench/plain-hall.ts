import { setTimeout as wait } from 'node:timers/promises';
import type { Page } from 'playwright-core';

// The hall by hand, without any watcher in the page: what watches takes time of its own.

const LIMIT_MS = 20_000;
const LOOK_MS = 100;

/** Looks now and then until the hall root says so; throws where it never does. */
async function untilSays(page: Page, name: string, fits: (value: string) => boolean): Promise<void> {
  const endMs = Date.now() + LIMIT_MS;
  for (;;) {
    const value = await page.evaluate((key) => document.querySelector('[data-hall]')?.getAttribute(key) ?? '', name);
    if (fits(value)) return;
    if (Date.now() > endMs) throw new Error(`the hall's ${name} is "${value}"`);
    await wait(LOOK_MS);
  }
}

export function untilStatus(page: Page, status: string): Promise<void> {
  return untilSays(page, 'data-status', (value) => value === status);
}

/** Until the first mark is stored. */
export function untilKept(page: Page): Promise<void> {
  return untilSays(page, 'data-kept', (value) => value !== '');
}

/** Opens the app, waits for the worker that keeps it, and stands in the hall of its demo class. */
export async function enterHall(page: Page, url: string): Promise<void> {
  await page.goto(url);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await page.goto(`${url}/#/hall/demo-class`);
  await untilStatus(page, 'ready');
}

/** Presses "Start class". */
export function pressStart(page: Page): Promise<void> {
  return page.getByRole('button', { name: 'Start class', exact: true }).click();
}
