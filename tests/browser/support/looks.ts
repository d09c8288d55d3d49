import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { type HallBoxes, readHallBoxes } from './hall-boxes.ts';
import { type Box, countCommonInk, type Inked, mainColour, type Shot } from './pixels.ts';
import { readPng } from './png.ts';
import { resize, type ScreenSize, sizeName } from './screens.ts';

/** One state of the hall on one screen: its picture, and where the page says that everything is. */
export type Look = {
  /** "work 844x390". */
  readonly name: string;
  readonly state: string;
  readonly size: ScreenSize;
  readonly shot: Shot;
  readonly boxes: HallBoxes;
  readonly field: string;
  readonly ink: string;
  /** Px of the digits' own ink on which something else is drawn as well. */
  readonly coveredPx: number;
};

/** As look.md and the tokens of the app have them: what stands on light is dark, and the other way round. */
export const LIGHT = '#f6f4ee';
export const DARK = '#14161a';
export const FAR = '#7d8086';

/** Takes a look at the hall on a screen of this size and keeps the picture in a folder for people. */
export async function takeLook(page: Page, state: string, size: ScreenSize, folder: string): Promise<Look> {
  await resize(page, size);
  const boxes = await readHallBoxes(page);
  const file = await page.screenshot();
  const name = `${state} ${sizeName(size)}`;
  writeFileSync(join(folder, `${name.replace(' ', '-')}.png`), file);
  const picture = readPng(file);
  const shot = { picture, scale: picture.width / size.width };
  const field = mainColour(shot);
  const inked = { field, ink: field === LIGHT ? DARK : LIGHT };
  const coveredPx = mayCover(boxes) ? await countCovered(page, inked) : 0;
  return { name, state, size, shot, boxes, ...inked, coveredPx };
}

/** Boxes that do not meet cover nothing; where they do the ink itself has to be looked at. */
function mayCover({ digits, texts, drawn }: HallBoxes): boolean {
  const others = [...texts.flatMap(({ letters }) => letters), ...drawn.flatMap(({ parts }) => parts)];
  return touch(
    digits.map(({ ink }) => ink),
    others,
  );
}

const DIGITS = '.stage .hall-digits, .stage .hall-digits *';
const DIGITS_ALONE = `.stage * { visibility: hidden } ${DIGITS} { visibility: visible }`;
const ALL_ELSE = `${DIGITS} { visibility: hidden }`;

/** Two more pictures: the digits alone, and everything but them. */
async function countCovered(page: Page, inked: Inked): Promise<number> {
  const [alone, others] = [await shotOf(page, DIGITS_ALONE), await shotOf(page, ALL_ELSE)];
  await styleBy(page, '');
  return countCommonInk(alone, others, inked);
}

async function shotOf(page: Page, css: string): Promise<Shot> {
  await styleBy(page, css);
  return { picture: readPng(await page.screenshot()), scale: 1 };
}

/** Made sheets are not held up by the policy of the page, which allows no styles but its own. */
async function styleBy(page: Page, css: string): Promise<void> {
  await page.evaluate((text) => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(text);
    document.adoptedStyleSheets = [sheet];
  }, css);
}

/** The whole screen. */
export const screenOf = ({ size }: Look): Box => ({ left: 0, top: 0, right: size.width, bottom: size.height });

/** Boxes come from the measures of a face and of shapes: edges on the screen are that soft. */
const SOFT_PX = 0.5;

/** True where any box of one kind covers any of the other. */
export function touch(some: readonly Box[], others: readonly Box[]): boolean {
  return some.some((one) => others.some((other) => overlap(one, other)));
}

function overlap(one: Box, other: Box): boolean {
  const across = Math.min(one.right, other.right) - Math.max(one.left, other.left);
  const down = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
  return across > SOFT_PX && down > SOFT_PX;
}

/** True where a box lies inside another one, `most` px more or less. */
export function liesIn(inner: Box, outer: Box, most = 0.5): boolean {
  return (
    inner.left >= outer.left - most &&
    inner.top >= outer.top - most &&
    inner.right <= outer.right + most &&
    inner.bottom <= outer.bottom + most
  );
}

/** A box that much larger on every side. */
export const grown = ({ left, top, right, bottom }: Box, by: number): Box => ({
  left: left - by,
  top: top - by,
  right: right + by,
  bottom: bottom + by,
});
