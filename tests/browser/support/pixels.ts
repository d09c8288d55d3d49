import type { Picture } from './png.ts';

/** A box in px of whatever it is measured in; `right` and `bottom` are the first px outside. */
export type Box = { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number };

export const widthOf = ({ left, right }: Box): number => right - left;
export const heightOf = ({ top, bottom }: Box): number => bottom - top;

/** A picture of a page together with how many of its px make one CSS px. */
export type Shot = { readonly picture: Picture; readonly scale: number };

const wholeOf = ({ picture, scale }: Shot): Box => ({
  left: 0,
  top: 0,
  right: picture.width / scale,
  bottom: picture.height / scale,
});

/** The colour that fills most of a box, `#rrggbb`. */
export function mainColour(shot: Shot, box: Box = wholeOf(shot)): string {
  return coloursOf(shot, box)[0]?.[0] ?? '';
}

/** Every colour in a box with how many px it has, the most frequent first. */
export function coloursOf(shot: Shot, box: Box = wholeOf(shot)): readonly (readonly [string, number])[] {
  const counts = new Map<number, number>();
  eachPixel(shot, box, (colour) => counts.set(colour, (counts.get(colour) ?? 0) + 1));
  return [...counts]
    .sort(([, one], [, other]) => other - one)
    .map(([colour, count]) => [`#${colour.toString(16).padStart(6, '0')}`, count]);
}

/** What is drawn on what, `#rrggbb`; `least`: how far from the field toward the ink a px must be to count, 0 to 1. */
export type Inked = { readonly ink: string; readonly field: string; readonly least?: number };

/** The smallest box around all px in `box` that count as ink, in CSS px, true to one px of the picture; null where there are none. */
export function inkBox(shot: Shot, box: Box, inked: Inked): Box | null {
  const isInk = inkTest(inked);
  const found = { left: Number.POSITIVE_INFINITY, top: Number.POSITIVE_INFINITY, right: -1, bottom: -1 };
  eachPixel(shot, box, (colour, x, y) => {
    if (!isInk(colour)) return;
    found.left = Math.min(found.left, x);
    found.top = Math.min(found.top, y);
    found.right = Math.max(found.right, x + 1);
    found.bottom = Math.max(found.bottom, y + 1);
  });
  const { left, top, right, bottom } = found;
  const css = (px: number): number => px / shot.scale;
  return right < 0 ? null : { left: css(left), top: css(top), right: css(right), bottom: css(bottom) };
}

/** How many px of `box` count as ink. */
export function countInk(shot: Shot, box: Box, inked: Inked): number {
  const isInk = inkTest(inked);
  let count = 0;
  eachPixel(shot, box, (colour) => {
    if (isInk(colour)) count += 1;
  });
  return count;
}

/** How many px count as ink in both of two pictures of one size. */
export function countCommonInk(one: Shot, other: Shot, inked: Inked): number {
  const isInk = inkTest(inked);
  const inOne = new Set<string>();
  eachPixel(one, wholeOf(one), (colour, x, y) => {
    if (isInk(colour)) inOne.add(`${x} ${y}`);
  });
  let count = 0;
  eachPixel(other, wholeOf(other), (colour, x, y) => {
    if (isInk(colour) && inOne.has(`${x} ${y}`)) count += 1;
  });
  return count;
}

function inkTest({ ink, field, least = 0.5 }: Inked): (colour: number) => boolean {
  const [inkTone, fieldTone] = [toneOf(Number.parseInt(ink.slice(1), 16)), toneOf(Number.parseInt(field.slice(1), 16))];
  return (colour) => (toneOf(colour) - fieldTone) / (inkTone - fieldTone) > least;
}

const toneOf = (colour: number): number => ((colour >> 16) & 255) + ((colour >> 8) & 255) + (colour & 255);

function eachPixel({ picture, scale }: Shot, box: Box, see: (colour: number, x: number, y: number) => void): void {
  const { width, height, rgba } = picture;
  const [left, right] = [Math.max(0, Math.floor(box.left * scale)), Math.min(width, Math.ceil(box.right * scale))];
  const [top, bottom] = [Math.max(0, Math.floor(box.top * scale)), Math.min(height, Math.ceil(box.bottom * scale))];
  for (let y = top; y < bottom; y += 1) {
    for (let x = left; x < right; x += 1) {
      const at = 4 * (y * width + x);
      see(((rgba[at] ?? 0) << 16) | ((rgba[at + 1] ?? 0) << 8) | (rgba[at + 2] ?? 0), x, y);
    }
  }
}
