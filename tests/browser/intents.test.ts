import { rmSync } from 'node:fs';
import { setTimeout as wait } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { OpenChromium } from './support/chromium.ts';
import { appWithListener, readTap, tapCues } from './support/cue-tap.ts';
import { enterHall, hold, openPlanFile, press, startClass, untilHall, untilSaid, untilStatus } from './support/hall.ts';
import { type HallSeen, hallNow, readWatch, watchHalls } from './support/hall-watch.ts';
import { forgetClasses, keptClasses, lastKept, markKinds } from './support/kept-rows.ts';
import { movableWall, setWallAhead } from './support/page-clocks.ts';
import { newPhone, type Phone } from './support/phone.ts';
import { pressedClass, shortMovesClass } from './support/short-classes.ts';

let root: string;
let phone: Phone;
let chromium: OpenChromium;
let page: Page;

const plan = pressedClass();
const short = shortMovesClass();

beforeAll(async () => {
  root = appWithListener();
  phone = await newPhone(root);
  chromium = await phone.open();
  await watchHalls(chromium.context);
  await tapCues(chromium.context);
  await movableWall(chromium.context);
  await hearHeadset(chromium.context);
  for (const one of [plan, short]) await openPlanFile(chromium.page, phone.url, one);
});

afterAll(async () => {
  await phone.end();
  rmSync(root, { recursive: true, force: true });
});

/** A page of its own for each test: what it saw and heard is of this test only. */
beforeEach(async () => {
  page = await chromium.context.newPage();
});

afterEach(async () => {
  for (const one of chromium.context.pages()) if (one !== chromium.page) await one.close();
  await forgetClasses(chromium.page);
});

/** Longer than two presses of one button are taken for one. */
const APART_MS = 450;

const isAt = (kind: string, moves: string) => (seen: HallSeen) => seen.kind === kind && seen.moves === moves;

/** Starts the class and goes on by "Next move" to where it is to be tried. */
async function classAt(fits: (seen: HallSeen) => boolean, planId = plan.id): Promise<HallSeen> {
  await startClass(page, phone.url, planId);
  return goOnTo(fits);
}

async function goOnTo(fits: (seen: HallSeen) => boolean): Promise<HallSeen> {
  let seen = await hallNow(page);
  while (!fits(seen)) {
    await press(page, 'Next move');
    await wait(APART_MS);
    seen = await hallNow(page);
  }
  return seen;
}

/** Marks are written at once; this waits for the writing of the last one. */
async function untilMarks(...kinds: string[]): Promise<void> {
  await expect.poll(() => markKinds(page)).toEqual(kinds);
}

const everyStatus = async (): Promise<readonly string[]> => (await readWatch(page)).seen.map(({ status }) => status);

declare global {
  interface Window {
    /** What the app has given for the keys of a headset. */
    headsetKeys: Partial<Record<MediaSessionAction, MediaSessionActionHandler | null>>;
  }
}

/** No headset can be plugged into a test: what its keys would call is called. */
async function hearHeadset(context: OpenChromium['context']): Promise<void> {
  await context.addInitScript(() => {
    const keys: Window['headsetKeys'] = {};
    window.headsetKeys = keys;
    const give = MediaSession.prototype.setActionHandler;
    MediaSession.prototype.setActionHandler = function (action, handler) {
      keys[action] = handler;
      give.call(this, action, handler);
    };
  });
}

const pressHeadset = (action: MediaSessionAction): Promise<void> =>
  page.evaluate((key) => window.headsetKeys[key]?.({ action: key }), action);

async function lastPressMs(): Promise<number> {
  return (await readWatch(page)).presses.at(-1)?.monoMs ?? Number.NaN;
}

/** When the last mark happened, by the page's clock and not by when it was written. */
async function lastMarkMs(): Promise<number> {
  const { marks } = await lastKept(page);
  return (marks[0]?.seen.monoMs ?? Number.NaN) + (marks.at(-1)?.atMs ?? Number.NaN);
}

describe('one press of a remote key', () => {
  test('starts the class', async () => {
    await enterHall(page, phone.url, plan.id);
    await wait(300);

    await page.keyboard.press('PageDown');

    await untilHall(page, isAt('countIn', 'squat'));
  });

  test.each([[[' ', 'Enter']], [['PageDown', 'ArrowRight']]])('of %s stands, and the next carries on', async (keys) => {
    await classAt(isAt('work', 'squat'));

    for (const key of keys) {
      await page.keyboard.press(key);
      const stands = await untilStatus(page, 'paused');
      const pressedMs = await lastPressMs();
      await expect.poll(async () => (await markKinds(page)).at(-1)).toBe('paused');
      const stoodMs = await lastMarkMs();
      await page.keyboard.press(key);
      await untilStatus(page, 'running');

      expect(stands.monoMs - pressedMs).toBeGreaterThanOrEqual(350);
      // It stands from the press on, not from when it was known to be only one.
      expect(Math.abs(stoodMs - pressedMs)).toBeLessThan(50);
    }
  });

  test('of a headset stands and carries on, and its next and previous keys change the move', async () => {
    await classAt(isAt('work', 'squat'));

    await pressHeadset('pause');
    await untilStatus(page, 'paused');
    await pressHeadset('play');
    await untilHall(page, isAt('countIn', 'squat'));
    await pressHeadset('nexttrack');
    await untilHall(page, isAt('work', 'squat'));
    await wait(APART_MS);
    await pressHeadset('nexttrack');
    await untilHall(page, isAt('changeover', 'one-arm-row'));
    await pressHeadset('previoustrack');

    await untilHall(page, isAt('countIn', 'squat'));
  });
});

describe('two presses of a remote key', () => {
  test('within 350 ms go to the next move and never pause, whichever key it is', async () => {
    await classAt(isAt('work', 'squat'));
    const after = [
      isAt('changeover', 'one-arm-row'),
      isAt('work', 'one-arm-row'),
      ({ kind }: HallSeen) => kind === 'wait',
    ];

    for (const [at, key] of [' ', 'Enter', 'PageDown'].entries()) {
      await page.keyboard.press(key);
      await wait(100);
      await page.keyboard.press(key);
      await untilHall(page, after[at] ?? (() => false));
      await wait(APART_MS);
    }

    expect(await everyStatus()).not.toContain('paused');
    expect((await markKinds(page)).slice(-3)).toEqual(['skip', 'skip', 'skip']);
  });

  test('further apart are two single ones', async () => {
    await classAt(isAt('work', 'squat'));

    await page.keyboard.press('PageDown');
    await wait(600);
    await page.keyboard.press('PageDown');
    await untilHall(page, isAt('countIn', 'squat'));

    expect((await markKinds(page)).slice(-3)).toEqual(['paused', 'carriedOn', 'countIn']);
  });
});

test('Pause stands, and Carry on goes on after a count-in from where it stood', async () => {
  await classAt(isAt('work', 'squat'));

  await press(page, 'Pause');
  const stood = await untilStatus(page, 'paused');
  await wait(2500);
  const stillStands = await hallNow(page);
  await press(page, 'Carry on');
  const counts = await untilHall(page, isAt('countIn', 'squat'));
  const works = await untilHall(page, isAt('work', 'squat'));

  expect(stillStands).toMatchObject({ status: 'paused', left: stood.left });
  expect(Number(counts.left)).toBe(5);
  expect(Math.abs(Number(works.left) - Number(stood.left))).toBeLessThanOrEqual(1);
  expect(Math.abs(works.monoMs - counts.monoMs - 5000)).toBeLessThan(500);
});

const byButton = (name: string) => () => press(page, name);
const byKey = (key: string) => () => page.keyboard.press(key);

describe('the next move', () => {
  test.each([
    ['the button', byButton('Next move')],
    ['the key n', byKey('n')],
  ])('comes by %s: first the way into it, then the move', async (_way, ask) => {
    await classAt(isAt('work', 'squat'));

    await ask();
    await untilHall(page, isAt('changeover', 'one-arm-row'));
    await wait(APART_MS);
    await ask();
    await untilHall(page, isAt('work', 'one-arm-row'));

    await expect.poll(async () => (await markKinds(page)).slice(-2)).toEqual(['skip', 'skip']);
  });

  test('a press that bounces skips one move, and says that the class had moved on', async () => {
    await classAt(isAt('work', 'squat'));
    const before = (await markKinds(page)).length;

    await page.getByRole('button', { name: 'Next move', exact: true }).dblclick({ delay: 20 });
    await untilSaid(page, 'The class had moved on');

    expect(await hallNow(page)).toMatchObject({ kind: 'changeover', moves: 'one-arm-row' });
    await expect.poll(async () => (await markKinds(page)).slice(before)).toEqual(['skip']);
  });

  test('whoever walks the buttons by keyboard presses the one in focus and nothing else', async () => {
    await classAt(isAt('work', 'squat'));

    await page.getByRole('button', { name: 'Next move', exact: true }).focus();
    await page.keyboard.press('Enter');
    await untilHall(page, isAt('changeover', 'one-arm-row'));
    await wait(500);

    expect(await everyStatus()).not.toContain('paused');
    expect((await markKinds(page)).at(-1)).toBe('skip');
  });
});

test('Go back one counts into the move before and runs it whole, by the button and by either key', async () => {
  await classAt(isAt('work', 'one-arm-row'));
  for (const ask of [byButton('Go back one'), byKey('ArrowLeft'), byKey('PageUp')]) {
    await goOnTo(isAt('work', 'one-arm-row'));
    await ask();
    const counts = await untilHall(page, isAt('countIn', 'squat'));
    await wait(APART_MS);
    await press(page, 'Next move');
    const works = await untilHall(page, isAt('work', 'squat'));
    await wait(APART_MS);

    expect(counts.status).toBe('running');
    expect(Number(works.left)).toBeGreaterThanOrEqual(39);
  }
});

describe('ten seconds more', () => {
  test('are given by the button and by either key', async () => {
    await classAt(isAt('work', 'squat'));

    for (const ask of [byButton('Ten seconds more'), byKey('ArrowUp'), byKey('+')]) {
      const before = await hallNow(page);
      await ask();
      const after = await untilHall(page, ({ left }) => Number(left) > Number(before.left));
      expect(Math.abs(Number(after.left) - Number(before.left) - 10)).toBeLessThanOrEqual(1);
    }

    await expect.poll(async () => (await markKinds(page)).slice(-3)).toEqual(['give', 'give', 'give']);
  });

  test('on one side give ten to the other', async () => {
    await classAt(isAt('work', 'one-arm-row'));

    await press(page, 'Ten seconds more');
    await expect.poll(async () => (await markKinds(page)).at(-1)).toBe('give');
    const { side } = await hallNow(page);
    await wait(APART_MS);
    await press(page, 'Next move');
    const given = (await lastKept(page)).marks.find((mark) => mark.kind === 'changed' && mark.why === 'give');

    expect(side).toBe('left');
    expect(given).toMatchObject({ edits: [{ toMs: 40_000 }, { toMs: 40_000 }] });
  });

  test('are not given any more in the last three seconds, and the screen says why', async () => {
    await classAt(isAt('work', 'star-jump'), short.id);
    const { length } = (await lastKept(page)).marks;

    await untilHall(page, ({ left }) => Number(left) <= 2);
    await press(page, 'Ten seconds more');
    await untilSaid(page, 'Too late: the count has begun');

    expect((await lastKept(page)).marks).toHaveLength(length);
    await untilHall(page, isAt('work', 'squat'));
  });
});

test.each([
  ['the button', byButton('Lower for all')],
  ['the key ArrowDown', byKey('ArrowDown')],
])('Lower for all by %s shows one lower option after the other', async (_way, ask) => {
  await classAt(isAt('work', 'squat'));

  await ask();
  await expect.poll(async () => (await markKinds(page)).at(-1)).toBe('showed');
  await wait(APART_MS);
  await ask();

  const levels = async () =>
    (await lastKept(page)).marks.flatMap((mark) => (mark.kind === 'showed' ? [[mark.entryId, mark.level]] : []));
  await expect.poll(levels).toEqual([
    ['squat', 1],
    ['squat', 2],
  ]);
});

test.each([
  ['the button', byButton('Drop this move')],
  ['the key d', byKey('d')],
])('Drop this move by %s leaves it out of every round', async (_way, ask) => {
  await classAt(isAt('work', 'squat'));

  await ask();
  await untilHall(page, isAt('changeover', 'one-arm-row'));

  await expect.poll(async () => (await markKinds(page)).at(-1)).toBe('drop');
  const dropped = (await lastKept(page)).marks.at(-1);
  expect(dropped).toMatchObject({ entryId: 'squat' });
  // The work of this round, and the work of the next; the breather into it stays.
  expect(dropped?.kind === 'changed' && dropped.edits.length).toBe(2);
});

describe('a wait point', () => {
  test('stands until Carry on is pressed, and shows no time where only the instructor ends it', async () => {
    const waits = await classAt(({ kind }) => kind === 'wait');

    await wait(1500);
    const stillWaits = await hallNow(page);
    await press(page, 'Carry on');
    await untilHall(page, isAt('changeover', 'press-up'));

    expect(waits).toMatchObject({ status: 'waiting', left: '' });
    expect(stillWaits.status).toBe('waiting');
    await expect.poll(async () => (await markKinds(page)).at(-1)).toBe('wentOn');
  });

  test('that goes on by itself shows its time, and one press of a remote key goes on at once', async () => {
    const waits = await classAt(({ kind, left }) => kind === 'wait' && left !== '');

    await page.keyboard.press('PageDown');
    await untilHall(page, isAt('countIn', 'band-row'));

    expect(waits.status).toBe('waiting');
    expect(await everyStatus()).not.toContain('paused');
  });

  test('can be paused as well', async () => {
    await classAt(({ kind }) => kind === 'wait');

    await press(page, 'Pause');
    await untilStatus(page, 'paused');
    await press(page, 'Carry on');

    await untilStatus(page, 'waiting');
  });
});

describe("someone's hurt", () => {
  test('silences the count at once and shows what to say', async () => {
    await classAt(isAt('work', 'star-jump'), short.id);
    // The first tick of three has been heard, two more and the change are handed over already.
    await untilHall(page, ({ left }) => left === '3');
    await wait(400);
    const loud = await readTap(page);

    await press(page, "Someone's hurt");
    await untilStatus(page, 'paused');
    const pressedMs = await lastPressMs();
    await page.getByRole('heading', { name: 'Call for help' }).waitFor();
    await wait(3000);
    const after = await readTap(page);

    expect(loud.onsetsMs.length).toBeGreaterThan(0);
    expect(after.onsetsMs.filter((atMs) => atMs > pressedMs + 100)).toEqual([]);
    expect(after.audibleUntilMs).toBeLessThan(pressedMs + 200);
  });

  test('comes by the key h as well; no remote key goes on from it, only Carry on does', async () => {
    await classAt(isAt('work', 'squat'));
    await page.keyboard.press('h');
    await page.getByRole('heading', { name: 'Call for help' }).waitFor();

    for (const key of [' ', 'Enter', 'PageDown', 'n', 'd', 'ArrowLeft']) await page.keyboard.press(key);
    await wait(600);

    expect((await hallNow(page)).status).toBe('paused');
    await untilMarks('started', 'skip', 'paused');
    await press(page, 'Carry on');
    await untilHall(page, isAt('countIn', 'squat'));
  });
});

describe('what ends a class', () => {
  test('Finish does nothing when pressed, and ends the class when held for a second', async () => {
    await classAt(isAt('work', 'squat'));

    await press(page, 'Finish');
    await hold(page, 'Finish', 600);
    await untilSaid(page, 'Hold for a second');
    const afterShort = await hallNow(page);
    await hold(page, 'Finish', 1100);
    await untilStatus(page, 'finished');

    expect(afterShort.status).toBe('running');
    await expect.poll(async () => (await markKinds(page)).slice(-2)).toEqual(['finishEarly', 'finished']);
    await page.getByRole('heading', { name: 'Class over' }).waitFor();
  });

  test('the key f ends it when held for a second and not before', async () => {
    await classAt(isAt('work', 'squat'));

    await page.keyboard.down('f');
    await wait(500);
    await page.keyboard.up('f');
    await wait(700);
    const afterShort = await hallNow(page);
    await page.keyboard.down('f');
    await untilStatus(page, 'finished');
    await page.keyboard.up('f');

    expect(afterShort.status).toBe('running');
    const heldMs = (await hallNow(page)).monoMs - (await lastPressMs());
    expect(heldMs).toBeGreaterThanOrEqual(1000);
  });

  test('Abandon needs a pause and a second, and the record says so', async () => {
    await classAt(isAt('work', 'squat'));

    const whileRunning = await page.getByRole('button', { name: 'Abandon', exact: true }).count();
    await press(page, 'Pause');
    await untilStatus(page, 'paused');
    await hold(page, 'Abandon', 500);
    const afterShort = await hallNow(page);
    await hold(page, 'Abandon', 1100);
    await untilStatus(page, 'abandoned');

    expect(whileRunning).toBe(0);
    expect(afterShort.status).toBe('paused');
    await expect.poll(async () => (await lastKept(page)).head.outcome).toBe('abandoned');
  });
});

test('the sound check plays the cues one after the other and starts nothing', async () => {
  await enterHall(page, phone.url, plan.id);
  const classes = (await keptClasses(page)).length;

  await press(page, 'Sound check');
  const pressedMs = await lastPressMs();
  await expect.poll(async () => (await readTap(page)).onsetsMs.length, { timeout: 10_000 }).toBeGreaterThanOrEqual(4);
  const { onsetsMs } = await readTap(page);

  // Three ticks and a start, 0.9 s apart; the first may wait for the sound device.
  const ticks = onsetsMs.slice(1, 4).map((atMs) => Math.round((atMs - pressedMs) / 100) / 10);
  expect(ticks).toEqual([0.9, 1.8, 2.7].map((atSeconds) => expect.closeTo(atSeconds, 0)));
  expect((await hallNow(page)).status).toBe('ready');
  expect(await keptClasses(page)).toHaveLength(classes);
});

test('a rehearsal runs eight times as fast and is not kept', async () => {
  await enterHall(page, phone.url, plan.id);
  const classes = (await keptClasses(page)).length;

  await press(page, 'Rehearse');
  const first = await untilHall(page, isAt('work', 'squat'));
  const second = await untilHall(page, isAt('changeover', 'one-arm-row'));
  await untilSaid(page, 'Rehearsal');

  expect(Math.abs((second.monoMs - first.monoMs) * 8 - 40_000)).toBeLessThan(3000);
  expect(second.kept).toBe('');
  await hold(page, 'Finish', 1100);
  await untilStatus(page, 'finished');
  expect(await keptClasses(page)).toHaveLength(classes);
});

test('Back stays in the class and nothing is added to the history', async () => {
  await page.goto(`${phone.url}/#/plans`);
  await enterHall(page, phone.url, plan.id);
  const before = await page.evaluate(() => history.length);
  await press(page, 'Start class');
  await untilStatus(page, 'running');

  await page.evaluate(() => history.back());
  await wait(600);
  await page.evaluate(() => history.back());
  await wait(600);

  expect(page.url()).toBe(`${phone.url}/#/hall/${plan.id}`);
  expect((await hallNow(page)).status).toBe('running');
  expect(await page.evaluate(() => history.length)).toBe(before);
  // The hall never left the screen in between.
  const statuses = await everyStatus();
  expect(statuses.slice(statuses.indexOf('running'))).not.toContain('');
});

test('a second window stands back, and once the class runs there the first falls silent and writes no more', async () => {
  await classAt(isAt('work', 'squat'), short.id);
  const second = await chromium.context.newPage();
  await second.goto(`${phone.url}/#/hall/${short.id}`);
  await second.getByRole('heading', { name: 'This class runs in another window' }).waitFor();
  // Near enough to the count for its ticks to be handed over to the first window's sound device already.
  const whileMine = await untilHall(page, ({ left }) => left === '5');
  const halls = await second.locator('[data-hall]').count();

  await press(second, 'Run it here');
  const taken = await untilHall(second, isAt('work', 'squat'));
  await page.getByRole('heading', { name: 'This class runs in another window' }).waitFor();
  const lostMs = (await hallNow(page)).monoMs;
  await untilHall(second, ({ left }) => left === '2');
  await page.bringToFront();
  for (const key of ['n', 'PageDown', 'h']) await page.keyboard.press(key);
  await second.bringToFront();
  await untilHall(second, isAt('work', 'back-lunge'));
  await wait(500);

  expect(halls).toBe(0);
  expect(whileMine.status).toBe('running');
  // The same second, by the wall clock that both windows have.
  const passed = (taken.wallMs - whileMine.wallMs) / 1000;
  expect(Math.abs(Number(whileMine.left) - passed - Number(taken.left))).toBeLessThanOrEqual(1);
  expect((await readTap(page)).onsetsMs.filter((atMs) => atMs > lostMs + 100)).toEqual([]);
  expect((await readTap(second)).onsetsMs.length).toBeGreaterThanOrEqual(3);
  const { marks, beat } = await lastKept(second);
  expect(marks.map((mark) => (mark.kind === 'changed' ? mark.why : mark.kind))).toEqual([
    'started',
    'skip',
    'skip',
    'away',
  ]);
  expect(beat?.life).toBeGreaterThan(marks[1]?.seen.life ?? Number.NaN);
  await page.bringToFront();
  await press(page, 'Run it here');
  await untilHall(page, isAt('work', 'back-lunge'));
});

describe('after a gap', () => {
  test('"Go back to where it stopped" is offered for 20 s and goes back to the second of the stop', async () => {
    await classAt(isAt('work', 'squat'));
    await wait(2200);
    await page.goto('about:blank');
    await wait(3000);
    await page.goto(phone.url);
    const back = await untilHall(page, isAt('work', 'squat'));
    const stopped = (await lastKept(page)).marks.find(({ kind }) => kind === 'away');

    await press(page, 'Go back to where it stopped');
    const after = await untilHall(page, ({ left }) => Number(left) > Number(back.left));

    expect(stopped).toMatchObject({ kind: 'away' });
    const awayMs = stopped?.kind === 'away' ? stopped.byMs : 0;
    expect(awayMs).toBeGreaterThan(2500);
    const goneMs = after.monoMs - back.monoMs;
    const shouldBe = Number(back.left) + awayMs / 1000;
    expect(Math.abs(Number(after.left) - shouldBe)).toBeLessThanOrEqual(1 + goneMs / 1000);
    await expect.poll(async () => (await markKinds(page)).at(-1)).toBe('stood');
    expect(await page.getByRole('button', { name: 'Go back to where it stopped' }).count()).toBe(0);
  });

  test('of more than ten minutes the class stands and asks; the answer "It ran on without me" moves it there', async () => {
    const before = await classAt(isAt('work', 'squat'));
    await wait(2200);
    await setWallAhead(page, 11 * 60_000);
    await page.reload();
    const asks = await untilStatus(page, 'asking');
    await page.getByRole('heading', { name: /The phone was away for 11 minutes/ }).waitFor();

    await press(page, 'It ran on without me');
    const after = await untilHall(page, ({ status }) => status !== 'asking');

    expect(asks.moves).toBe('squat');
    // Eleven minutes are more than both rounds and less than what an open wait point lets pass.
    expect(after).toMatchObject({ status: 'waiting', kind: 'wait' });
    expect(before.kind).toBe('work');
    await untilMarks('started', 'skip', 'asked', 'ranOn');
  });

  test('of more than ten minutes, Carry on counts in where the class stood', async () => {
    await classAt(isAt('work', 'squat'));
    await wait(2200);
    await setWallAhead(page, 11 * 60_000);
    await page.reload();
    const asks = await untilStatus(page, 'asking');

    await press(page, 'Carry on');
    await untilHall(page, isAt('countIn', 'squat'));
    await press(page, 'Next move');
    const works = await untilHall(page, isAt('work', 'squat'));

    expect(Math.abs(Number(works.left) - Number(asks.left))).toBeLessThanOrEqual(1);
    await untilMarks('started', 'skip', 'asked', 'carriedOn', 'countIn', 'skip');
  });
});
