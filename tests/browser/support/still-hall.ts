import type { BrowserContext, Page } from 'playwright-core';
import type { Plan } from '../../../src/plan/plan.ts';
import { enterHall, openPlanFile, press, untilStatus } from './hall.ts';
import { type HallSeen, hallNow, watchHalls } from './hall-watch.ts';

/**
 * A class just started in which no time passes but by `letRun`: what is on the screen can be looked at for as long as it
 * takes. Without sound, whose clock nobody else can move.
 */
export async function startStillClass(context: BrowserContext, url: string, plan: Plan): Promise<Page> {
  await watchHalls(context);
  await context.addInitScript(() => Reflect.deleteProperty(window, 'AudioContext'));
  await context.clock.install();
  const page = await context.newPage();
  await openPlanFile(page, url, plan);
  await enterHall(page, url, plan.id);
  await page.clock.pauseAt(Date.now() + 60_000);
  await press(page, 'Start class');
  await untilStatus(page, 'running');
  return page;
}

/** Lets so much time pass on every clock of the page. */
export function letRun(page: Page, ms: number): Promise<void> {
  return page.clock.runFor(ms);
}

/** Lets time pass step by step until the hall is as wanted; throws where it does not come to that within 5 minutes. */
export async function letRunUntil(page: Page, fits: (seen: HallSeen) => boolean, stepMs = 250): Promise<HallSeen> {
  for (let ranMs = 0; ranMs < 300_000; ranMs += stepMs) {
    const seen = await hallNow(page);
    if (fits(seen)) return seen;
    await letRun(page, stepMs);
  }
  throw new Error(`the class never came to ${fits}: ${JSON.stringify(await hallNow(page))}`);
}
