import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { reach } from '../../src/figures/body.ts';

const place = fc.record({
  x: fc.double({ min: -100, max: 100, noNaN: true }),
  y: fc.double({ min: -100, max: 100, noNaN: true }),
});
const apart = (a: { x: number; y: number }, b: { x: number; y: number }) => Math.hypot(a.x - b.x, a.y - b.y);

describe('reaching with two bones', () => {
  it('keeps both bones their lengths, wherever the target is', () => {
    fc.assert(
      fc.property(place, place, fc.constantFrom<1 | -1>(1, -1), (root, target, bend) => {
        const [middle, end] = reach(root, target, 17, 18, bend);
        expect(apart(root, middle)).toBeCloseTo(17, 6);
        expect(apart(middle, end)).toBeCloseTo(18, 6);
      }),
      // Found once: so close that the direction to it was lost in rounding.
      { numRuns: 1000, examples: [[{ x: 0, y: 0 }, { x: 5e-324, y: 5e-324 }, 1]] },
    );
  });

  it('meets a target within reach', () => {
    fc.assert(
      fc.property(
        place,
        fc.double({ min: 0, max: 6.28, noNaN: true }),
        fc.double({ min: 2, max: 34, noNaN: true }),
        (root, turn, far) => {
          const target = { x: root.x + far * Math.cos(turn), y: root.y + far * Math.sin(turn) };
          const [, end] = reach(root, target, 17, 18, 1);
          expect(apart(end, target)).toBeLessThan(1e-6);
        },
      ),
    );
  });

  it('bends to the side it was told: forwards is left of a leg that hangs down', () => {
    const [knee] = reach({ x: 0, y: 40 }, { x: 0, y: 0 }, 24, 24, 1);
    expect(knee.x).toBeGreaterThan(5);
    const [elbow] = reach({ x: 0, y: 40 }, { x: 0, y: 10 }, 17, 18, -1);
    expect(elbow.x).toBeLessThan(-5);
  });

  it('straightens towards a target too far off', () => {
    const [middle, end] = reach({ x: 0, y: 0 }, { x: 100, y: 0 }, 17, 18, 1);
    expect(middle.x).toBeCloseTo(17, 6);
    expect(end.x).toBeCloseTo(35, 6);
  });
});
