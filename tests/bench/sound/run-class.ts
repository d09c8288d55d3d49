import { setTimeout as wait } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import type { Plan } from '../../../src/plan/plan.ts';
import type { OpenChromium } from '../../browser/support/chromium.ts';
import type { Phone } from '../../browser/support/phone.ts';
import type { SoundReport } from '../page/sound-page.tsx';
import { benchMoves } from './bench-classes.ts';
import { expectedCues, lengthMsOf } from './expected-cues.ts';

/** What is done to the phone while the class runs, from right after Start until `untilMs` of it have passed. */
export type Condition = (phone: OpenChromium, untilMs: number) => Promise<void>;

/** After the last cue: its ringing out, and time for what comes late. */
const AFTER_MS = 1500;
/** Less than the count-in. */
const TAPS_MS = 3000;

/**
 * Runs a class in real time on the bench's page and gives back all that was heard. Throws where the class did not want
 * the cues that the plan has, for then nothing would be missed.
 */
export async function runClass(
  phone: Phone,
  opened: OpenChromium,
  plan: Plan,
  during: Condition,
): Promise<SoundReport> {
  const { page } = opened;
  await page.goto(`${phone.url}/sound.html`);
  await page.frameLocator('iframe').locator('body').waitFor({ state: 'attached' });
  await page.evaluate(([given, moves]) => window.bench.enter(given, moves), [plan, benchMoves] as const);
  await page.getByRole('button', { name: 'Start class', exact: true }).click();
  const startedMs = Date.now();
  // Before anything is done to the page: a tap that comes late would miss the first cues.
  await page.waitForFunction(() => window.bench.isHeard(), null, { polling: 50, timeout: TAPS_MS });
  await during(opened, lengthMsOf(plan));
  await wait(Math.max(0, startedMs + lengthMsOf(plan) + AFTER_MS - Date.now()));
  const report = await reportOf(page);
  const missed = expectedCues(plan).filter(({ key }) => !report.wanted.some((cue) => cue.key === key));
  if (missed.length > 0) throw new Error(`the class never wanted ${missed.map(({ key }) => key).join(', ')}`);
  return report;
}

function reportOf(page: Page): Promise<SoundReport> {
  return page.evaluate(() => window.bench.report());
}
