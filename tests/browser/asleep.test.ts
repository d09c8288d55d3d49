import { setTimeout as wait } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { OpenChromium } from './support/chromium.ts';
import { shouldShow, showsOf } from './support/class-times.ts';
import { enterHall, openPlanFile, press, startClass, untilHall, untilSaid } from './support/hall.ts';
import { type HallSeen, hallNow, readWatch, watchHalls } from './support/hall-watch.ts';
import { forgetClasses, lastKept, markKinds } from './support/kept-rows.ts';
import { movableWall, setWallAhead, sleepyClock } from './support/page-clocks.ts';
import { newPhone, type Phone } from './support/phone.ts';
import { longSpansClass } from './support/short-classes.ts';

declare global {
  interface Window {
    /** What became of each wake lock that was asked for. */
    wakeLocks: { readonly askedWhile: DocumentVisibilityState; outcome: 'given' | 'refused' | 'released' | 'asked' }[];
  }
}

const plan = longSpansClass();

let phone: Phone;
let chromium: OpenChromium;
let page: Page;

beforeAll(async () => {
  phone = await newPhone();
  chromium = await phone.open();
  await openPlanFile(chromium.page, phone.url, plan);
});

afterAll(() => phone.end());

/** A page of its own for each test, in the one window: what is in front of it hides it. */
beforeEach(async () => {
  page = await chromium.context.newPage();
  await watchHalls(page);
});

afterEach(async () => {
  await page.close();
  await forgetClasses(chromium.page);
});

/** A class in the long work of its first move. */
async function classInWork(): Promise<HallSeen> {
  await startClass(page, phone.url, plan.id);
  await press(page, 'Next move');
  return untilHall(page, ({ kind }) => kind === 'work');
}

/** Puts another page in front and the class behind it, for as long. */
async function hideFor(hiddenMs: number): Promise<void> {
  const other = await chromium.context.newPage();
  await other.bringToFront();
  await expect.poll(() => page.evaluate(() => document.visibilityState)).toBe('hidden');
  await wait(hiddenMs);
  await page.bringToFront();
  await expect.poll(() => page.evaluate(() => document.visibilityState)).toBe('visible');
  await other.close();
}

/** Hides and freezes the page for as long, as a phone that is put away does. */
async function freezeFor(frozenMs: number): Promise<void> {
  const other = await chromium.context.newPage();
  await other.bringToFront();
  const session = await chromium.context.newCDPSession(page);
  await session.send('Page.setWebLifecycleState', { state: 'frozen' });
  await wait(frozenMs);
  await session.send('Page.setWebLifecycleState', { state: 'active' });
  await page.bringToFront();
  await other.close();
}

/** The page did nothing at all for so long, and not a thing of the test's own imagination. */
async function expectStoodStillFor(forMs: number): Promise<void> {
  const { stalls } = await readWatch(page);
  expect(Math.max(...stalls.map(({ fromMs, toMs }) => toMs - fromMs))).toBeGreaterThan(forMs);
}

/** By the wall clock and the marks that are kept; one second beside the right one is still right. */
async function expectRightSecond(seen: HallSeen): Promise<void> {
  const should = shouldShow(await lastKept(page), seen.wallMs);
  expect({ status: seen.status, span: seen.span, shows: showsOf(seen) }).toEqual({
    status: should.status,
    span: String(should.span),
    shows: should.shows,
  });
  expect(Math.abs(Number(seen.left) - Math.ceil(should.leftMs / 1000))).toBeLessThanOrEqual(1);
}

/** By the second that was on the screen before, and nothing else. */
function expectRanOn(before: HallSeen, after: HallSeen): void {
  expect(after.span).toBe(before.span);
  const passed = Math.round((after.wallMs - before.wallMs) / 1000);
  expect(Math.abs(Number(before.left) - passed - Number(after.left))).toBeLessThanOrEqual(1);
}

/** Once the page is seen again everything on it is right within this; it does not wait for the next second. */
const AT_ONCE_MS = 400;

test('a class behind another page for 20 s is in its right second when it is seen again, and no mark is added', async () => {
  const before = await classInWork();
  await untilHall(page, ({ left }) => Number(left) < 89);

  await hideFor(20_000);
  await wait(AT_ONCE_MS);
  const after = await hallNow(page);

  expectRanOn(before, after);
  await expectRightSecond(after);
  expect(await markKinds(page)).toEqual(['started', 'skip']);
  expect(await page.getByRole('button', { name: 'Go back to where it stopped' }).count()).toBe(0);
  // It was hidden in earnest: the page's own timers came once a second at most, and the beat went on all the same.
  const { beat } = await lastKept(page);
  expect(after.wallMs - (beat?.wallMs ?? 0)).toBeLessThan(3000);
  const { stalls } = await readWatch(page);
  expect(stalls.filter(({ fromMs, toMs }) => toMs - fromMs > 700).length).toBeGreaterThan(10);
});

test('a page that was frozen for 10 s while its clock went on needs no word: the class is in its right second', async () => {
  const before = await classInWork();

  await freezeFor(10_000);
  await wait(AT_ONCE_MS);
  const after = await hallNow(page);

  await expectStoodStillFor(9000);
  expectRanOn(before, after);
  await expectRightSecond(after);
  expect(await markKinds(page)).toEqual(['started', 'skip']);
});

describe('a page that slept, its clock standing still', () => {
  beforeEach(() => sleepyClock(page));

  test('is in the right second at once, marks what it missed, and goes back to where it stopped when asked', async () => {
    await classInWork();
    await wait(2500);
    const before = await hallNow(page);

    await freezeFor(6000);
    await wait(AT_ONCE_MS);
    const after = await hallNow(page);
    await expectRightSecond(after);
    expectRanOn(before, after);
    await expect.poll(() => markKinds(page)).toEqual(['started', 'skip', 'away']);
    const away = (await lastKept(page)).marks.at(-1);
    await press(page, 'Go back to where it stopped');
    const back = await untilHall(page, ({ left }) => Number(left) > Number(after.left));

    expect(away?.kind === 'away' && Math.abs(away.byMs - 6000)).toBeLessThan(1500);
    await expect.poll(() => markKinds(page)).toEqual(['started', 'skip', 'away', 'stood']);
    await expectRightSecond(back);
    // What ran before the sleep stays run; what ran after it is taken back too.
    expect(Math.abs(Number(back.left) - Number(before.left))).toBeLessThanOrEqual(1);
  });

  test('stands where it stood when it was paused', async () => {
    await classInWork();
    await press(page, 'Pause');
    const before = await untilHall(page, ({ status }) => status === 'paused');

    await freezeFor(3000);
    await wait(AT_ONCE_MS);

    expect(await hallNow(page)).toMatchObject({ status: 'paused', left: before.left, span: before.span });
    expect(await page.getByRole('button', { name: 'Go back to where it stopped' }).count()).toBe(0);
  });
});

test('the wall clock moved by an hour, on or back, before the eyes of the page moves nothing in the class', async () => {
  await movableWall(page);
  await classInWork();
  const first = await untilHall(page, ({ left }) => Number(left) < 89);

  for (const aheadMs of [3_600_000, 0, -3_600_000]) {
    await setWallAhead(page, aheadMs);
    await wait(2500);
  }
  await untilSaid(page, 'Clock was moved');
  const last = await hallNow(page);
  const { seen } = await readWatch(page);

  const lefts = seen.filter(({ left, span }) => span === first.span && left !== '').map(({ left }) => Number(left));
  expect(lefts).toEqual([...lefts].sort((one, other) => other - one));
  expect(last.span).toBe(first.span);
  const passed = Math.round((last.monoMs - first.monoMs) / 1000);
  expect(Math.abs(Number(first.left) - passed - Number(last.left))).toBeLessThanOrEqual(1);
  await expect.poll(() => markKinds(page)).toEqual(['started', 'skip', 'wallMoved', 'wallMoved', 'wallMoved']);
});

test('the wake lock is asked for at the start, lost behind another page, asked for again in front, and let go at the end', async () => {
  await page.addInitScript(() => {
    window.wakeLocks = [];
    const ask = WakeLock.prototype.request;
    WakeLock.prototype.request = async function (type) {
      const lock: Window['wakeLocks'][number] = { askedWhile: document.visibilityState, outcome: 'asked' };
      window.wakeLocks.push(lock);
      try {
        const sentinel = await ask.call(this, type);
        lock.outcome = 'given';
        sentinel.addEventListener('release', () => {
          lock.outcome = 'released';
        });
        return sentinel;
      } catch (error) {
        lock.outcome = 'refused';
        throw error;
      }
    };
  });
  const locks = () => page.evaluate(() => window.wakeLocks);
  await enterHall(page, phone.url, plan.id);
  const beforeStart = await locks();
  await classInWork();
  await expect.poll(locks).toEqual([{ askedWhile: 'visible', outcome: 'given' }]);

  await hideFor(1500);
  await expect.poll(locks).toEqual([
    { askedWhile: 'visible', outcome: 'released' },
    { askedWhile: 'visible', outcome: 'given' },
  ]);
  await page.keyboard.down('f');
  await untilHall(page, ({ status }) => status === 'finished');
  await page.keyboard.up('f');

  expect(beforeStart).toEqual([]);
  await expect.poll(async () => (await locks()).map(({ outcome }) => outcome)).toEqual(['released', 'released']);
});
