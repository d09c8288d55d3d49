import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { anyClass } from '../oracle/any-class.ts';
import { type Machine, realMachine } from '../oracle/machine.ts';
import { MUTANTS } from '../oracle/mutants.ts';
import { walk } from '../oracle/walk.ts';

/** The same walks for every machine: a mutant must be told from the real one, not from another draw. */
const SEED = 20_250;
const WALKS = 300;

/** How long walks take says nothing about the machine. */
const NO_LIMIT = { timeout: 0 };

/** What the walks find wrong with a machine; null when they find nothing. */
function faultOf(machine: Machine): string | null {
  const run = fc.check(
    fc.property(anyClass, (any) => walk(machine, any)),
    { numRuns: WALKS, seed: SEED, endOnFailure: true },
  );
  return run.failed ? String(run.errorInstance) : null;
}

describe('the walk', () => {
  test('lets the machine through as it is', NO_LIMIT, () => {
    expect(faultOf(realMachine)).toBeNull();
  });

  test.each(MUTANTS)('finds that $name', NO_LIMIT, ({ machine }) => {
    expect(faultOf(machine)).toMatch(/machine:|broken:/);
  });
});

test('at least ten mutants, each with a name of its own', () => {
  expect(new Set(MUTANTS.map(({ name }) => name)).size).toBe(MUTANTS.length);
  expect(MUTANTS.length).toBeGreaterThanOrEqual(10);
});
