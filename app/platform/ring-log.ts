import type { Clocks } from '../../src/ports/clocks.ts';
import type { Log } from '../../src/ports/log.ts';

export type LogNote = { readonly wallMs: number; readonly what: string; readonly detail: string };

export type RingLog = Log & {
  /** The latest notes, oldest first. */
  readonly notes: () => readonly LogNote[];
};

const MOST_NOTES = 200;
const MOST_LETTERS = 300;

/** Keeps the last 200 notes in memory, as text: a kept error would keep alive all that it refers to. */
export function ringLog(clocks: Clocks): RingLog {
  const notes: LogNote[] = [];
  return {
    note: (what, detail) => {
      notes.push({ wallMs: clocks.wallMs(), what, detail: textOf(detail) });
      if (notes.length > MOST_NOTES) notes.shift();
    },
    notes: () => [...notes],
  };
}

/** Never throws: what was caught may be anything, also an object that refuses to be turned into text. */
function textOf(detail: unknown): string {
  if (detail === undefined) return '';
  try {
    const text = detail instanceof Error ? `${detail.name}: ${detail.message}` : plainText(detail);
    return text.slice(0, MOST_LETTERS);
  } catch {
    return 'unreadable detail';
  }
}

function plainText(detail: unknown): string {
  return typeof detail === 'object' ? (JSON.stringify(detail) ?? '') : String(detail);
}
