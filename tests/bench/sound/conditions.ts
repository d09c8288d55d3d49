import { setTimeout as wait } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import type { OpenChromium } from '../../browser/support/chromium.ts';
import type { Condition } from './run-class.ts';
import type { SoundServer } from './sound-server.ts';

const BLOCK_MS = 3000;
const BREATH_MS = 600;
const SLOWED = 6;
/** When a disturbance comes in a class, and how long it lasts. */
const AWAY_FROM_MS = 9000;
const AWAY_MS = 4000;

export const undisturbed: Condition = async () => undefined;

/** The page's thread does nothing else for three seconds, again and again. */
export const blocked: Condition = async ({ page }, untilMs) => {
  const endMs = Date.now() + untilMs;
  while (Date.now() < endMs) {
    await page.evaluate((blockMs) => {
      const blockedUntil = performance.now() + blockMs;
      while (performance.now() < blockedUntil);
    }, BLOCK_MS);
    await wait(BREATH_MS);
  }
};

/** The page's thread runs at a sixth of its speed. */
export const slowed: Condition = async (phone) => slowDown(phone, phone.page, SLOWED);

/** Another page stands in front; this one's timers are held back as they are for everyone. */
export const hidden: Condition = async ({ context }) => {
  const other = await context.newPage();
  await other.bringToFront();
};

/** The browser freezes the page, as it does with pages that nobody looks at. */
export const frozenForAWhile: Condition = async ({ context, page }) => {
  await wait(AWAY_FROM_MS);
  const session = await context.newCDPSession(page);
  const other = await context.newPage();
  await other.bringToFront();
  await session.send('Page.setWebLifecycleState', { state: 'frozen' });
  await wait(AWAY_MS);
  await session.send('Page.setWebLifecycleState', { state: 'active' });
  await page.bringToFront();
  await other.close();
};

/** Slows the page's thread down, for good. */
export async function slowDown({ context }: Pick<OpenChromium, 'context'>, page: Page, rate: number): Promise<void> {
  const session = await context.newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate });
}

/** The sink stands still, as when a loudspeaker goes to sleep, and goes on. `backMonoMs`: when it did, by the page's clock. */
export function sinkSuspendedForAWhile({ suspendSink }: Pick<SoundServer, 'suspendSink'>) {
  let backMonoMs = Number.NaN;
  const during: Condition = async ({ page }) => {
    await wait(AWAY_FROM_MS);
    suspendSink(true);
    await wait(AWAY_MS);
    suspendSink(false);
    backMonoMs = await page.evaluate(() => performance.now());
  };
  return { during, backMonoMs: () => backMonoMs };
}
