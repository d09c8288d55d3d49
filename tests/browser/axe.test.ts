import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import type { Plan } from '../../src/plan/plan.ts';
import { aBlock, anEntry, aPlan, aWait } from '../builders/small-plan.ts';
import { axeFaults } from './support/axe.ts';
import { enterHall, hold, openPlanFile, press, startClass, untilHall, untilStatus } from './support/hall.ts';
import { hallNow, watchHalls } from './support/hall-watch.ts';
import { movableWall, setWallAhead } from './support/page-clocks.ts';
import { ON_ITS_SIDE, openScreens, resize, type Screens, sizeName, UPRIGHT, untilSettled } from './support/screens.ts';

/** As in the app: two presses of one button closer than this are one. */
const APART_MS = 450;
let screens: Screens;
const contexts: BrowserContext[] = [];

beforeAll(async () => {
  screens = await openScreens();
});

afterAll(() => screens.end());

afterEach(async () => {
  for (const context of contexts.splice(0)) await context.close();
});

async function newPhone(options: Parameters<Screens['newContext']>[0] = {}): Promise<Page> {
  const context = await screens.newContext({ viewport: UPRIGHT, ...options });
  contexts.push(context);
  await watchHalls(context);
  await movableWall(context);
  return context.newPage();
}

/** Looks at the page on a phone held either way. */
async function faultsOf(page: Page, what: string): Promise<readonly string[]> {
  const found: string[] = [];
  for (const size of [UPRIGHT, ON_ITS_SIDE]) {
    await resize(page, size);
    found.push(...(await axeFaults(page)).map((fault) => `${what} ${sizeName(size)}: ${fault}`));
  }
  return found;
}

async function faultsAt(page: Page, hash: string, seen: string): Promise<readonly string[]> {
  await page.goto(`${screens.url}/${hash}`);
  await page.getByText(seen).first().waitFor();
  return faultsOf(page, hash);
}

/** Nearly every span is so long that nothing changes while it is looked at. */
function longClass(): Plan {
  const doing = (moveId: string, change: Parameters<typeof anEntry>[1] = {}) =>
    anEntry(moveId, { dose: { kind: 'seconds', seconds: 600 }, ...change });
  const entries = [
    doing('squat'),
    doing('one-arm-row', { changeoverSeconds: 300 }),
    // A swap comes by itself only: "Next move" leaves both sides.
    doing('step-up', { dose: { kind: 'seconds', seconds: 5 }, swapSeconds: 300 }),
    aWait({ id: 'gate', goesOn: 'whenAsked', why: 'find a partner', seconds: 300 }),
    doing('bridge'),
    aWait({ id: 'hook', seconds: 300, why: 'hook the band' }),
    anEntry('band-row', { dose: { kind: 'seconds', seconds: 9 } }),
    doing('side-plank', { changeoverSeconds: 300 }),
  ];
  return aPlan([aBlock(entries, { rounds: 2, breatherSeconds: 300 })], {
    id: 'long',
    name: 'Long ones',
    countInSeconds: 300,
  });
}

async function nextMove(page: Page): Promise<void> {
  await new Promise((over) => setTimeout(over, APART_MS));
  await press(page, 'Next move');
}

async function pause(page: Page): Promise<void> {
  await press(page, 'Pause');
  await untilStatus(page, 'paused');
}

describe('axe-core finds nothing', () => {
  test('on any page but the hall, with nothing on the phone and after a class', async () => {
    const page = await newPhone();
    const found: string[] = [];
    const see = async (hash: string, seen: string): Promise<void> =>
      void found.push(...(await faultsAt(page, hash, seen)));

    await see('#/', 'opens without a network');
    await see('#/review', 'No class has run');
    await see('#/plans', 'Open a plan file');
    const broken = { name: 'broken.json', mimeType: 'application/json', buffer: Buffer.from('{') };
    await page.getByLabel('Open a plan file').setInputFiles(broken);
    await page.getByText('cannot be read as JSON').waitFor();
    found.push(...(await faultsOf(page, 'a refused file')));
    await openPlanFile(page, screens.url, longClass());
    found.push(...(await faultsOf(page, 'an opened file')));
    await see('#/plans/demo-class', 'Run this class');
    await see('#/plans/long', 'find a partner');
    for (const place of ['moves', 'courses', 'backups']) await see(`#/${place}`, 'not built yet');
    await see('#/plans/no-such-plan', 'no such plan');
    await see('#/hall/no-such-plan', 'no such plan');
    await see('#/review/no-such-class', 'no such class');
    await see('#/nowhere/at/all', 'leads nowhere');

    await startClass(page, screens.url, 'long');
    await hold(page, 'Finish', 1200);
    await untilStatus(page, 'finished');
    await see('#/review', 'Long ones');
    await page.getByRole('link', { name: 'Long ones' }).click();
    await page.getByText('What happened').waitFor();
    found.push(...(await faultsOf(page, 'a record')));

    expect(found).toEqual([]);
  });

  test('in the hall in any condition of a class', async () => {
    const page = await newPhone();
    const found: string[] = [];
    const conditions: string[] = [];
    const see = async (what: string): Promise<void> => {
      const { status, kind } = await hallNow(page);
      // Whoever was away stands where the last beat was kept, which may be a span before.
      conditions.push(status === 'asking' ? status : `${status} ${kind}`.trim());
      found.push(...(await faultsOf(page, what)));
    };
    await openPlanFile(page, screens.url, longClass());
    await enterHall(page, screens.url, 'long');
    await see('ready');
    await press(page, 'Start class');
    await untilHall(page, ({ kind }) => kind === 'countIn');
    await see('count-in');
    const goOnTo = async (what: string, wanted: string): Promise<void> => {
      await nextMove(page);
      await untilHall(page, ({ kind }) => kind === wanted);
      await see(what);
    };
    await goOnTo('work', 'work');
    await goOnTo('changeover', 'changeover');
    await goOnTo('first side', 'work');
    await nextMove(page);
    await untilHall(page, ({ kind }) => kind === 'sideChange');
    await see('swap');
    await goOnTo('gate', 'wait');
    await pause(page);
    await see('paused');
    await press(page, "Someone's hurt");
    await page.getByRole('heading', { name: 'Call for help' }).waitFor();
    await see('hurt');
    await press(page, 'Carry on');
    await untilStatus(page, 'waiting');
    await press(page, 'Carry on');
    await untilHall(page, ({ kind, moves }) => kind === 'work' && moves === 'bridge');
    await see('lying');
    const other = await page.context().newPage();
    await other.goto(`${screens.url}/#/hall/long`);
    await other.getByText('runs in another window').waitFor();
    found.push(...(await faultsOf(other, 'other window')));
    await other.close();

    // Away from the app first, so that it notices nothing of the clock before it opens again.
    await page.goto(`${screens.url}/icons/icon-192.png`);
    await setWallAhead(page, 20 * 60_000);
    await page.goto(screens.url);
    await untilStatus(page, 'asking');
    await see('asking');
    await press(page, 'Carry on');
    await untilHall(page, ({ kind }) => kind === 'countIn');
    await nextMove(page);
    await goOnTo('goes on by itself', 'wait');
    await hold(page, 'Finish', 1200);
    await untilStatus(page, 'finished');
    await see('finished');

    await page.goto(`${screens.url}/#/`);
    await startClass(page, screens.url, 'long');
    await pause(page);
    await hold(page, 'Abandon', 1200);
    await untilStatus(page, 'abandoned');
    await see('abandoned');

    expect(found).toEqual([]);
    expect(conditions).toEqual([
      'ready',
      'running countIn',
      'running work',
      'running changeover',
      'running work',
      'running sideChange',
      'waiting wait',
      'paused wait',
      'paused wait',
      'running work',
      'asking',
      'waiting wait',
      'finished',
      'abandoned',
    ]);
  });

  test.each([
    ['forced colours', { forcedColors: 'active' }],
    ['reduced motion', { reducedMotion: 'reduce' }],
  ] as const)('with %s', async (_what, options) => {
    const page = await newPhone(options);
    const found: string[] = [];
    await openPlanFile(page, screens.url, longClass());
    found.push(
      ...(await faultsAt(page, '#/', 'Run this class')),
      ...(await faultsAt(page, '#/plans/long', 'find a partner')),
    );
    await enterHall(page, screens.url, 'long');
    found.push(...(await faultsOf(page, 'ready')));
    await press(page, 'Start class');
    await untilHall(page, ({ kind }) => kind === 'countIn');
    found.push(...(await faultsOf(page, 'count-in')));
    await nextMove(page);
    await untilHall(page, ({ kind }) => kind === 'work');
    found.push(...(await faultsOf(page, 'work')));
    await pause(page);
    await untilSettled(page);
    found.push(...(await faultsOf(page, 'paused')));

    expect(found).toEqual([]);
  });
});
