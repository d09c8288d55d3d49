import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { contrastOf, SHAPE_CONTRAST, TEXT_CONTRAST } from '../../src/facts/contrast.ts';
import { PHONE_MM_PER_PX, PREFERRED_ARCMIN, reachMm } from '../../src/facts/legibility.ts';
import { press, untilStatus } from './support/hall.ts';
import { type DigitSeen, readHallBoxes } from './support/hall-boxes.ts';
import { type HallSeen, hallNow } from './support/hall-watch.ts';
import { DARK, FAR, grown, LIGHT, type Look, liesIn, screenOf, takeLook, touch } from './support/looks.ts';
import { picturedClass } from './support/pictured-class.ts';
import { type Box, coloursOf, countInk, heightOf, inkBox, widthOf } from './support/pixels.ts';
import {
  ON_ITS_SIDE,
  openScreens,
  PROJECTOR,
  resize,
  type ScreenSize,
  type Screens,
  sizeName,
  TABLET,
  UPRIGHT,
} from './support/screens.ts';
import { letRun, letRunUntil, startStillClass } from './support/still-hall.ts';

const PHONES = [ON_ITS_SIDE, UPRIGHT];
const ALL = [...PHONES, TABLET, PROJECTOR];
/** Px of a picture to one of the page: edges are known to half a px. */
const SCALE = 2;
/** A notch takes this much of a phone on its side, left or right (look.md). */
const NOTCH_PX = 47;

let screens: Screens;
const looks: Look[] = [];
/** The digits at each whole second of the first move, on each phone. */
const digitsAt = new Map<string, readonly DigitSeen[]>();

beforeAll(async () => {
  screens = await openScreens();
  const context = await screens.newContext({ deviceScaleFactor: SCALE, serviceWorkers: 'block' });
  await lookThrough(await startStillClass(context, screens.url, picturedClass()));
}, 300_000);

afterAll(() => screens.end());

/** One walk through the class, in which time stands while it is looked at. */
async function lookThrough(page: Page): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'hallpace-pictures-'));
  const take = async (state: string, sizes: readonly ScreenSize[]): Promise<void> => {
    for (const size of sizes) looks.push(await takeLook(page, state, size, folder));
  };
  const when = async (state: string, fits: (seen: HallSeen) => boolean, sizes = PHONES): Promise<void> => {
    await letRunUntil(page, fits);
    await letRun(page, 300);
    await take(state, sizes);
  };

  await when('count-in', at('countIn', 'squat', 7));
  for (let left = 24; left > 0; left -= 1) {
    await letRunUntil(page, at('work', 'squat', left), 100);
    await noteDigits(page, left);
    if (left === 20) await take('work', ALL);
    if (left === 6) await take('next', ALL);
    if (left === 2) await take('last-seconds', ALL);
    if (left === 4 || left === 3 || left === 1) await take(`left-${left}`, [ON_ITS_SIDE]);
  }
  await when('changeover', at('changeover', 'press-up', 4), ALL);
  await when('go', at('work', 'press-up', 20), [ON_ITS_SIDE]);
  await when('lying', at('work', 'press-up', 15));
  await when('stay-down', at('work', 'press-up', 6));
  await when('get-up', at('work', 'bridge', 6));
  await when('first-side', at('work', 'one-arm-row', 15), ALL);
  await when('next-side', at('work', 'one-arm-row', 5));
  await when('swap', at('sideChange', 'one-arm-row', 2), ALL);
  await when('other-side', (seen) => at('work', 'one-arm-row', 15)(seen) && seen.side === 'right', ALL);
  await when('gate', ({ kind }) => kind === 'wait', ALL);
  await press(page, 'Carry on');
  await letRunUntil(page, at('work', 'overhead-press', 12));
  await press(page, 'Pause');
  await untilStatus(page, 'paused');
  await take('paused', ALL);
  await press(page, 'Carry on');
  await when('wait', ({ kind, left }) => kind === 'wait' && left === '10', ALL);
  await when('minutes', at('work', 'back-lunge', 90));
  await when('breather', ({ kind, left }) => kind === 'breather' && left === '20');
  process.stdout.write(`The pictures, to be looked at from across the room, are in ${folder}\n`);
}

const at = (kind: string, moves: string, left: number) => (seen: HallSeen) =>
  seen.kind === kind && seen.moves === moves && seen.left === String(left);

async function noteDigits(page: Page, left: number): Promise<void> {
  expect((await hallNow(page)).left).toBe(String(left));
  for (const size of PHONES) {
    await resize(page, size);
    digitsAt.set(`${left} ${sizeName(size)}`, (await readHallBoxes(page)).digits);
  }
}

const rounded = (px: number): number => Math.round(px * 10) / 10;

function lookAt(state: string, size: ScreenSize): Look {
  const found = looks.find((look) => look.state === state && look.size === size);
  if (found === undefined) throw new Error(`${state} was not looked at on ${sizeName(size)}`);
  return found;
}

/** All that one rule finds wrong in any picture, each with the picture's name. */
function wrongIn(rule: (look: Look) => readonly string[], among: readonly Look[] = looks): readonly string[] {
  expect(among.length).toBeGreaterThan(10);
  return among.flatMap((look) => rule(look).map((what) => `${look.name}: ${what}`));
}

/** A digit as it is drawn: all ink in its place and a little around it, where nothing else stands. */
function drawnDigit(look: Look, digit: DigitSeen): Box {
  const ink = inkBox(look.shot, grown(digit.ink, 4), look);
  if (ink === null) throw new Error(`${look.name}: no ink where the ${digit.text} stands`);
  return ink;
}

const digitHeights = (look: Look): readonly number[] =>
  look.boxes.digits.filter(({ text }) => text !== ':').map((digit) => heightOf(drawnDigit(look, digit)));

test('digits are 210 px high on a phone on its side, and 230 on one that stands', () => {
  const low = (look: Look): readonly string[] =>
    digitHeights(look)
      .filter((px) => px < (look.size === UPRIGHT ? 230 : 210))
      .map((px) => `${px} px`);
  const among = looks.filter(({ state, size }) => PHONES.includes(size) && state !== 'minutes' && state !== 'gate');

  expect(among.every(({ boxes }) => boxes.digits.length > 0)).toBe(true);
  expect(wrongIn(low, among)).toEqual([]);
});

test('a minute and a half is written with its seconds, at least 120 px high', () => {
  for (const size of PHONES) {
    const look = lookAt('minutes', size);
    expect(look.boxes.digits.map(({ text }) => text).join('')).toBe('1:30');
    expect(Math.min(...digitHeights(look))).toBeGreaterThanOrEqual(120);
  }
});

// 20 minutes of arc: NUREG-0700 Rev. 2, 1.3.1-4. To the tenth of a metre that the app itself promises.
test('the seconds read from six metres on a phone', () => {
  for (const state of ['work', 'next', 'last-seconds', 'paused', 'wait']) {
    for (const size of PHONES) {
      const heightMm = Math.min(...digitHeights(lookAt(state, size))) * PHONE_MM_PER_PX;
      expect(rounded(reachMm(heightMm, PREFERRED_ARCMIN) / 1000), `${state} ${sizeName(size)}`).toBeGreaterThanOrEqual(
        6,
      );
    }
  }
});

test('the main figure fills 300 px in its larger dimension on every screen', () => {
  const small = (look: Look): readonly string[] => {
    const main = look.boxes.drawn.find(({ what }) => what === 'main');
    const ink = main === undefined ? null : inkBox(look.shot, main.box, { ...look, least: 0.25 });
    if (ink === null) return ['no main figure'];
    const most = Math.max(widthOf(ink), heightOf(ink));
    return most >= 299.5 ? [] : [`${widthOf(ink)} by ${heightOf(ink)}`];
  };

  expect(wrongIn(small)).toEqual([]);
});

test('everything clears the notch of a phone on its side: there the field alone is seen', () => {
  const among = looks.filter(({ size }) => size === ON_ITS_SIDE);
  const inNotch = (look: Look): readonly string[] =>
    [
      { ...screenOf(look), right: NOTCH_PX - 0.5 },
      { ...screenOf(look), left: look.size.width - NOTCH_PX + 0.5 },
    ].flatMap((edge) => {
      const ink = inkBox(look.shot, edge, { ...look, least: 0.1 });
      return ink === null ? [] : [JSON.stringify(ink)];
    });

  expect(wrongIn(inNotch, among)).toEqual([]);
});

test('no text leaves the screen', () => {
  const outside = (look: Look): readonly string[] =>
    look.boxes.texts
      .filter(({ letters }) => !letters.every((one) => liesIn(one, screenOf(look))))
      .map(({ text }) => text);

  expect(wrongIn(outside)).toEqual([]);
});

test('the line to say is 28 px high, or 24 where it is long, on one row; on two where the phone stands', () => {
  const odd = ({ size, boxes: { texts } }: Look): readonly string[] =>
    texts
      .filter(({ of }) => of === 'line-to-say')
      .filter(
        ({ lines, fontPx, text }) =>
          lines > (size.width < size.height ? 2 : 1) || fontPx < (text.length > 60 ? 24 : 28),
      )
      .map(({ text, lines, fontPx }) => `"${text}" on ${lines} lines of ${fontPx} px`);

  expect(wrongIn(odd)).toEqual([]);
});

test('no text stands in another one', () => {
  const inTexts = ({ boxes: { texts } }: Look): readonly string[] =>
    texts.flatMap((one, index) =>
      texts
        .slice(index + 1)
        .filter((other) => touch(one.letters, other.letters))
        .map((other) => `"${one.text}" and "${other.text}"`),
    );

  expect(wrongIn(inTexts)).toEqual([]);
});

test('no text stands in a figure, in kit or in a mark', () => {
  const inDrawings = ({ boxes: { texts, drawn } }: Look): readonly string[] =>
    texts.flatMap(({ text, letters }) =>
      drawn.filter(({ parts }) => touch(letters, parts)).map(({ what }) => `"${text}" in ${what}`),
    );

  expect(wrongIn(inDrawings)).toEqual([]);
});

test('digits stand on the screen with nothing over them', () => {
  const covered = (look: Look): readonly string[] => {
    const outside = look.boxes.digits.filter((digit) => !liesIn(drawnDigit(look, digit), screenOf(look)));
    const said = outside.map(({ text }) => `${text} leaves the screen`);
    return look.coveredPx === 0 ? said : [...said, `${look.coveredPx} px are covered`];
  };

  expect(wrongIn(covered)).toEqual([]);
});

test('every control can be hit within 64 by 64 px', () => {
  const small = ({ boxes: { controls }, size }: Look): readonly string[] =>
    controls
      .filter(
        ({ box, squarePx }) =>
          squarePx < 63.99 || !liesIn(box, { left: 0, top: 0, right: size.width, bottom: size.height }),
      )
      .map(({ name, squarePx }) => `${name}: ${squarePx} px`);

  expect(looks.every(({ boxes }) => boxes.controls.length >= 7)).toBe(true);
  expect(wrongIn(small)).toEqual([]);
});

test('field and ink are the two of the design, and differ as it says', () => {
  const odd = (look: Look): readonly string[] => {
    const [field, ink] = coloursOf(look.shot).map(([colour]) => colour);
    const pair = [field, ink].sort().join(' ');
    return pair === [LIGHT, DARK].sort().join(' ') ? [] : [pair];
  };
  const [first] = looks;
  if (first === undefined) throw new Error('nothing was looked at');
  const [field = '', ink = ''] = coloursOf(first.shot).map(([colour]) => colour);

  expect(wrongIn(odd)).toEqual([]);
  // Published formula: WCAG 2.2, relative luminance; the design reckons with 16.5.
  expect(contrastOf(field, ink)).toBeCloseTo(16.5, 1);
  expect(contrastOf(field, ink)).toBeGreaterThan(TEXT_CONTRAST);
});

test('what is far away is one grey that still shows on either field', () => {
  for (const state of ['first-side', 'swap']) {
    const look = lookAt(state, ON_ITS_SIDE);
    const grey = coloursOf(look.shot)[2]?.[0] ?? '';
    expect(grey).toBe(FAR);
    expect(contrastOf(grey, look.field)).toBeGreaterThan(SHAPE_CONTRAST);
  }
});

test('the field is dark in the last three seconds and while changing, and light else', () => {
  const dark = looks.filter(({ field }) => field === DARK).map(({ state }) => state);
  const light = looks.filter(({ field }) => field === LIGHT).map(({ state }) => state);

  expect([...new Set(dark)].sort()).toEqual(
    ['breather', 'changeover', 'count-in', 'last-seconds', 'left-1', 'left-3', 'swap'].sort(),
  );
  expect([...new Set(light)].sort()).toEqual(
    [
      'first-side',
      'gate',
      'get-up',
      'go',
      'left-4',
      'lying',
      'minutes',
      'next',
      'next-side',
      'other-side',
      'paused',
      'stay-down',
      'wait',
      'work',
    ].sort(),
  );
});

test.each(PHONES.map((size) => [sizeName(size), size] as const))(
  'digits never move on %s: not from second to second, and not when the next move comes',
  (_name, size) => {
    const seconds = Array.from({ length: 24 }, (_, index) => 24 - index);
    const places = seconds.map((left) => digitsAt.get(`${left} ${sizeName(size)}`)?.map(({ place }) => place) ?? []);
    const feet = seconds.flatMap(
      (left) => digitsAt.get(`${left} ${sizeName(size)}`)?.map(({ place }) => place.bottom) ?? [],
    );

    expect(places.map(({ length }) => length)).toEqual(seconds.map((left) => (left > 9 ? 2 : 1)));
    expect(new Set(places.map((each) => JSON.stringify(each.at(-1)))).size).toBe(1);
    expect(new Set(places.filter(({ length }) => length === 2).map((each) => JSON.stringify(each[0]))).size).toBe(1);
    expect(new Set(feet).size).toBe(1);
  },
);

test('the next move comes into the room of the tens, with its kit under the units and an arrow that says "down"', () => {
  for (const size of PHONES) {
    const look = lookAt('last-seconds', size);
    const box = (what: string) => look.boxes.drawn.find((one) => one.what === what)?.box;
    const [units] = look.boxes.digits;
    const [next, kit, arrow] = [box('next'), box('kit'), box('arrow')];
    if (!(units && next && kit && arrow)) throw new Error('something of the next move is missing');

    expect(lookAt('work', size).boxes.drawn.some(({ what }) => what === 'next')).toBe(false);
    expect(next.right).toBeLessThanOrEqual(kit.left + 24);
    // The 2 stands flat, where round digits reach a little lower.
    expect(kit.top - drawnDigit(look, units).bottom).toBeGreaterThanOrEqual(24);
    expect(heightOf(arrow)).toBeGreaterThanOrEqual(119.5);
    expect(look.boxes.texts.some(({ text }) => text === 'Press-up')).toBe(true);
  }
});

test('paused digits and floor line are hollow, and the floor line stands where it stood', () => {
  for (const size of ALL) {
    const look = lookAt('paused', size);
    const floor = look.boxes.drawn.find(({ what }) => what === 'floor')?.box;
    const main = lookAt('work', size).boxes.drawn.find(({ what }) => what === 'floor')?.box;
    if (floor === undefined || main === undefined) throw new Error('there is no floor line');
    const middle = (box: Box): number => (box.left + box.right) / 2;
    const filled = look.boxes.digits.map(
      ({ ink }) => countInk(look.shot, ink, look) / (widthOf(ink) * heightOf(ink) * look.shot.scale ** 2),
    );

    expect(Math.abs(middle(floor) - middle(main)), look.name).toBeLessThan(1);
    expect(liesIn(floor, screenOf(look)), look.name).toBe(true);
    expect(Math.max(...filled), look.name).toBeLessThan(0.4);
  }
});
