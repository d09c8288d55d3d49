import { cleanup, render } from '@testing-library/preact';
import { afterEach, describe, expect, it } from 'vitest';
import { Figure } from '../../../app/parts/figure.tsx';
import { KitDrawing } from '../../../app/parts/kit-drawing.tsx';

afterEach(cleanup);

const box = { width: 300, height: 300 };
const svgOf = (container: Element): Element => {
  const svg = container.querySelector('svg');
  if (svg === null) throw new Error('nothing was drawn');
  return svg;
};

describe('a figure', () => {
  it('is for eyes only and fills the box it is given', () => {
    const svg = svgOf(render(<Figure figure="squat" box={box} />).container);
    expect(svg.getAttribute('aria-hidden')).toBe('true');
    expect(svg.getAttribute('width')).toBe('300');
    expect(svg.getAttribute('height')).toBe('300');
    expect(svg.getAttribute('preserveAspectRatio')).toBe('xMidYMax meet');
  });

  it('has no size of its own without a box, so that the style sheet gives it one', () => {
    expect(svgOf(render(<Figure figure="squat" />).container).hasAttribute('width')).toBe(false);
  });

  it('faces left for the left side and for both, right for the right side', () => {
    const turnOf = (working: 'left' | 'right' | 'both') =>
      svgOf(render(<Figure figure="lunge" box={box} working={working} />).container)
        .querySelector('g')
        ?.getAttribute('transform') ?? null;
    expect(turnOf('left')).toBeNull();
    expect(turnOf('both')).toBeNull();
    expect(turnOf('right')).toMatch(/^matrix\(-1 0 0 1 /);
  });

  it('mirrors within its own frame', () => {
    const svg = svgOf(render(<Figure figure="lunge" box={box} mirrored />).container);
    const [x = 0, , width = 0] = (svg.getAttribute('viewBox') ?? '').split(' ').map(Number);
    const shift = Number(/ ([-\d.]+) 0\)$/.exec(svg.querySelector('g')?.getAttribute('transform') ?? '')?.[1]);
    expect(shift - x).toBeCloseTo(x + width, 6);
  });

  it('turns the limbs that do not work grey on one side only', () => {
    const greys = (working: 'left' | 'alternating') =>
      svgOf(render(<Figure figure="lunge" box={box} working={working} />).container).querySelectorAll('.tone-far')
        .length;
    expect(greys('alternating')).toBe(2);
    expect(greys('left')).toBe(3);
  });

  it('parts near limbs from what is behind by at least 10 px', () => {
    const svg = svgOf(render(<Figure figure="squat" box={box} />).container);
    const [, , width = 1, height = 1] = (svg.getAttribute('viewBox') ?? '').split(' ').map(Number);
    const scale = Math.min(300 / width, 300 / height);
    const rims = [...svg.querySelectorAll('.casing')].map((rim) => Number(rim.getAttribute('stroke-width')));
    expect(rims.length).toBeGreaterThan(3);
    for (const rim of rims) expect((rim / 2) * scale).toBeGreaterThanOrEqual(10);
  });
});

describe('a kit drawing', () => {
  it('has its natural size, or the height it is given', () => {
    const natural = svgOf(render(<KitDrawing kit="band" />).container);
    expect(Number(natural.getAttribute('height'))).toBeGreaterThanOrEqual(40);
    const given = svgOf(render(<KitDrawing kit="band" height={104} />).container);
    expect(Number(given.getAttribute('height'))).toBeCloseTo(104, 6);
    const ratio = (svg: Element) => Number(svg.getAttribute('width')) / Number(svg.getAttribute('height'));
    expect(ratio(given)).toBeCloseTo(ratio(natural), 6);
  });
});
