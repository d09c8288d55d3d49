import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { readPlanFile } from '../../src/exchange/plan-file.ts';
import { starterLibrary } from '../builders/starter-moves.ts';
import { readTop } from '../builders/stored.ts';
import { type Stretch, showsOf, stretchesOf } from './support/class-times.ts';
import { enterHall, openPlanFile, press, startClass, untilHall, untilStatus } from './support/hall.ts';
import { type HallSeen, type HallWatch, hallNow, readWatch, watchHalls } from './support/hall-watch.ts';
import { lastKept } from './support/kept-rows.ts';
import { newPhone, type Phone } from './support/phone.ts';
import { everythingClass } from './support/short-classes.ts';

let phone: Phone;

beforeEach(async () => {
  phone = await newPhone();
});

afterEach(() => phone.end());

/** A change on the screen later than this after its class time is a change that came late. */
const ON_TIME_MS = 150;
/** Class times are whole ms, and the page's clock is rounded. */
const ROUNDING_MS = 3;

/** Something on the screen that changed, and how long after its class time. */
type Change = { readonly shows: string; readonly left: string; readonly lateMs: number };

/** How long the page got no time at all between two instants: in that stretch nothing could have been on time. */
function stalledBetween({ stalls }: HallWatch, fromMs: number, toMs: number): number {
  return stalls.reduce((sum, one) => sum + Math.max(0, Math.min(one.toMs, toMs) - Math.max(one.fromMs, fromMs)), 0);
}

/**
 * Each change of kind, moves, side or second that was seen, against its class time; `zeroMs` is Start by the page's
 * clock. A wait point that only a press ends moves all that follows by as long as it really took.
 */
function changesAgainst(stretches: readonly Stretch[], watch: HallWatch, zeroMs: number): readonly Change[] {
  const says = (one: HallSeen): string => `${showsOf(one)} ${one.left}`;
  const ran = watch.seen.filter(({ kind }) => kind !== '');
  const seen = ran.filter((one, at) => at === 0 || says(one) !== says(ran[at - 1] ?? one));
  const goneOnMs = watch.presses.filter(({ what }) => what === 'Carry on').map(({ monoMs }) => monoMs - zeroMs);
  let here = 0;
  let shiftMs = 0;
  return seen.map((one, at) => {
    const before = seen[at - 1];
    if (before !== undefined && showsOf(before) !== showsOf(one)) {
      const left = stretches[here];
      if (left?.isOpen === true) shiftMs = (goneOnMs.shift() ?? Number.NaN) - left.endMs;
      here += 1;
    }
    const { startMs, endMs } = stretches[here] ?? { startMs: Number.NaN, endMs: Number.NaN };
    const dueMs = zeroMs + shiftMs + (one.left === '' ? startMs : endMs - Number(one.left) * 1000);
    const lateMs = one.monoMs - dueMs - stalledBetween(watch, dueMs, one.monoMs);
    return { shows: showsOf(one), left: one.left, lateMs };
  });
}

/** Every request that the app made, also by its workers, to another place than its own. What the browser wants for itself is not counted. */
function requestsElsewhere(netLog: string): readonly string[] {
  const started = readFileSync(netLog, 'utf8')
    .split('\n')
    .filter((line) => line.includes(`"initiator":"${phone.url}"`))
    .flatMap((line) => /"url":"([^"]+)"/.exec(line)?.[1] ?? []);
  if (started.length === 0) throw new Error('the log of the network holds no request of the app');
  return started.filter((url) => !url.startsWith(`${phone.url}/`));
}

/** Presses on from every wait point that needs it, until the class is over. */
async function leadThrough(page: Page): Promise<void> {
  for (;;) {
    const now = await untilHall(
      page,
      ({ status, kind, left }) => status === 'finished' || (status === 'waiting' && kind === 'wait' && left === ''),
      200_000,
    );
    if (now.status === 'finished') return;
    await wait(1500);
    await press(page, 'Carry on');
    await untilHall(page, ({ status }) => status !== 'waiting');
  }
}

test('a class of two minutes changes by itself at its class times, ends, is kept, and asks nobody for anything', async () => {
  const netLog = join(phone.profile, 'net-log.json');
  const { context, page, quit } = await phone.open({ flags: ['--mute-audio', `--log-net-log=${netLog}`] });
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('console', (message) => message.type() === 'error' && faults.push(message.text()));
  await watchHalls(context);
  const plan = everythingClass();
  await openPlanFile(page, phone.url, plan);

  await startClass(page, phone.url, plan.id);
  const entries = await page.evaluate(() => history.length);
  await leadThrough(page);
  const watch = await readWatch(page);
  const kept = await lastKept(page);

  const zeroMs = kept.marks[0]?.seen.monoMs ?? Number.NaN;
  const pressedMs = watch.presses.find(({ what }) => what === 'Start class')?.monoMs ?? Number.NaN;
  const changes = changesAgainst(stretchesOf(plan), watch, zeroMs);
  expect(zeroMs - pressedMs).toBeGreaterThanOrEqual(0);
  expect(zeroMs - pressedMs).toBeLessThan(1000);
  expect(changes.filter(({ shows }, at) => shows !== changes[at - 1]?.shows).map(({ shows }) => shows)).toEqual(
    stretchesOf(plan).map(({ shows }) => shows),
  );
  expect(changes.length).toBeGreaterThan(100);
  expect(changes.filter(({ lateMs }) => !(lateMs >= -ROUNDING_MS && lateMs <= ON_TIME_MS))).toEqual([]);
  expect(watch.seen.at(-1)?.status).toBe('finished');
  expect(await page.evaluate(() => history.length)).toBe(entries);
  expect(kept.head).toMatchObject({ planName: plan.name, outcome: 'finished' });
  expect(kept.marks.map(({ kind }) => kind)).toEqual(['started', 'changed', 'changed', 'finished']);
  await page.goto(`${phone.url}/#/review`);
  await page.getByRole('link', { name: plan.name }).waitFor();
  expect(faults).toEqual([]);
  expect(watch.violations).toEqual([]);
  await quit();
  expect(requestsElsewhere(netLog)).toEqual([]);
});

/** The plan of the demo class, as it comes with the app. */
function demoPlan() {
  const file = readPlanFile(readTop('assets/plans/demo-class.json'), starterLibrary());
  if (!file.ok) throw new Error('the demo class cannot be read');
  return file.plan;
}

const endOf = (stretches: readonly Stretch[]): number => stretches.at(-1)?.endMs ?? 0;

/** What the hall should say at a class time in which nothing changes within half a second. */
function saysAt(stretches: readonly Stretch[], atMs: number): string {
  const here = stretches.find(({ endMs }) => atMs < endMs);
  return here === undefined ? 'over' : `${here.shows} ${Math.ceil((here.endMs - atMs) / 1000)}`;
}

const said = (seen: HallSeen): string => (seen.status === 'finished' ? 'over' : `${showsOf(seen)} ${seen.left}`);

// The page's clocks are played: half an hour passes in as many steps of one second as the class has. The clock of an
// audio context cannot be played, so the page has none here; sound against the clock is measured elsewhere.
test('the demo class in its whole length shows the right thing at every second, and is kept', async () => {
  const { context, page } = await phone.open();
  await watchHalls(context);
  await context.addInitScript(() => Reflect.deleteProperty(window, 'AudioContext'));
  await page.clock.install();
  const stretches = stretchesOf(demoPlan());
  await enterHall(page, phone.url, 'demo-class');
  await page.clock.pauseAt(Date.now() + 60_000);

  await press(page, 'Start class');
  const zeroMs = (await untilStatus(page, 'running')).monoMs;
  const wrong: string[] = [];
  await page.clock.runFor(500);
  let now = await hallNow(page);
  while (now.status !== 'finished' && now.monoMs - zeroMs < endOf(stretches) + 5000) {
    const should = saysAt(stretches, now.monoMs - zeroMs);
    if (said(now) !== should) wrong.push(`${Math.round(now.monoMs - zeroMs)}: ${said(now)}, not ${should}`);
    await page.clock.runFor(1000);
    now = await hallNow(page);
  }

  expect(endOf(stretches)).toBeGreaterThan(25 * 60_000);
  expect(wrong).toEqual([]);
  expect(now.status).toBe('finished');
  expect(now.monoMs - zeroMs - endOf(stretches)).toBeLessThan(1000);
  await expect.poll(async () => (await lastKept(page)).head.outcome).toBe('finished');
  expect((await lastKept(page)).marks.map(({ kind, atMs }) => [kind, atMs])).toEqual([
    ['started', 0],
    ['finished', endOf(stretches)],
  ]);
});
