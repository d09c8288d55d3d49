import type { FigureId, KitId, MoveId, Position } from '../moves/move.ts';
import type { EntryId } from '../plan/plan.ts';
import type { Side } from '../running-order/span.ts';

/** A move, or an option of it, as a figure to stand in the scene. */
export type FigureView = {
  readonly moveId: MoveId;
  readonly entryId: EntryId;
  /** Name in full, and at most 10 characters for the hall. */
  readonly name: string;
  readonly hallName: string;
  readonly figure: FigureId;
  readonly position: Position;
  readonly side: Side;
  /** Which of two halves; null when there is one. While swapping it is the second. */
  readonly half: 'first' | 'second' | null;
  readonly kit: readonly { readonly kit: KitId; readonly count: number }[];
};

/** What comes after the present move, and how one gets there. */
export type NextView = {
  readonly figure: FigureView;
  /** Everyone gets up, gets down, or stays as they are. */
  readonly turn: 'up' | 'down' | 'stay';
  /** No changeover: the floors join. */
  readonly straightIn: boolean;
};

/** Near the end of the circuit, by moves still to come after this one. */
export type Milestone = 'halfDone' | 'threeToGo' | 'lastOne';

/** The time left as the floor line shows it: `leftMs` of `wholeMs`, running down or standing. */
export type FloorView = { readonly leftMs: number; readonly wholeMs: number; readonly runs: boolean };

/** What a group does where one thing is not enough: talk, water, a wait point, a rest. */
export type WordsView = { readonly kind: 'talk' | 'water' | 'wait' | 'rest'; readonly text: string };
