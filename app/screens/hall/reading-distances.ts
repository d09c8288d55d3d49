import { LEAST_ARCMIN, PHONE_MM_PER_PX, PREFERRED_ARCMIN, reachMm } from '../../../src/facts/legibility.ts';
import { hallUnitPx, isUpright, type Screen } from './hall-unit.ts';

/** Of Fira Sans Condensed: height of a digit or capital in parts of the size. */
const CAPITAL = 0.689;

/** Something to read in the hall and from how far, in mm; an estimate, since no browser tells how large its screen is. */
export type Reading = { readonly what: 'seconds' | 'minutes' | 'name' | 'lower' | 'line'; readonly reachMm: number };

/** Heights in px of the design, upright and on its side, as hall.css has them; digits are glyphs, names capitals. */
const HEIGHTS: readonly (readonly [Reading['what'], number, number, number])[] = [
  ['seconds', 230, 210, PREFERRED_ARCMIN],
  ['minutes', 138, 122, PREFERRED_ARCMIN],
  ['name', 56 * CAPITAL, 38 * CAPITAL, LEAST_ARCMIN],
  ['lower', 22 * CAPITAL, 22 * CAPITAL, LEAST_ARCMIN],
  ['line', 28 * CAPITAL, 28 * CAPITAL, LEAST_ARCMIN],
];

/** From how far each line reads on a screen: digits at 20 minutes of arc, words at 16. */
export function readingDistances(screen: Screen): readonly Reading[] {
  const unitPx = hallUnitPx(screen);
  return HEIGHTS.map(([what, upright, onSide, arcmin]) => {
    const heightMm = (isUpright(screen) ? upright : onSide) * unitPx * PHONE_MM_PER_PX;
    return { what, reachMm: reachMm(heightMm, arcmin) };
  });
}
