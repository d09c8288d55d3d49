import { setTimeout as wait } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import type { Mark } from '../../src/class-run/marks.ts';
import type { OpenChromium } from './support/chromium.ts';
import { shouldShow, showsOf } from './support/class-times.ts';
import { openPlanFile, press, startClass, untilHall, untilStatus } from './support/hall.ts';
import { type HallSeen, hallNow, watchHalls } from './support/hall-watch.ts';
import { forgetClasses, lastKept, markKinds } from './support/kept-rows.ts';
import { newPhone, type Phone } from './support/phone.ts';
import { longSpansClass } from './support/short-classes.ts';

/** One killing and what came of it, for the table at the end. */
type Outcome = {
  readonly killedIn: string;
  readonly server: 'up' | 'stopped';
  readonly goneMs: number;
  readonly before: string;
  readonly after: string;
  readonly promised: number;
  readonly kept: number;
  readonly lost: number;
};

const plan = longSpansClass();
const outcomes: Outcome[] = [];

let phone: Phone;
let chromium: OpenChromium;
let page: Page;
/** What the page last told about itself before it died: a promise that it made to whoever looked. */
let lastTold: HallSeen | null = null;
/** Called at the very moment the page tells that something more is kept. */
let onKept: (() => void) | null = null;

/** Opens the browser as a person does after the phone came back: on the app's address, whatever is there. */
async function switchOn(): Promise<void> {
  chromium = await phone.open();
  page = chromium.page;
  await watchHalls(chromium.context);
  await chromium.context.exposeFunction('tellHall', (seen: HallSeen) => {
    const isKeptMore = Number(seen.kept) > Number(lastTold?.kept);
    lastTold = seen;
    if (isKeptMore) onKept?.();
  });
  await page.goto(phone.url);
}

beforeAll(async () => {
  phone = await newPhone();
  await switchOn();
  await page.getByText('opens without a network').waitFor();
  await openPlanFile(page, phone.url, plan);
});

afterEach(async () => {
  await forgetClasses(page);
  await page.reload();
});

afterAll(async () => {
  await phone.end();
  process.stdout.write(`${tableOf(outcomes)}\n`);
});

function tableOf(rows: readonly Outcome[]): string {
  const lines = rows.map((row) => [
    row.killedIn.padEnd(26),
    row.server.padEnd(8),
    `${(row.goneMs / 1000).toFixed(1)} s`.padStart(7),
    row.before.padEnd(34),
    row.after.padEnd(34),
    `${row.promised}`.padStart(4),
    `${row.kept}`.padStart(4),
    `${row.lost}`.padStart(4),
  ]);
  const head = `${'killed in'.padEnd(26)}  server       gone  ${'before'.padEnd(34)}  ${'after'.padEnd(34)}  told kept lost`;
  return [`${rows.length} times killed`, head, ...lines.map((line) => line.join('  '))].join('\n');
}

const say = (seen: HallSeen): string => `${seen.status} ${showsOf(seen)} ${seen.left}`;

/** A press of this button twice within this is taken for one. */
const APART_MS = 450;

/** Starts a class and goes on by "Next move" until it is where it is to be killed. */
async function goTo(fits: (seen: HallSeen) => boolean): Promise<void> {
  let seen = await hallNow(page);
  if (seen.status === '' || seen.status === 'ready') seen = await startClass(page, phone.url, plan.id);
  while (!fits(seen)) {
    await press(page, 'Next move');
    await wait(APART_MS);
    seen = await hallNow(page);
  }
}

type Killing = {
  readonly killedIn: string;
  readonly goneMs: number;
  readonly serverStops: boolean;
  /** Happens last of all before the end. */
  readonly lastly?: () => Promise<unknown>;
};

/** `before` is the last that the page told before it died: just then the second on the screen had changed. */
type Survived = { readonly before: HallSeen; readonly after: HallSeen };

/** Kills the browser, waits, opens it again, and looks whether every mark is there that was told to be kept. */
async function killAndResume({ killedIn, goneMs, serverStops, lastly }: Killing): Promise<Survived> {
  if (serverStops) await phone.stopServer();
  const known = (await lastKept(page)).marks;
  await lastly?.();
  const killedWallMs = Date.now();
  await chromium.kill();
  const before = lastTold;
  if (before === null) throw new Error('the page has told nothing');
  await wait(goneMs);
  await switchOn();
  const after = await untilHall(page, ({ status }) => status !== '');
  await phone.startServer();
  const { marks } = await lastKept(page);
  // What was written since it was opened again makes up for nothing.
  const survived = marks.filter(({ seen }) => seen.wallMs <= killedWallMs);
  const promised = Number(before.kept);
  outcomes.push({
    killedIn,
    server: serverStops ? 'stopped' : 'up',
    goneMs: after.wallMs - before.wallMs,
    before: say(before),
    after: say(after),
    promised,
    kept: survived.length - 1,
    lost: Math.max(0, promised + 1 - survived.length),
  });
  expect(marks.map(({ seq }) => seq)).toEqual(marks.map((_, at) => at));
  expectAllKept(known, survived, promised);
  await expectRightSecond(after);
  return { before, after };
}

function expectAllKept(known: readonly Mark[], survived: readonly Mark[], promised: number): void {
  expect(promised).toBeGreaterThanOrEqual(0);
  expect(survived.length).toBeGreaterThan(promised);
  expect(survived.slice(0, known.length)).toEqual(known);
}

/** By the wall clock and the marks, and nothing that the page remembers. */
async function expectRightSecond(after: HallSeen): Promise<void> {
  const should = shouldShow(await lastKept(page), after.wallMs);
  expect({ status: after.status, span: after.span, shows: showsOf(after) }).toEqual({
    status: should.status,
    span: String(should.span),
    shows: should.shows,
  });
  if (after.left !== '') expectSecond(after, should.leftMs);
}

/** The second on the screen is that of so much time left, or the one beside it. */
function expectSecond({ left }: HallSeen, leftMs: number): void {
  expect(Math.abs(Number(left) - Math.ceil(leftMs / 1000))).toBeLessThanOrEqual(1);
}

/** The span that was on the screen is there again, as much further as the wall clock has gone. */
function expectRunOn({ before, after }: Survived): void {
  expect({ shows: showsOf(after), status: after.status, span: after.span }).toEqual({
    shows: showsOf(before),
    status: before.status,
    span: before.span,
  });
  if (before.left === '') expect(after.left).toBe('');
  else expectSecond(after, Number(before.left) * 1000 - (after.wallMs - before.wallMs));
}

const FOUR_TIMES = [
  { goneMs: 0, serverStops: false },
  { goneMs: 1200, serverStops: true },
  { goneMs: 300, serverStops: true },
  { goneMs: 2000, serverStops: false },
];

test('killed four times in work, the class is back in the right second of it', async () => {
  await goTo(({ kind, moves }) => kind === 'work' && moves === 'squat');

  for (const [at, how] of FOUR_TIMES.entries()) {
    await wait(at * 500);
    expectRunOn(await killAndResume({ killedIn: 'work', ...how }));
  }
});

test('killed four times in a changeover, the class is back in the right second of it', async () => {
  await goTo(({ kind, moves }) => kind === 'changeover' && moves === 'one-arm-row');

  for (const [at, how] of FOUR_TIMES.entries()) {
    await wait(at * 500);
    expectRunOn(await killAndResume({ killedIn: 'changeover', ...how }));
  }
});

test('killed four times in a pause, the class stands at the very second at which it stood', async () => {
  await goTo(({ kind }) => kind === 'work');

  for (const [at, how] of FOUR_TIMES.entries()) {
    await wait(at * 300 + APART_MS);
    await press(page, 'Pause');
    await untilStatus(page, 'paused');
    await expect.poll(async () => (await markKinds(page)).at(-1)).toBe('paused');
    const { before, after } = await killAndResume({ killedIn: 'pause', ...how });
    expect(say(after)).toBe(say(before));
    await press(page, 'Carry on');
    await untilStatus(page, 'running');
    // Into the rest of the work every other time; else the next pause is in the count-in.
    if (at % 2 === 0) await press(page, 'Next move');
  }
});

test('killed four times at wait points, of both kinds, the class waits where it waited', async () => {
  const kinds = [(left: string) => left === '', (left: string) => left !== ''];
  for (const [at, isKind] of kinds.entries()) {
    await goTo(({ kind, left }) => kind === 'wait' && isKind(left));
    for (const how of FOUR_TIMES.slice(at * 2, at * 2 + 2)) {
      await wait(600);
      const killedIn = at === 0 ? 'wait point, when asked' : 'wait point, by itself';
      expectRunOn(await killAndResume({ killedIn, ...how }));
    }
  }
});

test('killed four times while a press is being saved, nothing that was told to be kept is lost', async () => {
  await goTo(({ kind }) => kind === 'work');
  const presses = [
    { key: 'ArrowUp', when: 'at once', killMs: 0 },
    { key: 'n', when: 'at the word', killMs: null },
    { key: 'ArrowDown', when: '15 ms after', killMs: 15 },
    { key: 'd', when: 'at the word', killMs: null },
  ];

  for (const [at, { key, when, killMs }] of presses.entries()) {
    const how = FOUR_TIMES[at] ?? { goneMs: 0, serverStops: false };
    const toldOf = new Promise<void>((told) => {
      onKept = told;
    });
    const lastly = async () => {
      void page.keyboard.press(key).catch(() => undefined);
      await (killMs === null ? toldOf : wait(killMs));
    };
    await wait(500);
    await killAndResume({ killedIn: `saving, ${key}, ${when}`, ...how, lastly });
  }
});
