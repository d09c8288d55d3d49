import { isDeepStrictEqual } from 'node:util';

/** Throws, naming both, unless the machine and the oracle say the same. */
export function agree(what: string, machine: unknown, oracle: unknown): void {
  if (isDeepStrictEqual(machine, oracle)) return;
  throw new Error(`${what}\n  machine: ${JSON.stringify(machine)}\n  oracle:  ${JSON.stringify(oracle)}`);
}

/** Throws unless a law holds. */
export function holds(law: string, isTrue: boolean): void {
  if (!isTrue) throw new Error(`broken: ${law}`);
}
