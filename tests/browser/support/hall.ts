import { setTimeout as wait } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { writePlanFile } from '../../../src/exchange/plan-file.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import { type HallSeen, hallNow } from './hall-watch.ts';

/** Looks at the hall until it is as wanted, and gives what was seen then; throws with the last look where it never is. */
export async function untilHall(page: Page, fits: (seen: HallSeen) => boolean, limitMs = 15_000): Promise<HallSeen> {
  const endMs = Date.now() + limitMs;
  for (;;) {
    const seen = await hallNow(page);
    if (fits(seen)) return seen;
    if (Date.now() > endMs) throw new Error(`the hall never came to ${fits}: ${JSON.stringify(seen)}`);
    await wait(20);
  }
}

/** Until the hall is in this status. */
export function untilStatus(page: Page, status: string): Promise<HallSeen> {
  return untilHall(page, (seen) => seen.status === status);
}

/** Presses the button of exactly this name, by pointer. */
export function press(page: Page, name: string): Promise<void> {
  return page.getByRole('button', { name, exact: true }).click();
}

/** Holds the button of this name for as long. */
export async function hold(page: Page, name: string, holdMs: number): Promise<void> {
  await page.getByRole('button', { name, exact: true }).hover();
  await page.mouse.down();
  await wait(holdMs);
  await page.mouse.up();
}

/** Takes a plan in as a person does: by "Open a plan file" on the page of plans. */
export async function openPlanFile(page: Page, url: string, plan: Plan): Promise<void> {
  await page.goto(`${url}/#/plans`);
  const buffer = Buffer.from(writePlanFile(plan, []));
  await page.getByLabel('Open a plan file').setInputFiles({ name: 'plan.json', mimeType: 'application/json', buffer });
  await page.getByRole('link', { name: plan.name, exact: true }).last().waitFor();
}

/** Goes into the hall of a plan and waits until it can be started. */
export async function enterHall(page: Page, url: string, planId: string): Promise<void> {
  await page.goto(`${url}/#/hall/${planId}`);
  await untilStatus(page, 'ready');
}

/** Goes into the hall of a plan and starts the class. */
export async function startClass(page: Page, url: string, planId: string): Promise<HallSeen> {
  await enterHall(page, url, planId);
  await press(page, 'Start class');
  return untilHall(page, ({ status }) => status === 'running' || status === 'waiting');
}

/** Everything that the screen says of its condition, piece by piece. */
export async function sayings(page: Page): Promise<readonly string[]> {
  const all = await page.getByRole('status').allTextContents();
  return all.flatMap((text) => text.split(' · ')).filter((text) => text !== '');
}

/** Waits until the screen says so, in exactly these words. */
export async function untilSaid(page: Page, text: string, limitMs = 8000): Promise<void> {
  await expect.poll(() => sayings(page), { timeout: limitMs }).toContain(text);
}
