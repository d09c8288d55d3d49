import { describe, expect, it } from 'vitest';
import { bow, boxOf, lineThrough, pathOf } from '../../src/figures/outline.ts';

describe('outlines', () => {
  it('are drawn the other way up and round: ahead is left, up is less', () => {
    expect(pathOf([[{ x: 10, y: 20, r: 5 }]])).toBe('M-15 -20A5 5 0 0 1 -5 -20A5 5 0 0 1 -15 -20Z');
  });

  it('of two equal discs are straight along their sides', () => {
    const path = pathOf([
      lineThrough(
        [
          { x: 0, y: 2 },
          { x: 10, y: 2 },
        ],
        2,
      ),
    ]);
    expect(path).toBe('M0 0L-10 0A2 2 0 0 1 -10 -4L0 -4A2 2 0 1 1 0 0Z');
  });

  it('take the long way round the larger disc', () => {
    const path = pathOf([
      [
        { x: 0, y: 0, r: 6 },
        { x: 20, y: 0, r: 3 },
      ],
    ]);
    expect(path).toMatch(/A3 3 0 0 1 .*A6 6 0 1 1 /);
    const back = pathOf([
      [
        { x: 20, y: 0, r: 3 },
        { x: 0, y: 0, r: 6 },
      ],
    ]);
    expect(back).toMatch(/A6 6 0 1 1 .*A3 3 0 0 1 /);
  });

  it('of a disc within another are the outer one', () => {
    expect(
      pathOf([
        [
          { x: 0, y: 0, r: 6 },
          { x: 1, y: 0, r: 2 },
        ],
      ]),
    ).toBe(pathOf([[{ x: 0, y: 0, r: 6 }]]));
  });

  it('of nothing are nothing', () => {
    expect(pathOf([])).toBe('');
    expect(pathOf([[]])).toBe('');
    expect(boxOf([])).toEqual({ minX: 0, maxX: 0, minY: 0, maxY: 0 });
  });

  it('lie in the box round their discs', () => {
    expect(
      boxOf([
        { x: 10, y: 20, r: 5 },
        { x: -3, y: 2, r: 2 },
      ]),
    ).toEqual({ minX: -15, maxX: 5, minY: -25, maxY: 0 });
  });

  it('of a bow keep its radius from end to end', () => {
    const piece = bow({ x: 1, y: 2 }, 10, 0, 180, 1);
    for (const { x, y } of piece) expect(Math.hypot(x - 1, y - 2)).toBeCloseTo(10, 6);
    expect(piece.at(0)?.x).toBeCloseTo(11, 6);
    expect(piece.at(-1)?.x).toBeCloseTo(-9, 6);
  });
});
