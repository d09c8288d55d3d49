import type { Stroke, Tone } from '../../src/figures/draw.ts';
import './drawing.css';

const TONES: Readonly<Record<Tone, string>> = { near: 'tone-ink', far: 'tone-far', prop: 'tone-ink' };

/** Filled outlines back to front, each with its rim of field under it; for inside an `svg`. */
export function Drawing({ strokes, casing }: { readonly strokes: readonly Stroke[]; readonly casing: number }) {
  // The rim lies half inside the part it goes round, hence twice the width.
  return strokes.flatMap(({ d, tone, isCased }, index) => [
    isCased ? <path key={`rim${index}`} d={d} class="casing" stroke-width={2 * casing} /> : null,
    <path key={index} d={d} class={TONES[tone]} />,
  ]);
}
