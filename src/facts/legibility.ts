/** Arc minutes in a radian. */
const ARCMIN_PER_RADIAN = (180 * 60) / Math.PI;

/** The least angle that a glyph should fill to be read at all: NUREG-0700 Rev. 2, 1.3.1-4; ISO 9241-3. */
export const LEAST_ARCMIN = 16;

/** The angle from which reading is comfortable, and the least for what changes or matters: same places, and FAA guidance. */
export const PREFERRED_ARCMIN = 20;

/**
 * Height in mm of a CSS px on a phone held as the hall is designed for. An estimate, and said to be one wherever it is
 * used: browsers do not tell how large a screen is.
 */
export const PHONE_MM_PER_PX = 0.165;

/** Height in mm that fills `arcmin` of view at `distanceMm`: H = 2 D tan(angle / 2). */
export function heightForMm(distanceMm: number, arcmin: number): number {
  return 2 * distanceMm * Math.tan(arcmin / ARCMIN_PER_RADIAN / 2);
}

/** Distance in mm from which something `heightMm` high fills `arcmin`: the inverse of `heightForMm`. */
export function reachMm(heightMm: number, arcmin: number): number {
  return heightMm / (2 * Math.tan(arcmin / ARCMIN_PER_RADIAN / 2));
}

/** Angle in arc minutes that a height fills at a distance, both in mm. */
export function angleArcmin(heightMm: number, distanceMm: number): number {
  return 2 * Math.atan(heightMm / distanceMm / 2) * ARCMIN_PER_RADIAN;
}

/** Least and greatest height of signs on a fixed screen, in mm: D/155 and D/110, ASR A6 (2024) 6.1.3 after DIN EN ISO 9241-303. */
export function screenHeightsMm(distanceMm: number): { readonly leastMm: number; readonly mostMm: number } {
  return { leastMm: distanceMm / 155, mostMm: distanceMm / 110 };
}
