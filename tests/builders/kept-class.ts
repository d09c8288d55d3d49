import type { Happening, Mark } from '../../src/class-run/marks.ts';
import type { KeptPlan } from '../../src/ports/plan-store.ts';
import { type Beat, type Note, type Paper, type RecordHead, STORED_VERSION } from '../../src/records/stored-shapes.ts';
import { compile } from '../../src/running-order/compile.ts';
import { aBlock, aMove, anEntry, aPlan, SMALL_LIBRARY } from './small-plan.ts';

/** 2026-03-02, six in the evening UTC. */
export const A_START_WALL_MS = Date.UTC(2026, 2, 2, 18);

/** Papers of a class with one move; `letter` (one hex digit) fills their hash. */
export function aPaper(letter = 'a', change: Partial<Paper> = {}): Paper {
  const plan = aPlan([aBlock([anEntry('a')])]);
  return {
    v: STORED_VERSION,
    hash: letter.repeat(64),
    plan,
    order: compile(plan, SMALL_LIBRARY),
    moves: [aMove('a')],
    ...change,
  };
}

/** The head of a class that is live, run from `aPaper()`. */
export function aHead(id = 'class-1', change: Partial<RecordHead> = {}): RecordHead {
  return {
    v: STORED_VERSION,
    id,
    startedWallMs: A_START_WALL_MS,
    zone: 'Europe/Berlin',
    planId: 'plan',
    planName: 'Small class',
    paperHash: 'a'.repeat(64),
    courseId: null,
    endedWallMs: null,
    outcome: null,
    ...change,
  };
}

/** The same head after the end, 20 minutes later. */
export function ended(head: RecordHead): RecordHead {
  return { ...head, endedWallMs: head.startedWallMs + 20 * 60_000, outcome: 'finished' };
}

/** One mark, a second of class time after the one before; the first says that the class started. */
export function aMark(seq: number, life = 1, happening?: Happening): Mark {
  const what: Happening = happening ?? { kind: seq === 0 ? 'started' : 'carriedOn' };
  return { seq, atMs: seq * 1000, seen: { monoMs: seq * 1000, wallMs: A_START_WALL_MS + seq * 1000, life }, ...what };
}

/** Marks `from` to `to`, both included. */
export function someMarks(from: number, to: number, life = 1): readonly Mark[] {
  return Array.from({ length: to - from + 1 }, (_, at) => aMark(from + at, life));
}

export function aBeat(recordId = 'class-1', atMs = 0, life = 1): Beat {
  return { v: STORED_VERSION, recordId, life, atMs, wallMs: A_START_WALL_MS + atMs };
}

export function aNote(noteId: string, change: Partial<Note> = {}): Note {
  return {
    v: STORED_VERSION,
    recordId: 'class-1',
    noteId,
    field: 'remark',
    value: 'shorter changeovers next time',
    wallMs: A_START_WALL_MS,
    phoneId: 'phone-1',
    ...change,
  };
}

export function aKeptPlan(id = 'plan', rev = 'rev-1', savedWallMs = A_START_WALL_MS): KeptPlan {
  return { plan: aPlan([aBlock([anEntry('own-hop')])], { id, rev }), ownMoves: [aMove('own-hop')], savedWallMs };
}
