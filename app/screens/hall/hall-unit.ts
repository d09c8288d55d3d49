/** A screen in CSS px. */
export type Screen = { readonly width: number; readonly height: number };

/** As in hall.css: from here on a screen on its side has no notch to clear. */
const LOW_PX = 500;
const NOTCH_PX = 47;
const EDGE_PX = 24;
const PORTRAIT_EDGE_PX = 16;

/** True where the hall stands upright: digits above, floor below. */
export function isUpright({ width, height }: Screen): boolean {
  return width < height;
}

/** CSS px to one px of the design (750 by 390 on its side, 358 by 844 upright), as `--u` in hall.css. */
export function hallUnitPx(screen: Screen): number {
  const { width, height } = screen;
  if (isUpright(screen)) return Math.min((width - 2 * PORTRAIT_EDGE_PX) / 358, height / 844, (height - 64) / 780);
  const edge = height < LOW_PX ? NOTCH_PX : EDGE_PX;
  return Math.min((width - 2 * edge) / 750, height / 390);
}
