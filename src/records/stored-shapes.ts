import type { Mark } from '../class-run/marks.ts';
import type { Move } from '../moves/move.ts';
import type { Plan } from '../plan/plan.ts';
import type { RunningOrder } from '../running-order/span.ts';

/** The version that new rows are written with; rows of older versions are upgraded on read, never rewritten. */
export const STORED_VERSION = 1;

/** Plan, running order and the moves as they were; stored once per content under the hash of its JSON text. */
export type Paper = {
  readonly v: number;
  /** SHA-256 of the canonical JSON text of {plan, order, moves}, 64 hex digits. */
  readonly hash: string;
  readonly plan: Plan;
  readonly order: RunningOrder;
  readonly moves: readonly Move[];
};

/** The head row of a class that was started; its marks are rows of their own. `endedWallMs` null: still live. */
export type RecordHead = {
  readonly v: number;
  readonly id: string;
  readonly startedWallMs: number;
  /** IANA zone at the start, e.g. `Europe/Berlin`; `UTC` when unknown. */
  readonly zone: string;
  readonly planId: string;
  readonly planName: string;
  readonly paperHash: string;
  readonly courseId: string | null;
  readonly endedWallMs: number | null;
  readonly outcome: 'finished' | 'abandoned' | null;
};

/** One mark of a record: key [recordId, seq]. */
export type MarkRow = { readonly v: number; readonly recordId: string; readonly seq: number; readonly mark: Mark };

/** Overwritten every 2 s and on hide or freeze: where the class was. */
export type Beat = {
  readonly v: number;
  readonly recordId: string;
  readonly life: number;
  readonly atMs: number;
  readonly wallMs: number;
};

/** Grow-only: the latest (wallMs, noteId) of a field shows. */
export type Note = {
  readonly v: number;
  readonly recordId: string;
  readonly noteId: string;
  readonly field: string;
  readonly value: string;
  readonly wallMs: number;
  readonly phoneId: string;
};

/** This hall, for "someone's hurt". Every field may be empty. */
export type HallCard = {
  readonly v: number;
  readonly address: string;
  readonly defibrillator: string;
  readonly emergencyNumber: string;
};

/** A plan as it is kept: key `[plan.id, plan.rev]`, with the moves it brings that the starter library does not have. */
export type KeptPlanRow = {
  readonly v: number;
  readonly plan: Plan;
  readonly ownMoves: readonly Move[];
  readonly savedWallMs: number;
};
