import { execFileSync } from 'node:child_process';
import { afterEach, inject, test } from 'vitest';
import { newPhone, type Phone } from '../../browser/support/phone.ts';
import type { EngineTimes } from '../engine/engine-work.ts';
import { noteFigure } from '../figure-lines.ts';
import { medianAndWorst, medianOf } from '../numbers.ts';
import type {} from '../page/engine-page.ts';

const COMPILE_LIMIT_MS = 5;
const REPLAY_LIMIT_MS = 15;

let phone: Phone | null = null;

afterEach(async () => {
  await phone?.end();
  phone = null;
});

type Task = Parameters<typeof noteFigure>[0];

/** By the warm median, as the figure says. */
function note(task: Task, where: string, { compileMs, replayMs }: EngineTimes): void {
  const unit = 'ms';
  const figures = [
    { figure: 'compile of 1,000 spans', times: compileMs, limit: COMPILE_LIMIT_MS },
    { figure: 'replay of 5,000 marks', times: replayMs, limit: REPLAY_LIMIT_MS },
  ];
  for (const { figure, times, limit } of figures) {
    noteFigure(task, { figure, where, value: medianOf(times), limit, unit, measured: medianAndWorst(times, unit, 2) });
  }
}

test('engine in Node', ({ task }) => {
  // A process of its own, so that the code runs as it was built and not as a test runner rewrites it.
  const said = execFileSync(process.execPath, [inject('engineScript')], { encoding: 'utf8' });
  note(task, 'Node', JSON.parse(said));
});

test('engine in Chromium', async ({ task }) => {
  phone = await newPhone(inject('benchPages'));
  const { page } = await phone.open();
  await page.goto(`${phone.url}/engine.html`);
  note(task, 'Chromium', await page.evaluate(() => window.timeEngine()));
});
