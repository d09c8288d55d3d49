/** WCAG 2.2, 1.4.3: least contrast of text with its field. */
export const TEXT_CONTRAST = 4.5;

/** WCAG 2.2, 1.4.11 and large text of 1.4.3: least contrast of what is not text, and of text from 24 px on. */
export const SHAPE_CONTRAST = 3;

/** Relative luminance of a colour `#rrggbb`, 0 to 1 (WCAG 2.2). Throws on anything else. */
export function luminanceOf(colour: string): number {
  const [red, green, blue] = channelsOf(colour);
  return 0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue);
}

/**
 * Contrast of two colours `#rrggbb`, 1 to 21, the same either way round (WCAG 2.2). Not rounded: 4.499 is not 4.5.
 * Throws on anything that is not such a colour.
 */
export function contrastOf(one: string, other: string): number {
  const [a, b] = [luminanceOf(one), luminanceOf(other)];
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}

function channelsOf(colour: string): readonly [number, number, number] {
  if (!/^#[0-9a-f]{6}$/i.test(colour)) throw new Error(`not a colour #rrggbb: ${colour}`);
  const at = (from: number): number => Number.parseInt(colour.slice(from, from + 2), 16) / 255;
  return [at(1), at(3), at(5)];
}

/** sRGB to light. The threshold of the current text (0.04045) and the older one (0.03928) agree for every 8-bit value. */
function linear(channel: number): number {
  return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
}
