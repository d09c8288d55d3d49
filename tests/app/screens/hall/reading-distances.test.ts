import { describe, expect, it } from 'vitest';
import { hallUnitPx, isUpright } from '../../../../app/screens/hall/hall-unit.ts';
import { readingDistances } from '../../../../app/screens/hall/reading-distances.ts';

const reach = (screen: { width: number; height: number }, what: string): number =>
  readingDistances(screen).find((reading) => reading.what === what)?.reachMm ?? 0;

describe('how far it reads', () => {
  it('is laid out in px of the design at phone size, and larger on larger screens', () => {
    expect(hallUnitPx({ width: 844, height: 390 })).toBe(1);
    expect(hallUnitPx({ width: 390, height: 844 })).toBe(1);
    expect(hallUnitPx({ width: 1280, height: 800 })).toBeCloseTo(1.643, 3);
    expect(hallUnitPx({ width: 768, height: 1024 })).toBeCloseTo(1.213, 3);
  });

  it('reaches 6 m with seconds on a phone either way round', () => {
    // 210 px of 0.165 mm at 20 minutes of arc: 34.65 mm reads to 5.96 m (H = 2 D tan(angle / 2)).
    expect(reach({ width: 844, height: 390 }, 'seconds')).toBeCloseTo(5956, -1);
    expect(reach({ width: 390, height: 844 }, 'seconds')).toBeGreaterThan(6000);
  });

  it('says that names do not reach as far', () => {
    for (const screen of [
      { width: 844, height: 390 },
      { width: 390, height: 844 },
    ]) {
      expect(reach(screen, 'name')).toBeLessThan(1500);
      expect(reach(screen, 'line')).toBeLessThan(reach(screen, 'name'));
    }
  });

  it('stands upright only where it is higher than wide', () => {
    expect(isUpright({ width: 390, height: 844 })).toBe(true);
    expect(isUpright({ width: 800, height: 800 })).toBe(false);
  });
});
