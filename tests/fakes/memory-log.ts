import type { Log } from '../../src/ports/log.ts';

export type MemoryLog = Log & {
  /** What was noted, oldest first. */
  readonly whats: () => readonly string[];
};

/** Keeps the notes for the test to read. */
export function memoryLog(): MemoryLog {
  const whats: string[] = [];
  return {
    note: (what) => {
      whats.push(what);
    },
    whats: () => [...whats],
  };
}
