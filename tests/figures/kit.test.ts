import { describe, expect, it } from 'vitest';
import { drawKit } from '../../src/figures/kit.ts';
import type { KitId } from '../../src/moves/move.ts';

const KIT: Readonly<Record<KitId, true>> = {
  mat: true,
  band: true,
  loopBand: true,
  bandHook: true,
  handWeight: true,
  step: true,
  chair: true,
  wall: true,
  rope: true,
  floorLine: true,
};
const ids = Object.keys(KIT) as KitId[];

describe.each(ids)('%s', (kit) => {
  const { box, strokes } = drawKit(kit);

  it('stands on the floor, at least 40 px tall at natural size', () => {
    expect(Math.abs(box.maxY)).toBeLessThan(0.01);
    expect(-box.minY).toBeGreaterThanOrEqual(40);
    expect(-box.minY).toBeLessThan(80);
    expect(box.maxX - box.minX).toBeLessThan(90);
  });

  it('has no stroke under 12 px', () => {
    const radii = strokes.flatMap(({ d }) => [...d.matchAll(/A([\d.]+) /g)].map((match) => Number(match[1])));
    expect(radii.length).toBeGreaterThan(0);
    expect(Math.min(...radii)).toBeGreaterThanOrEqual(6);
  });
});

it('draws no two pieces of kit alike', () => {
  expect(new Set(ids.map((kit) => JSON.stringify(drawKit(kit).strokes))).size).toBe(ids.length);
});
