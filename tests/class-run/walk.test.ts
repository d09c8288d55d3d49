import fc from 'fast-check';
import { expect, test } from 'vitest';
import { anyClass, anyShortClass } from '../oracle/any-class.ts';
import { realMachine } from '../oracle/machine.ts';
import { walk } from '../oracle/walk.ts';

/** More walks than every change can wait for: `HALLPACE_WALKS=100000 npm test -- tests/class-run/walk.test.ts`. */
const WALKS = Number(process.env['HALLPACE_WALKS'] ?? 2500);

/** How long walks take says nothing about the machine. */
const NO_LIMIT = { timeout: 0 };

test('any class, whatever is done to it, is what the ticked oracle says it is', NO_LIMIT, () => {
  expect(WALKS).toBeGreaterThan(0);
  fc.assert(
    fc.property(anyClass, (any) => walk(realMachine, any)),
    { numRuns: WALKS },
  );
});

test('a short class is that to the millisecond', NO_LIMIT, () => {
  fc.assert(
    fc.property(anyShortClass, (any) => walk(realMachine, any)),
    { numRuns: Math.ceil(WALKS / 10) },
  );
});
