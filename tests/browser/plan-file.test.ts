import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { writePlanFile } from '../../src/exchange/plan-file.ts';
import type { Move } from '../../src/moves/move.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { aBlock, aMove, anEntry, aPlan, aTalk, aWait } from '../builders/small-plan.ts';
import { enterHall, hold, press, startClass, untilHall, untilStatus } from './support/hall.ts';
import { watchHalls } from './support/hall-watch.ts';
import { lastKept } from './support/kept-rows.ts';
import { openScreens, type Screens } from './support/screens.ts';
import { dumpStored } from './support/stored-dump.ts';

let screens: Screens;
let context: BrowserContext;
let page: Page;

beforeAll(async () => {
  screens = await openScreens();
});

afterAll(() => screens.end());

/** A phone that has seen nothing yet, on its page of plans. */
async function openPhone(): Promise<void> {
  context = await screens.newContext({ serviceWorkers: 'block' });
  await watchHalls(context);
  page = await context.newPage();
  await toPlans();
}

const closePhone = () => context.close();

/** By way of the start page, so that nothing is left of what the page of plans said before. */
async function toPlans(): Promise<void> {
  await page.goto(`${screens.url}/#/`);
  await page.getByRole('link', { name: 'Run this class' }).waitFor();
  await page.goto(`${screens.url}/#/plans`);
  await page.getByLabel('Open a plan file').waitFor({ state: 'attached' });
}

/** Opens a file of this text and gives what the page says about it. */
async function answerTo(text: string | Buffer, name = 'plan.json'): Promise<string> {
  const buffer = Buffer.from(text);
  await page.getByLabel('Open a plan file').setInputFiles({ name, mimeType: 'application/json', buffer });
  const answer = page.locator('.open-plan-answer:not(:empty)');
  await answer.waitFor();
  return (await answer.textContent()) ?? '';
}

const doing = (moveId: string, seconds: number) => anEntry(moveId, { dose: { kind: 'seconds', seconds } });

const goodPlan = (): Plan =>
  aPlan([aBlock([doing('squat', 5), doing('own-hop', 5)])], { id: 'good', name: 'A good one', countInSeconds: 2 });
const ownHop = (): Move => aMove('own-hop', { name: 'Own hop', hallName: 'Own hop' });
const goodText = (): string => writePlanFile(goodPlan(), [ownHop()]);

describe('a good plan file', () => {
  beforeEach(openPhone);
  afterEach(closePhone);

  test('becomes a plan that is listed, read, still there after a reload, and run to its end', async () => {
    const answer = await answerTo(goodText());
    await page.reload();
    await page.getByRole('link', { name: 'A good one' }).click();
    await page.getByRole('heading', { name: 'A good one' }).waitFor();
    const sheet = await page.locator('main').textContent();
    await page.getByRole('link', { name: 'Run this class' }).click();
    await untilStatus(page, 'ready');
    await press(page, 'Start class');
    await untilHall(page, ({ moves }) => moves === 'own-hop');
    await untilStatus(page, 'finished');

    expect(answer).toBe('Opened: A good one');
    expect(sheet).toContain('Own hop');
    await expect.poll(async () => (await lastKept(page)).head).toMatchObject({ planId: 'good', outcome: 'finished' });
  });

  test('opened again, mended, takes the place of what was there before', async () => {
    await answerTo(goodText());
    const mended = { ...goodPlan(), rev: 'rev-2', parentRev: 'rev-1', name: 'A better one' };
    await answerTo(writePlanFile(mended, [ownHop()]));
    await page.reload();
    await page.getByRole('link', { name: 'A better one' }).waitFor();

    expect(await page.getByRole('link', { name: 'A good one' }).count()).toBe(0);
  });
});

type Json = Record<string, unknown>;

/** The good file's text with one thing in it changed; `at` leads to the object that is changed. */
function bent(at: readonly (string | number)[], change: (here: Json) => void): string {
  const file: Json = JSON.parse(goodText());
  const here = at.reduce<unknown>((value, key) => Reflect.get(Object(value), key), file);
  change(Object(here));
  return JSON.stringify(file);
}

/** As `bent`, with one field set. */
const set = (at: readonly (string | number)[], key: string, value: unknown): string =>
  bent(at, (here) => {
    here[key] = value;
  });

/** As `set`, with the value written as given: for what JSON can say and JavaScript cannot. */
const setText = (at: readonly (string | number)[], key: string, text: string): string =>
  set(at, key, '<here>').replace('"<here>"', () => text);

const BLOCK = ['plan', 'blocks', 0] as const;
const ENTRY = [...BLOCK, 'entries', 0] as const;
const MOVE = ['moves', 0] as const;

const megabytes = (count: number): string => goodText().replace('"A good one"', `"${'x'.repeat(count * 1_000_000)}"`);

describe('a plan file is refused whole, with a sentence that names the field, and nothing is changed:', () => {
  const refusals: readonly (readonly [what: string, text: () => string | Buffer, sentence: string])[] = [
    ['no JSON', () => 'squat 30 s, rest 10 s', 'This file is not a plan file: its text cannot be read as JSON.'],
    ['cut off', () => goodText().slice(0, -40), 'This file is not a plan file: its text cannot be read as JSON.'],
    ['empty', () => '', 'This file is not a plan file: its text cannot be read as JSON.'],
    [
      'bytes that are no text',
      () => Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 16, 0x4a]),
      'This file is not a plan file: its text cannot be read as JSON.',
    ],
    ['of something else', () => '{"format":"something-else","v":1}', 'This file is not a plan file of this app.'],
    ['a list', () => '[]', 'This file is not a plan file of this app.'],
    [
      'too new',
      () => set([], 'v', 2),
      'This plan file was written by a newer version of this app. Update the app, then open it again.',
    ],
    ['a version that is none', () => set([], 'v', '1'), 'The version must be a whole number from 1.'],
    ['10 MB', () => megabytes(10), 'This file is larger than a plan can be (1 MB).'],
    [
      'just over 1 MB, in letters of two bytes',
      () => set(['plan'], 'about', 'ä'.repeat(530_000)),
      'This file is larger than a plan can be (1 MB).',
    ],
    [
      'nested 5,000 deep',
      () => setText(['plan'], 'about', '['.repeat(5000) + ']'.repeat(5000)),
      'This file is not a plan file: its lists lie too deep inside one another.',
    ],
    [
      'nested 5,000 deep in objects',
      () => setText(['plan'], 'about', `${'{"a":'.repeat(5000)}1${'}'.repeat(5000)}`),
      'This file is not a plan file: its lists lie too deep inside one another.',
    ],
    [
      'a key __proto__',
      () => goodText().replace('"format"', '"__proto__": {"isLive": true}, "format"'),
      '"__proto__" is not something this version knows.',
    ],
    [
      'a key __proto__ in an entry',
      () => goodText().replace('"moveId"', '"__proto__": {"locked": true}, "moveId"'),
      'Block 1, entry 1: "__proto__" is not something this version knows.',
    ],
    [
      'a key constructor',
      () => set(BLOCK, 'constructor', { prototype: { rounds: 1 } }),
      'Block 1: "constructor" is not something this version knows.',
    ],
    ['an id __proto__', () => set(['plan'], 'id', '__proto__'), 'The id must be 1 to 64 letters, digits, "-" or "_".'],
    [
      'a move called constructor',
      () => set(MOVE, 'id', 'constructor'),
      'Move 1: the id of the move must be 1 to 64 lower-case letters, digits or "-".',
    ],
    [
      'the same key twice',
      () => goodText().replace('"countInSeconds"', '"name": "Other", "countInSeconds"'),
      '"name" stands twice.',
    ],
    [
      'a missing field',
      () => bent(BLOCK, (block) => Reflect.deleteProperty(block, 'rounds')),
      'Block 1: the number of rounds is missing.',
    ],
    [
      'a field too many',
      () => set(ENTRY, 'onload', 'alert(1)'),
      'Block 1, entry 1: "onload" is not something this version knows.',
    ],
    [
      'a field called by markup',
      () => set(ENTRY, '<img src=x onerror=alert(1)>', 1),
      'Block 1, entry 1: "<img src=x onerror=alert(1)>" is not something this version knows.',
    ],
    [
      'work of 4 s',
      () => set([...ENTRY, 'dose'], 'seconds', 4),
      'Block 1, entry 1: the work time must be 5 seconds to 60 minutes, in whole seconds.',
    ],
    [
      'work of 1e308 s',
      () => setText([...ENTRY, 'dose'], 'seconds', '1e308'),
      'Block 1, entry 1: the work time must be 5 seconds to 60 minutes, in whole seconds.',
    ],
    [
      'a number beyond all numbers',
      () => setText([...ENTRY, 'dose'], 'seconds', '1e999'),
      'Block 1, entry 1: the work time must be 5 seconds to 60 minutes, in whole seconds.',
    ],
    [
      'half a second',
      () => set(['plan'], 'countInSeconds', 0.5),
      'The count-in must be 0 seconds to 10 minutes, in whole seconds.',
    ],
    [
      'less than nothing',
      () => set(ENTRY, 'changeoverSeconds', -1),
      'Block 1, entry 1: the changeover must be 0 seconds to 10 minutes, in whole seconds.',
    ],
    ['1,000,000,000 rounds', () => set(BLOCK, 'rounds', 1e9), 'Block 1: the number of rounds must be 1 to 20.'],
    [
      '201 entries',
      () =>
        bent(BLOCK, (block) => {
          block['entries'] = Array.from({ length: 201 }, (_, at) => ({ ...doing('squat', 5), id: `e${at}` }));
        }),
      'Block 1: the list of entries must be a list of 1 to 200 entries.',
    ],
    [
      'a lone surrogate',
      () => setText(['plan'], 'name', '"Torn \\ud83d"'),
      'The name must be 1 to 80 characters on one line.',
    ],
    [
      'a lone surrogate in a form point',
      () => setText(MOVE, 'formPoints', '["\\udc00"]'),
      'Move 1: a form point must be 1 to 240 characters on one line.',
    ],
    [
      'a name on two lines',
      () => set(['plan'], 'name', 'One\ntwo'),
      'The name must be 1 to 80 characters on one line.',
    ],
    [
      'a name with a zero in it',
      () => set(['plan'], 'name', 'No\u0000thing'),
      'The name must be 1 to 80 characters on one line.',
    ],
    [
      'a name that turns the writing round',
      () => set(['plan'], 'name', 'Class \u202egpj.exe'),
      'The name must be 1 to 80 characters on one line.',
    ],
    [
      'markup longer than a name may be',
      () => set(['plan'], 'name', '<script src="//example.org/">'.repeat(4)),
      'The name must be 1 to 80 characters on one line.',
    ],
    [
      'markup as the short name',
      () => set(MOVE, 'hallName', '<script>alert(1)</script>'),
      'Move 1: the short name for the hall must be 1 to 10 characters.',
    ],
    [
      'markup as an id',
      () => set(BLOCK, 'id', '"><script>'),
      'Block 1: the id must be 1 to 64 letters, digits, "-" or "_".',
    ],
    [
      'a figure called by markup',
      () => set(MOVE, 'figure', '<svg onload=alert(1)>'),
      'Move 1: the figure must be 1 to 64 letters, digits, "-" or "_".',
    ],
    [
      'a move that is nowhere',
      () => set(ENTRY, 'moveId', 'no-such-move'),
      'Block 1, entry 1: the move is neither in the library nor in the file.',
    ],
    [
      'another squat than ours',
      () => set(MOVE, 'id', 'squat'),
      'Move 1: the library has another move under this id, so the one in the file needs an id of its own.',
    ],
  ];

  // One phone for all of them: none may leave anything behind for the next.
  beforeAll(async () => {
    await openPhone();
    await answerTo(writePlanFile({ ...goodPlan(), id: 'before', name: 'There before' }, [ownHop()]));
  });
  afterAll(closePhone);

  test.each(refusals)('%s', async (_what, text, sentence) => {
    await toPlans();
    const before = await dumpStored(page);

    const answer = await answerTo(text());
    const after = await dumpStored(page);
    const plans = await page.locator('.plan-row-name').allTextContents();

    expect(answer).toBe(sentence);
    expect(before).toContain('There before');
    expect(after).toBe(before);
    expect(plans).toEqual(['There before', expect.any(String)]);
    expect(await page.evaluate(() => Reflect.get({}, 'isLive') ?? Reflect.get({}, 'locked'))).toBeUndefined();
  });
});

describe('markup in what was accepted is text like any other:', () => {
  beforeEach(openPhone);
  afterEach(closePhone);

  const LOUD = '<img src=x onerror="window.shouted=1">';
  const SCRIPT = '<script>window.shouted=1</script>';
  const loudMove = aMove('loud', {
    name: `Loud ${LOUD}`,
    hallName: '<b>x</b>',
    formPoints: [`First ${SCRIPT}`, `Then ${LOUD}`],
    takeCareIf: [`Care ${LOUD}`],
    options: [
      { level: 'lower', name: `Lower ${LOUD}`, hallName: '<i>y</i>', how: `How ${SCRIPT}`, figure: 'halfSquat' },
    ],
  });
  const loudPlan = aPlan(
    [
      aBlock(
        [
          anEntry('loud', {
            dose: { kind: 'seconds', seconds: 60 },
            forSome: { who: `Who ${LOUD}`, doing: `Doing ${SCRIPT}`, dose: null },
          }),
          aWait({ id: 'stand', goesOn: 'whenAsked', why: `Why ${LOUD}` }),
          aTalk({ about: `About ${SCRIPT}`, seconds: 60 }),
        ],
        { name: `Block ${LOUD}` },
      ),
    ],
    { id: 'loud', name: `Plan ${LOUD}`, about: `For ${SCRIPT}`, countInSeconds: 60 },
  );

  /** Nothing of it may have become an element, and nothing of it may have run. */
  async function expectOnlyText(...texts: readonly string[]): Promise<void> {
    const shown = await page.evaluate(() => document.body.textContent ?? '');
    for (const text of texts) expect(shown).toContain(text);
    expect(await page.locator('main img, main script, main b, main [onerror], title img').count()).toBe(0);
    expect(await page.locator('i').evaluateAll((all) => all.filter((one) => one.textContent !== ''))).toEqual([]);
    expect(await page.evaluate(() => Reflect.get(window, 'shouted'))).toBeUndefined();
  }

  test('in the list, on the sheet, in the hall from its door to its end, and in the record', async () => {
    const dialogs: string[] = [];
    const asked: string[] = [];
    page.on('dialog', (dialog) => dialogs.push(dialog.message()));
    page.on('request', (request) => asked.push(request.url()));

    await answerTo(writePlanFile(loudPlan, [loudMove]));
    await expectOnlyText(`Opened: ${loudPlan.name}`, loudPlan.name);
    await page.locator('.plan-row', { hasText: 'Plan <img' }).click();
    await page.locator('.sheet').waitFor();
    await expectOnlyText(
      loudPlan.name,
      loudPlan.about,
      `Block ${LOUD}`,
      loudMove.name,
      `Lower ${LOUD}`,
      `Who ${LOUD}`,
      `Why ${LOUD}`,
    );

    await enterHall(page, screens.url, 'loud');
    await expectOnlyText(loudPlan.name);
    await startClass(page, screens.url, 'loud');
    await expectOnlyText('<b>x</b>', '<i>y</i>', loudMove.name, `First ${SCRIPT}`);
    await press(page, 'Next move');
    await untilHall(page, ({ kind }) => kind === 'work');
    await expectOnlyText('<b>x</b>', `Who ${LOUD}: Doing ${SCRIPT}`);
    await press(page, 'Lower for all');
    await page.getByText('<i>y</i>').first().waitFor();
    await press(page, 'Next move');
    await untilStatus(page, 'waiting');
    await expectOnlyText(`Why ${LOUD}`);
    await press(page, 'Carry on');
    await untilHall(page, ({ kind }) => kind === 'talk');
    await expectOnlyText(`About ${SCRIPT}`);
    await hold(page, 'Finish', 1100);
    await untilStatus(page, 'finished');
    await expectOnlyText(loudPlan.name);

    await page.goto(`${screens.url}/#/review`);
    await page.locator('.record-row').waitFor();
    await expectOnlyText(loudPlan.name);
    await page.locator('.record-row').click();
    await page.locator('.record-marks').waitFor();
    await expectOnlyText(loudPlan.name, `Lower option for all: ${loudMove.name}`);

    expect(dialogs).toEqual([]);
    expect(asked.filter((url) => !url.startsWith(`${screens.url}/`))).toEqual([]);
    expect(asked.some((url) => url.endsWith('/x'))).toBe(false);
  });
});
