import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lineAt, lineUnder, lowerLine } from '../../src/class-run/lower-line.ts';

const MAX_SLOPE = 0.001;

describe('the line under all points', () => {
  test('is not there without points, and level under one', () => {
    expect(lowerLine([], MAX_SLOPE)).toBeNull();
    expect(lineUnder([], 0)).toBeNull();
    expect(lowerLine([{ x: 5, y: 7 }], MAX_SLOPE)).toEqual({ x: 5, y: 7, slope: 0 });
  });

  test('finds a slope through the lowest points of each end, whatever lies above', () => {
    const points = Array.from({ length: 61 }, (_, at) => {
      const above = at % 10 === 0 ? 0 : 1 + ((at * 7) % 30);
      return { x: at * 1000, y: 400 + at * 0.3 + above };
    });
    const line = lowerLine(points, MAX_SLOPE);
    expect(line?.slope).toBeCloseTo(0.0003, 9);
    expect(line === null ? 0 : lineAt(line, 100_000)).toBeCloseTo(430, 6);
  });

  test('is the edge over the middle where the lowest points lie on a bow', () => {
    const points = [0, 1000, 2000, 3000, 4000].map((x) => ({ x, y: ((x - 1500) / 1000) ** 2 * 0.1 }));
    expect(lowerLine(points, 1)?.slope).toBeCloseTo(0, 9);
  });

  test('never has a point under it, nor a slope beyond the bound (property)', () => {
    const point = fc.record({
      x: fc.double({ min: 0, max: 60_000, noNaN: true }),
      y: fc.double({ min: -500, max: 500, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(point, { minLength: 1, maxLength: 40 }), (found) => {
        const points = [...found].sort((a, b) => a.x - b.x);
        const line = lowerLine(points, MAX_SLOPE);
        if (line === null) return false;
        const gaps = points.map(({ x, y }) => y - lineAt(line, x));
        return Math.abs(line.slope) <= MAX_SLOPE && Math.min(...gaps) > -1e-6 && Math.min(...gaps) < 1e-6;
      }),
    );
  });
});
