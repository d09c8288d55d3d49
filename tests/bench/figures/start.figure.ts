import { afterEach, test } from 'vitest';
import { newPhone, type Phone } from '../../browser/support/phone.ts';
import { noteFigure } from '../figure-lines.ts';
import { medianAndWorst, worstOf } from '../numbers.ts';
import { paintsOf, watchPaints } from '../paint-watch.ts';
import { enterHall, pressStart } from '../plain-hall.ts';

const LIMIT_MS = 200;
const PRESSES = 5;

let phone: Phone | null = null;

afterEach(async () => {
  await phone?.end();
  phone = null;
});

/** Sound that is asked for and never comes: every context stays suspended, and no promise of it settles. */
function blockSound(): void {
  const never = () => new Promise<never>(() => undefined);
  class SilentContext extends AudioContext {
    override get state(): AudioContextState {
      return 'suspended';
    }
    override get currentTime(): number {
      return 0;
    }
    override resume = never;
    override suspend = never;
  }
  window.AudioContext = SilentContext;
}

/** From the press to the first span drawn, on a phone that opens the app for the first time. */
async function pressToSpan(isBlocked: boolean): Promise<number> {
  phone = await newPhone();
  const { context, page } = await phone.open();
  if (isBlocked) await context.addInitScript(blockSound);
  await watchPaints(context);
  await enterHall(page, phone.url);
  await pressStart(page);
  await page.waitForFunction(() => window.painted.some(({ kind, digits }) => kind !== '' && digits !== ''));
  const shown = (await paintsOf(page)).find(({ kind, digits }) => kind !== '' && digits !== '');
  const pressedMs = await page.evaluate(() => window.pressedMs.at(-1));
  await phone.end();
  phone = null;
  return (shown?.paintedMonoMs ?? Number.NaN) - (pressedMs ?? Number.NaN);
}

test.for([
  { where: 'sound free', isBlocked: false },
  { where: 'sound blocked', isBlocked: true },
])('start, $where', async ({ where, isBlocked }, { task }) => {
  const times: number[] = [];
  while (times.length < PRESSES) times.push(await pressToSpan(isBlocked));
  noteFigure(task, {
    figure: '"Start class" to the first span on screen',
    where,
    value: worstOf(times),
    limit: LIMIT_MS,
    unit: 'ms',
    measured: medianAndWorst(times, 'ms'),
  });
});
