import { setTimeout as wait } from 'node:timers/promises';
import type { CDPSession } from 'playwright-core';
import { afterEach, beforeEach, test } from 'vitest';
import { newPhone, type Phone } from '../../browser/support/phone.ts';
import { noteBeside, noteFigure } from '../figure-lines.ts';
import { rounded } from '../numbers.ts';
import { enterHall, pressStart, untilStatus } from '../plain-hall.ts';

const LIMIT_PERCENT = 2;
const SLOWED = 6;
const MEASURED_MS = 33_000;
/** What Start brings with it is over by then. */
const SETTLING_MS = 3000;

let phone: Phone;

beforeEach(async () => {
  phone = await newPhone();
});

afterEach(() => phone.end());

type Times = { readonly scriptSeconds: number; readonly taskSeconds: number };

async function timesOf(session: CDPSession): Promise<Times> {
  const { metrics } = await session.send('Performance.getMetrics');
  const of = (name: string) => metrics.find((metric) => metric.name === name)?.value ?? Number.NaN;
  return { scriptSeconds: of('ScriptDuration'), taskSeconds: of('TaskDuration') };
}

test('script time', async ({ task }) => {
  const { context, page } = await phone.open();
  await page.emulateMedia({ reducedMotion: 'reduce' });
  const session = await context.newCDPSession(page);
  // Time that the page's own thread was at work: not what other programs on the machine took from it.
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  await enterHall(page, phone.url);
  await pressStart(page);
  await untilStatus(page, 'running');
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWED });
  await wait(SETTLING_MS);

  const before = await timesOf(session);
  const fromMs = performance.now();
  await wait(MEASURED_MS);
  const after = await timesOf(session);
  const seconds = (performance.now() - fromMs) / 1000;
  await untilStatus(page, 'running');

  const percent = (from: number, to: number) => (100 * (to - from)) / seconds;
  const where = `slowed ${SLOWED} times, figures still, ${rounded(seconds, 0)} s`;
  const script = percent(before.scriptSeconds, after.scriptSeconds);
  const measured = `${rounded(script, 2)} %`;
  noteFigure(task, {
    figure: 'script time in a running class',
    where,
    value: script,
    limit: LIMIT_PERCENT,
    unit: '%',
    measured,
  });
  const all = `${rounded(percent(before.taskSeconds, after.taskSeconds), 2)} %`;
  noteBeside(task, 'all time of the page’s thread, drawing included', where, all);
});
