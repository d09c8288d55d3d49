import { expect, test } from 'vitest';
import { LIMITS, sizeComplaints, sizesOf } from './size.mjs';

const script = (file: string, gzipBytes: number, more = {}) => ({
  file,
  isEntry: false,
  imports: [] as string[],
  modules: [] as string[],
  gzipBytes,
  ...more,
});

const hall = script('hall.js', 20_000, { imports: ['shared.js'], modules: ['app/screens/hall/hall.tsx'] });
const shared = script('shared.js', 10_000, { imports: ['deep.js'] });
const deep = script('deep.js', 500);
const later = script('review.js', 90_000);

test('counts what the entry imports, and the hall with what it adds, each script once', () => {
  const entry = script('main.js', 15_000, { isEntry: true, imports: ['shared.js'] });

  expect(sizesOf([entry, shared, deep, hall, later])).toEqual({ firstPaintBytes: 25_500, withHallBytes: 45_500 });
});

test('finds the hall in the entry as well', () => {
  const entry = script('main.js', 30_000, { isEntry: true, modules: ['app/main.tsx', 'app/screens/hall/hall.tsx'] });

  expect(sizesOf([entry])).toEqual({ firstPaintBytes: 30_000, withHallBytes: 30_000 });
});

test('complains above each limit and not at it', () => {
  const entry = script('main.js', LIMITS.firstPaintBytes, { isEntry: true });
  const rest = LIMITS.withHallBytes - LIMITS.firstPaintBytes;
  const fits = script('hall.js', rest, { modules: hall.modules });

  expect(sizeComplaints([entry, fits])).toEqual([]);
  expect(sizeComplaints([entry, { ...fits, gzipBytes: rest + 1 }])).toEqual([expect.stringContaining('with the hall')]);
  expect(sizeComplaints([{ ...entry, gzipBytes: LIMITS.firstPaintBytes + 1 }, deep, hall, shared])).toEqual([
    expect.stringContaining('before first paint'),
  ]);
});

test('a build in which it finds nothing to weigh is no good build', () => {
  expect(sizeComplaints([])).toHaveLength(2);
});
