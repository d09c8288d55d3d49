import fc from 'fast-check';
import { expect, test } from 'vitest';
import { anyClass, anyShortClass } from '../oracle/any-class.ts';
import { realMachine } from '../oracle/machine.ts';
import { walk } from '../oracle/walk.ts';

/** More walks than every change can wait for: `HALLPACE_WALKS=100000 npm test -- tests/class-run/walk.test.ts`. */
const WALKS = Number(process.env['HALLPACE_WALKS'] ?? 2500);
const HANGS_AFTER_MS = 60 * 60_000;

test('any class, whatever is done to it, is what the ticked oracle says it is', { timeout: HANGS_AFTER_MS }, () => {
  expect(WALKS).toBeGreaterThan(0);
  fc.assert(
    fc.property(anyClass, (any) => walk(realMachine, any)),
    { numRuns: WALKS },
  );
});

test('a short class is that to the millisecond', { timeout: HANGS_AFTER_MS }, () => {
  fc.assert(
    fc.property(anyShortClass, (any) => walk(realMachine, any)),
    { numRuns: Math.ceil(WALKS / 10) },
  );
});
