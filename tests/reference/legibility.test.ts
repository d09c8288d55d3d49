import { describe, expect, it } from 'vitest';
import {
  angleArcmin,
  heightForMm,
  LEAST_ARCMIN,
  PHONE_MM_PER_PX,
  PREFERRED_ARCMIN,
  reachMm,
  screenHeightsMm,
} from '../../src/facts/legibility.ts';

describe('heights of signs on fixed screens', () => {
  // German workplace rule ASR A6 (2024) 6.1.3 table 1, after DIN EN ISO 9241-303:2012-03 and DGUV Information 215-410.
  it.each([
    [500, 3.2, 4.5],
    [600, 3.9, 5.5],
    [700, 4.5, 6.4],
    [800, 5.2, 7.3],
  ])('gives both cells of the published table at %i mm', (distanceMm, leastMm, mostMm) => {
    const heights = screenHeightsMm(distanceMm);
    expect(heights.leastMm.toFixed(1)).toBe(leastMm.toFixed(1));
    expect(heights.mostMm.toFixed(1)).toBe(mostMm.toFixed(1));
  });

  it('is the same rule as an angle of 22.18 to 31.25 arc minutes', () => {
    // Computed from the published divisors; the table's source names the divisors, not the angles.
    const heights = screenHeightsMm(1000);
    expect(angleArcmin(heights.leastMm, 1000)).toBeCloseTo(22.18, 2);
    expect(angleArcmin(heights.mostMm, 1000)).toBeCloseTo(31.25, 2);
  });
});

describe('visual angle', () => {
  // Computed with H = 2 D tan(angle / 2); the published short form of NUREG-0700 Rev. 2 (1.3.1-4) is H = 6.283 D MA / 21600.
  it.each([
    [500, 0.73, 2.33, 2.91, 3.2],
    [1000, 1.45, 4.65, 5.82, 6.4],
    [3000, 4.36, 13.96, 17.45, 19.2],
    [5000, 7.27, 23.27, 29.09, 32.0],
    [8000, 11.64, 37.23, 46.54, 51.2],
    [10_000, 14.54, 46.54, 58.18, 64.0],
  ])('gives the heights for 5, 16, 20 and 22 arc minutes at %i mm', (distanceMm, at5, at16, at20, at22) => {
    const heights = [5, 16, 20, 22].map((arcmin) => heightForMm(distanceMm, arcmin).toFixed(2));
    expect(heights).toEqual([at5, at16, at20, at22].map((height) => height.toFixed(2)));
  });

  it('agrees with the published short form to a thousandth', () => {
    for (const arcmin of [5, 16, 20, 22, 45]) {
      expect(heightForMm(10_000, arcmin) / ((6.283 * 10_000 * arcmin) / 21_600)).toBeCloseTo(1, 3);
    }
  });

  it('needs 46.54 mm for 16 arc minutes at 10 m', () => {
    expect(heightForMm(10_000, LEAST_ARCMIN)).toBeCloseTo(46.54, 2);
  });

  it('gives the letter of full sight at 5 m, 6 m and 20 ft', () => {
    // Snellen letter of 5 arc minutes: 7.25 mm published at 5 m from the rounded 1.45 mm per metre, 7.27 exact.
    expect(heightForMm(5000, 5)).toBeCloseTo(7.27, 2);
    expect(heightForMm(6000, 5)).toBeCloseTo(8.73, 2);
    expect(heightForMm(6096, 5)).toBeCloseTo(8.87, 2);
  });

  it('finds the rule of thumb D/200 at 17.19 arc minutes', () => {
    // US FAA human-factors training page gives D/200; the angle is computed.
    expect(angleArcmin(5, 1000)).toBeCloseTo(17.19, 2);
  });

  it('reads a 60 mm digit at 22 arc minutes out to 9.38 m and a 10 mm label at 16 to 2.149 m', () => {
    expect(reachMm(60, 22)).toBeCloseTo(9376, 0);
    expect(reachMm(10, LEAST_ARCMIN)).toBeCloseTo(2149, 0);
  });

  it('goes back and forth without loss', () => {
    expect(reachMm(heightForMm(6000, 20), 20)).toBeCloseTo(6000, 6);
    expect(angleArcmin(heightForMm(6000, 20), 6000)).toBeCloseTo(20, 9);
  });
});

describe('the hall', () => {
  it('needs digits of at least 210 px on a phone to be read at 6 m', () => {
    const leastPx = heightForMm(6000, PREFERRED_ARCMIN) / PHONE_MM_PER_PX;
    expect(leastPx).toBeGreaterThan(210);
    expect(leastPx).toBeLessThan(212);
    expect(angleArcmin(210 * PHONE_MM_PER_PX, 6000)).toBeGreaterThan(19.8);
  });
});
