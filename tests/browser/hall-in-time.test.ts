import { setTimeout as wait } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Plan } from '../../src/plan/plan.ts';
import { aBlock, anEntry, aPlan } from '../builders/small-plan.ts';
import { type Stretch, stretchesOf } from './support/class-times.ts';
import { openPlanFile, press, startClass, untilStatus } from './support/hall.ts';
import { hallNow, watchHalls } from './support/hall-watch.ts';
import { lastKept } from './support/kept-rows.ts';
import { DARK, LIGHT } from './support/looks.ts';
import { countInk, mainColour } from './support/pixels.ts';
import { readPng } from './support/png.ts';
import { ON_ITS_SIDE, openScreens, type Screens } from './support/screens.ts';

/** What pictures of a class show in real time. When exactly each was taken is known from both sides, ms of class time. */
type Sample = {
  readonly fromMs: number;
  readonly toMs: number;
  readonly field: string;
  /** Px of the time left, left and right of the middle of the floor. */
  readonly left: number;
  readonly right: number;
};

/** Between two samples the page has its time to itself. */
const PAUSE_MS = 50;
/** Twice as long as a field takes to become the other. */
const RAMP_MS = 300;
/** On a phone on its side nothing but field may be here: it is where the notch is. */
const FIELD_PX = 40;

let screens: Screens;
let samples: readonly Sample[] = [];
let stretches: readonly Stretch[] = [];
let wholePx = 0;
/** Changes of the field as the page itself counted them, ms of class time. */
let changesMs: readonly number[] = [];

/** All that could make the field flicker: the shortest work, changeovers and swaps that a plan may have. */
function hastyClass(): Plan {
  const doing = (moveId: string, seconds: number, changeoverSeconds: number) =>
    anEntry(moveId, { dose: { kind: 'seconds', seconds }, changeoverSeconds, swapSeconds: 1 });
  const entries = [doing('squat', 10, 1), doing('one-arm-row', 5, 1), doing('star-jump', 9, 0)];
  return aPlan([aBlock(entries.map((entry, at) => ({ ...entry, id: `e${at}` })))], {
    id: 'hasty',
    name: 'Hasty',
    countInSeconds: 3,
  });
}

beforeAll(async () => {
  screens = await openScreens();
  const context = await screens.newContext({ viewport: ON_ITS_SIDE, serviceWorkers: 'block' });
  await watchHalls(context);
  const page = await context.newPage();
  await openPlanFile(page, screens.url, hastyClass());
  await startClass(page, screens.url, 'hasty');
  const noted = await noteFieldChanges(page);
  const taken = await takeSamples(page);
  const zeroMs = (await lastKept(page)).marks[0]?.seen.monoMs ?? Number.NaN;
  stretches = stretchesOf(hastyClass());
  samples = taken.map((one) => ({ ...one, fromMs: one.fromMs - zeroMs, toMs: one.toMs - zeroMs }));
  changesMs = (await noted.jsonValue()).map((monoMs) => monoMs - zeroMs);
}, 180_000);

afterAll(() => screens.end());

/** Notes, by the page's clock, each change of the field from now on. */
function noteFieldChanges(page: Page) {
  return page.evaluateHandle(() => {
    const changes: number[] = [];
    const hall = document.querySelector('[data-hall]');
    if (hall !== null) {
      new MutationObserver(() => changes.push(performance.now())).observe(hall, { attributeFilter: ['data-field'] });
    }
    return changes;
  });
}

const gapsOf = (changes: readonly number[]): readonly number[] =>
  changes.slice(1).map((atMs, index) => atMs - (changes[index] ?? 0));

/** Until the class is over: a row of pixels through the floor line, again and again. */
async function takeSamples(page: Page): Promise<readonly Sample[]> {
  const line = await page.locator('.floor-left').evaluate((bar) => {
    if (!(bar instanceof HTMLElement)) throw new Error('the floor line is something else');
    const { top, height } = bar.getBoundingClientRect();
    return { middle: Math.round(top + height / 2), left: bar.offsetLeft, width: bar.clientWidth };
  });
  const stage = await page.locator('.stage').boundingBox();
  wholePx = line.width;
  const middle = (stage?.x ?? 0) + line.left + line.width / 2;
  const clip = { x: 0, y: line.middle, width: ON_ITS_SIDE.width, height: 1 };
  const taken: Sample[] = [];
  const take = async (): Promise<string> => {
    const before = await hallNow(page);
    const file = await page.screenshot({ clip });
    const after = await hallNow(page);
    taken.push({ fromMs: before.monoMs, toMs: after.monoMs, ...readRow(file, middle) });
    return before.status;
  };
  while ((await take()) === 'running') await wait(PAUSE_MS);
  await wait(RAMP_MS);
  await take();
  return taken;
}

function readRow(file: Buffer, middle: number): Pick<Sample, 'field' | 'left' | 'right'> {
  const shot = { picture: readPng(file), scale: 1 };
  const row = { left: 0, top: 0, right: ON_ITS_SIDE.width, bottom: 1 };
  const field = mainColour(shot, { ...row, right: FIELD_PX });
  // Posts are grey: only what is nearly all ink counts. No part of the floor lies left of the ramp.
  const inked = { field, ink: field === DARK ? LIGHT : DARK, least: 0.75 };
  const px = (from: number, to: number): number => countInk(shot, { ...row, left: from, right: to }, inked);
  return { field, left: px(middle - wholePx / 2, middle), right: px(middle, middle + wholePx / 2) };
}

const isRamp = ({ field }: Sample): boolean => field !== LIGHT && field !== DARK;

/** The stretch in which all of a sample was taken; undefined for one across a change. */
function stretchOf({ fromMs, toMs }: Sample): Stretch | undefined {
  return stretches.find(({ startMs, endMs }) => startMs <= fromMs && toMs <= endMs);
}

/** Of the whole length; in a span of a few seconds that is less time than a busy phone takes to draw at all. */
const LENGTH_OFF = 0.03;
const DRAWN_LATE_MS = 250;

test('the floor line is as long as the time left, to 3% of its whole length, all through a class', () => {
  const read = samples.flatMap((sample) => {
    const stretch = stretchOf(sample);
    if (stretch === undefined || isRamp(sample)) return [];
    const whole = stretch.endMs - stretch.startMs;
    const off = Math.max(LENGTH_OFF, DRAWN_LATE_MS / whole);
    const most = (stretch.endMs - sample.fromMs) / whole + off;
    const least = (stretch.endMs - sample.toMs) / whole - off;
    return [{ at: Math.round(sample.fromMs), shows: (sample.left + sample.right) / wholePx, most, least }];
  });

  expect(read.length).toBeGreaterThan(30);
  expect(read.filter(({ shows, most, least }) => shows > most || shows < least)).toEqual([]);
});

test('the floor line shortens toward its middle', () => {
  const lopsided = samples.filter((one) => !isRamp(one) && Math.abs(one.left - one.right) > 2);

  expect(wholePx).toBeGreaterThan(500);
  expect(lopsided).toEqual([]);
});

// WCAG 2.2, 2.3.1 allows three flashes a second; the design allows one change.
test('the field changes at most once a second, however hasty the class', () => {
  const fields = samples.filter((one) => !isRamp(one)).map(({ field }) => field);
  const shown = fields.filter((one, index) => index > 0 && one !== fields[index - 1]);

  expect(changesMs.length).toBeGreaterThan(5);
  // Noted as they are drawn: one of two may have been drawn a little late.
  expect(Math.min(...gapsOf(changesMs))).toBeGreaterThanOrEqual(950);
  // The pictures show what the page says of itself.
  expect(shown).toHaveLength(changesMs.length);
});

test('the field does not follow who pauses and carries on in haste', async () => {
  const context = await screens.newContext({ viewport: ON_ITS_SIDE, serviceWorkers: 'block' });
  await watchHalls(context);
  const page = await context.newPage();
  await openPlanFile(page, screens.url, hastyClass());
  await startClass(page, screens.url, 'hasty');
  // The count-in is dark, whoever stands is light.
  const noted = await noteFieldChanges(page);
  for (let times = 0; times < 4; times += 1) {
    await press(page, 'Pause');
    await untilStatus(page, 'paused');
    await wait(100);
    await press(page, 'Carry on');
    await untilStatus(page, 'running');
    await wait(100);
  }
  await wait(1500);
  const changes = await noted.jsonValue();
  await context.close();

  // Eight times another field was wanted.
  expect(changes.length).toBeGreaterThan(1);
  expect(changes.length).toBeLessThan(8);
  expect(Math.min(...gapsOf(changes))).toBeGreaterThanOrEqual(950);
});

test('from field to field there is a ramp of a sixth of a second, and no third field', () => {
  const odd = samples.filter((one) => isRamp(one));
  const far = odd.filter(({ fromMs, toMs }) => !changesMs.some((atMs) => atMs <= toMs && atMs + RAMP_MS >= fromMs));

  expect(far).toEqual([]);
});
