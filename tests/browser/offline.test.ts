import { setTimeout as wait } from 'node:timers/promises';
import type { BrowserContext, Page } from 'playwright-core';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { Plan } from '../../src/plan/plan.ts';
import { aBlock, anEntry, aPlan } from '../builders/small-plan.ts';
import { shouldShow, showsOf } from './support/class-times.ts';
import { hold, openPlanFile, press, startClass, untilHall, untilStatus } from './support/hall.ts';
import { hallNow, readWatch, watchHalls } from './support/hall-watch.ts';
import { lastKept } from './support/kept-rows.ts';
import { newPhone, type Phone } from './support/phone.ts';
import { fetchRelease, type Host, newHost, releaseOf } from './support/releases.ts';
import { longSpansClass } from './support/short-classes.ts';
import { heard, probeSounds, readSoundProbe } from './support/sound-probe.ts';

let host: Host;
let phone: Phone;

beforeEach(async () => {
  host = newHost();
  phone = await newPhone(host.root);
});

afterEach(async () => {
  await phone.end();
  host.end();
});

/** Half a minute with sharp cues and with soft ones. */
function shortClass(): Plan {
  const doing = (moveId: string, change: Parameters<typeof anEntry>[1] = {}) =>
    anEntry(moveId, { dose: { kind: 'seconds', seconds: 5 }, ...change });
  const circuit = aBlock([doing('squat'), doing('press-up', { changeoverSeconds: 3 })], { id: 'circuit' });
  const stretch = aBlock([doing('child-rest')], { id: 'stretch', part: 'stretch', cueStyle: 'soft' });
  return aPlan([circuit, stretch], { id: 'short', name: 'Half a minute', countInSeconds: 5 });
}

async function untilOver(page: Page): Promise<void> {
  await untilHall(page, ({ status }) => status === 'finished', 60_000);
}

/** Goes to the app over the network and stays until all of it is on the phone; then takes a plan in. */
async function install(page: Page, plan: Plan): Promise<void> {
  await page.goto(phone.url);
  await page.getByText('is on this phone and opens without a network').waitFor();
  await openPlanFile(page, phone.url, plan);
}

/** Everything asked for by any page of the context from now on that went wrong or elsewhere. */
function watchRequests(context: BrowserContext): { readonly asked: string[]; readonly wrong: string[] } {
  const seen = { asked: [] as string[], wrong: [] as string[] };
  context.on('request', (request) => {
    seen.asked.push(request.url());
    if (!request.url().startsWith(`${phone.url}/`)) seen.wrong.push(`elsewhere: ${request.url()}`);
  });
  context.on('requestfailed', (request) => seen.wrong.push(`failed: ${request.url()} ${request.failure()?.errorText}`));
  context.on('response', (response) => {
    if (response.status() >= 400) seen.wrong.push(`${response.status()}: ${response.url()}`);
  });
  return seen;
}

test('a phone without a network opens in the hall from cold, runs a class with every sound, and keeps it', async () => {
  const plan = shortClass();
  const first = await phone.open();
  await install(first.page, plan);
  await first.quit();
  await phone.stopServer();
  const served = phone.requests().length;

  const { context, page } = await phone.open();
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(String(error)));
  const requests = watchRequests(context);
  await watchHalls(context);
  await probeSounds(context);
  await startClass(page, phone.url, plan.id);
  await untilOver(page);
  await wait(500);
  const probe = await readSoundProbe(page);
  const sounded = heard(probe);
  const { head, marks } = await lastKept(page);
  await page.goto(`${phone.url}/#/review`);
  await page.getByRole('link', { name: plan.name }).waitFor();

  expect(head).toMatchObject({ planName: plan.name, outcome: 'finished' });
  expect(marks.map(({ kind }) => kind)).toEqual(['started', 'finished']);
  // Nine cues, each sharp and soft.
  expect([probe.decoded, probe.failed]).toEqual([18, 0]);
  expect(sounded.length).toBeGreaterThan(12);
  expect(sounded.filter(({ isRecording }) => !isRecording)).toEqual([]);
  expect(requests.asked.filter((url) => url.endsWith('.wav')).length).toBeGreaterThanOrEqual(18);
  expect(requests.wrong).toEqual([]);
  expect(faults).toEqual([]);
  expect((await readWatch(page)).violations).toEqual([]);
  expect(phone.requests()).toHaveLength(served);
});

test('a class killed without a network comes back into its second without one', async () => {
  const plan = longSpansClass();
  const first = await phone.open();
  await watchHalls(first.context);
  await install(first.page, plan);
  await phone.stopServer();
  await first.page.reload();
  await startClass(first.page, phone.url, plan.id);
  await press(first.page, 'Next move');
  await untilHall(first.page, ({ kind, kept }) => kind === 'work' && Number(kept) >= 1);
  await wait(2500);
  await first.kill();

  const { context, page } = await phone.open();
  const requests = watchRequests(context);
  await watchHalls(context);
  await page.goto(`${phone.url}/#/hall/${plan.id}`);
  await untilStatus(page, 'running');
  await wait(300);
  const seen = await hallNow(page);
  const kept = await lastKept(page);
  const should = shouldShow(kept, seen.wallMs);

  expect(kept.marks.slice(0, 2).map(({ kind }) => kind)).toEqual(['started', 'changed']);
  expect({ status: seen.status, shows: showsOf(seen) }).toEqual({ status: should.status, shows: should.shows });
  expect(Math.abs(Number(seen.left) - should.leftMs / 1000)).toBeLessThanOrEqual(1.2);
  expect(requests.wrong).toEqual([]);
});

test('a new version waits while a class runs, changes nothing in it, and comes when it is asked for', async () => {
  const plan = shortClass();
  const { context, page } = await phone.open();
  await watchHalls(context);
  await install(page, plan);
  await page.reload();
  await startClass(page, phone.url, plan.id);
  await page.evaluate(() => Reflect.set(window, 'sameSincePressed', true));

  host.release('second');
  const state = await fetchRelease(page);
  await wait(500);
  const offered = await page.getByText('new version').count();
  const pageThen = await page.evaluate(async () => (await fetch('./index.html')).text());
  await untilHall(page, ({ kind, moves }) => kind === 'changeover' && moves === 'press-up');
  await hold(page, 'Finish', 1200);
  await untilStatus(page, 'finished');
  const isSame = await page.evaluate(() => Reflect.get(window, 'sameSincePressed'));
  const { seen } = await readWatch(page);
  const { marks } = await lastKept(page);
  await page.getByRole('link', { name: 'Start page' }).click();
  await page.getByText('A new version is ready.').waitFor();
  const before = await releaseOf(page);
  await press(page, 'Open the new version');
  await expect.poll(() => releaseOf(page)).toBe('second');

  expect(state).toBe('installed');
  expect(offered).toBe(0);
  expect(pageThen).not.toContain('second');
  expect(isSame).toBe(true);
  expect(marks.map(({ kind }) => kind)).toEqual(['started', 'changed', 'finished']);
  expect(new Set(seen.map(({ status }) => status))).toEqual(new Set(['', 'ready', 'running', 'finished']));
  expect(before).toBe('');
});

test('a release of which one file is missing is not taken: the old one goes on, without a network too', async () => {
  const plan = shortClass();
  const first = await phone.open();
  await watchHalls(first.context);
  await install(first.page, plan);
  await first.page.reload();
  host.release('broken');
  host.lose('assets', '.wav');

  const state = await fetchRelease(first.page);
  await first.page.reload();
  const shown = await releaseOf(first.page);
  await first.quit();
  await phone.stopServer();
  const { context, page } = await phone.open();
  await watchHalls(context);
  await probeSounds(context);
  await startClass(page, phone.url, plan.id);
  await untilHall(page, ({ kind }) => kind === 'work');
  const probe = await readSoundProbe(page);

  expect(state).toBe('redundant');
  expect(shown).toBe('');
  expect(await releaseOf(page)).toBe('');
  expect([probe.decoded, probe.failed]).toEqual([18, 0]);
});
