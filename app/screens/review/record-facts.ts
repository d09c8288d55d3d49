import type { Books, ClassState } from '../../../src/class-run/class-state.ts';
import type { Mark } from '../../../src/class-run/marks.ts';
import { replay } from '../../../src/class-run/replay.ts';
import type { Entry, Plan } from '../../../src/plan/plan.ts';
import type { Paper, RecordHead } from '../../../src/records/stored-shapes.ts';
import { happeningText, type NameOfEntry } from '../../words/record-words.ts';

/** A class as it is kept, with the papers it ran from. */
export type KeptClass = { readonly head: RecordHead; readonly paper: Paper; readonly marks: readonly Mark[] };

/** One mark in words, with its instant on the class clock. */
export type MarkLine = { readonly seq: number; readonly atMs: number; readonly text: string };

/** What can be said of a class. All lengths in ms from Start on, the count-in with them. */
export type RecordFacts = {
  readonly plannedMs: number;
  readonly realMs: number;
  readonly pausedMs: number;
  /** Null where the marks do not fit together; then only the marks before that say anything. */
  readonly books: Books | null;
  /** The mark that does not fit, by its number in the list; null when all do. */
  readonly bentAt: number | null;
  readonly lines: readonly MarkLine[];
};

/** Reads what happened off the marks. Nothing is made up for marks that do not fit: they are still told one by one. */
export function readFacts({ paper, marks }: KeptClass): RecordFacts {
  const replayed = replay(paper.order, marks);
  const last = marks.at(-1)?.atMs ?? 0;
  const lines = linesOf(marks, entryNames(paper));
  const plannedMs = paper.order.plannedMs;
  if (!replayed.ok) return { plannedMs, realMs: last, pausedMs: 0, books: null, bentAt: replayed.seq, lines };
  const { state } = replayed;
  return { plannedMs, realMs: endOf(state) ?? last, pausedMs: state.pausedMs, books: state.books, bentAt: null, lines };
}

function endOf({ phase }: ClassState): number | null {
  return phase.kind === 'finished' || phase.kind === 'abandoned' ? phase.atMs : null;
}

function linesOf(marks: readonly Mark[], nameOf: NameOfEntry): readonly MarkLine[] {
  return marks.flatMap((mark) => {
    const text = happeningText(mark, nameOf);
    return text === null ? [] : [{ seq: mark.seq, atMs: mark.atMs, text }];
  });
}

function entryNames({ plan, moves }: Paper): NameOfEntry {
  const names = new Map(moves.map((move) => [move.id, move.name]));
  const entries = entriesOf(plan);
  return (entryId) => {
    const entry = entries.get(entryId);
    return entry?.kind === 'move' ? (names.get(entry.moveId) ?? entry.moveId) : (entry?.kind ?? entryId);
  };
}

function entriesOf(plan: Plan): ReadonlyMap<string, Entry> {
  return new Map(plan.blocks.flatMap((block) => block.entries).map((entry) => [entry.id, entry]));
}
