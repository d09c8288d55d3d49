import { setTimeout as wait } from 'node:timers/promises';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { enterHall, hold, openPlanFile, press, startClass, untilHall, untilStatus } from './support/hall.ts';
import { type HallSeen, hallNow, readWatch, watchHalls } from './support/hall-watch.ts';
import { openScreens, type Screens } from './support/screens.ts';
import { pressedClass } from './support/short-classes.ts';

let screens: Screens;
let context: BrowserContext;
let page: Page;

beforeAll(async () => {
  screens = await openScreens();
});

afterAll(() => screens.end());

beforeEach(async () => {
  context = await screens.newContext();
  await watchHalls(context);
  page = await context.newPage();
});

afterEach(() => context.close());

test('the start page has one link "Run this class", which leads to the hall of the demo class', async () => {
  await page.goto(screens.url);
  const link = page.getByRole('link', { name: 'Run this class', exact: true });
  await link.waitFor();
  const links = await link.count();
  await link.click();
  await untilStatus(page, 'ready');

  expect(links).toBe(1);
  expect(new URL(page.url()).hash).toMatch(/^#\/hall\/[\w-]+$/);
  expect(await page.getByRole('button', { name: 'Start class', exact: true }).count()).toBe(1);
});

describe('every address answers:', () => {
  test.each([
    ['#/', 'Hallpace', 'Run this class'],
    ['', 'Hallpace', 'Run this class'],
    ['#/plans', 'Plans', 'Open a plan file'],
    ['#/moves', 'Moves', 'not built yet'],
    ['#/courses', 'Courses', 'not built yet'],
    ['#/backups', 'Backups', 'not built yet'],
    ['#/review', 'Classes that ran', 'No class has run on this phone yet.'],
    ['#/review/none', 'A class that ran', 'There is no such class on this phone.'],
    ['#/plans/none', 'Plan', 'There is no such plan'],
    ['#/hall/none', 'No class', 'There is no such plan'],
    ['#/elsewhere', 'Nothing here', 'leads nowhere'],
    ['#/plans/%E0%A4%A', 'Nothing here', 'leads nowhere'],
  ])('%s', async (hash, title, text) => {
    await page.goto(`${screens.url}/${hash}`);
    await page.getByText(text).first().waitFor();

    expect(await page.getByRole('heading', { level: 1 }).allTextContents()).toEqual([title]);
  });

  test('the sheet and the hall of every plan that comes with the app', async () => {
    await page.goto(`${screens.url}/#/plans`);
    const rows = page.locator('.plan-row');
    await rows.first().waitFor();
    const hashes = await rows.evaluateAll((all) => all.map((row) => row.getAttribute('href') ?? ''));
    for (const hash of hashes) {
      await page.goto(`${screens.url}/${hash}`);
      await page.getByRole('link', { name: 'Run this class' }).click();
      await untilStatus(page, 'ready');
    }

    expect(hashes.length).toBeGreaterThan(0);
  });
});

const FORMS: Readonly<Record<Exclude<keyof HallSeen, 'monoMs' | 'wallMs'>, RegExp>> = {
  status: /^(ready|running|paused|waiting|asking|finished|abandoned)$/,
  kind: /^(|countIn|work|sideChange|changeover|breather|rest|talk|water|wait)$/,
  span: /^\d*$/,
  moves: /^([a-z][a-z0-9-]*( [a-z][a-z0-9-]*)*)?$/,
  side: /^(|both|left|right|alternating|forward|reverse)$/,
  left: /^\d*$/,
  kept: /^\d*$/,
};

test('the hall root says at every moment of a class what it is at, in its own form', async () => {
  const plan = pressedClass();
  await openPlanFile(page, screens.url, plan);
  await startClass(page, screens.url, plan.id);
  await untilHall(page, ({ kept }) => kept === '0');
  for (const kind of ['work', 'changeover', 'work']) {
    await press(page, 'Next move');
    await untilHall(page, (seen) => seen.kind === kind);
    await wait(450);
  }
  const works = await hallNow(page);
  const timer = await page.getByRole('timer').textContent();
  await press(page, 'Next move');
  const waits = await untilStatus(page, 'waiting');
  await press(page, 'Pause');
  await untilStatus(page, 'paused');
  await hold(page, 'Finish', 1200);
  const over = await untilStatus(page, 'finished');
  const seen = (await readWatch(page)).seen.filter(({ status }) => status !== '');
  const misformed = seen.flatMap((one) =>
    Object.entries(FORMS)
      .filter(([name, form]) => !form.test(String(Reflect.get(one, name))))
      .map(([name]) => `${name}: ${JSON.stringify(one)}`),
  );

  expect(misformed).toEqual([]);
  expect(works).toMatchObject({ status: 'running', kind: 'work', moves: 'one-arm-row', side: 'left' });
  expect(works.span).not.toBe('');
  expect(Math.abs(Number(timer) - Number(works.left))).toBeLessThanOrEqual(1);
  expect(waits).toMatchObject({ kind: 'wait', left: '' });
  expect(over).toMatchObject({ kind: '', left: '' });
  expect(seen.map(({ kept }) => Number(kept))).toEqual(seen.map(({ kept }) => Number(kept)).sort((a, b) => a - b));
  expect(await page.locator('[data-hall]').count()).toBe(1);
});

test('no class adds anything to the history, from its start to the page after it', async () => {
  const plan = pressedClass();
  await openPlanFile(page, screens.url, plan);
  await enterHall(page, screens.url, plan.id);
  const lengths = [await page.evaluate(() => history.length)];
  const steps = [
    () => press(page, 'Start class'),
    () => press(page, 'Next move'),
    () => press(page, 'Pause'),
    () => press(page, 'Carry on'),
    () => press(page, "Someone's hurt"),
    () => press(page, 'Carry on'),
    () => hold(page, 'Finish', 1200),
  ];
  for (const step of steps) {
    await step();
    await wait(450);
    lengths.push(await page.evaluate(() => history.length));
  }
  await untilStatus(page, 'finished');

  expect(new Set(lengths).size).toBe(1);
});

declare global {
  interface Window {
    persistAsks: { readonly status: string | null; readonly inTap: boolean }[];
  }
}

/** Whoever asks to keep what is stored is never answered, as where a question stands open that nobody sees. */
async function neverAnswerPersist(): Promise<void> {
  await context.addInitScript(() => {
    window.persistAsks = [];
    StorageManager.prototype.persist = () => {
      const status = document.querySelector('[data-hall]')?.getAttribute('data-status') ?? null;
      window.persistAsks.push({ status, inTap: navigator.userActivation.isActive });
      return new Promise(() => undefined);
    };
  });
}

test('the press on Start, and nothing before it, asks to keep what is stored; the class waits for no answer', async () => {
  await neverAnswerPersist();
  await page.goto(`${screens.url}/#/plans`);
  await page.goto(`${screens.url}/#/hall/demo-class`);
  await untilStatus(page, 'ready');
  await wait(300);
  const before = await page.evaluate(() => window.persistAsks.length);

  await press(page, 'Start class');
  await untilStatus(page, 'running');
  await untilHall(page, ({ kept }) => kept === '0');
  const asks = await page.evaluate(() => window.persistAsks);

  expect(before).toBe(0);
  expect(asks).toHaveLength(1);
  expect(asks[0]?.inTap).toBe(true);
});
