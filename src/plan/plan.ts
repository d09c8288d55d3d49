import type { MoveId, Part, Sides } from '../moves/move.ts';

/** Unique in its plan. */
export type EntryId = string;
/** Unique in its plan. */
export type BlockId = string;

/** Seconds of work, or a count at a tempo ("12, two seconds each"). All values above 0; seconds are whole in `seconds`. */
export type Dose =
  | { readonly kind: 'seconds'; readonly seconds: number }
  | { readonly kind: 'count'; readonly count: number; readonly secondsEach: number };

/** What one round does differently. `dose: null` leaves the entry out of that round. Rounds count from 1. */
export type RoundDose = { readonly round: number; readonly dose: Dose | null };

/** A second dose for some on the same clock, e.g. who "new people", doing "march on the spot". */
export type ForSome = { readonly who: string; readonly doing: string; readonly dose: Dose | null };

/** A move with its dose. The changeover leads INTO it; zero is "straight in". */
export type MoveEntry = {
  readonly kind: 'move';
  readonly id: EntryId;
  readonly moveId: MoveId;
  readonly dose: Dose;
  readonly byRound: readonly RoundDose[];
  readonly forSome: ForSome | null;
  /** Null takes what the move says. */
  readonly sides: Sides | null;
  /** Only used with sides in turn or reverse: whole seconds to swap, 0 swaps straight over. */
  readonly swapSeconds: number;
  readonly changeoverSeconds: number;
  readonly locked: boolean;
  /** "Drop if late": 1 goes first. Null stays. */
  readonly dropIfLate: number | null;
};

/** Planned minutes without a move: the instructor talks, or everyone drinks. */
export type PauseEntry = {
  readonly kind: 'talk' | 'water';
  readonly id: EntryId;
  readonly seconds: number;
  /** What it is about; may be empty. */
  readonly about: string;
};

/**
 * A wait point: the class stands until the instructor goes on. `goesOn: 'byItself'` goes on after `seconds`;
 * `'whenAsked'` stands as long as it takes, and `seconds` is what the plan reckons with.
 */
export type WaitEntry = {
  readonly kind: 'wait';
  readonly id: EntryId;
  readonly seconds: number;
  readonly goesOn: 'byItself' | 'whenAsked';
  readonly why: string;
};

/** One thing in a block. */
export type Entry = MoveEntry | PauseEntry | WaitEntry;

/** How a block is run. */
export type Format =
  | { readonly kind: 'allTogether' }
  | { readonly kind: 'onTheMinute' }
  | { readonly kind: 'stations' }
  | { readonly kind: 'roundsInTheTime'; readonly forSeconds: number }
  | { readonly kind: 'ladder'; readonly of: 'work' | 'changeover'; readonly stepSeconds: number };

/** `sharp` counts in with ticks and a dark field, `soft` has neither, `silent` makes no sound. */
export type CueStyle = 'sharp' | 'soft' | 'silent';

/** Part of a plan. */
export type Block = {
  readonly id: BlockId;
  readonly part: Part;
  readonly name: string;
  readonly format: Format;
  readonly rounds: number;
  readonly cueStyle: CueStyle;
  /** Longer rest before this block (not before the first: there the count-in stands). */
  readonly leadInSeconds: number;
  /** Longer rest between two rounds; 0 leaves the first entry's own changeover. */
  readonly breatherSeconds: number;
  /** A rest counted after the last bout, as some published protocols do; 0 for none. */
  readonly closingRestSeconds: number;
  readonly entries: readonly Entry[];
};

/** A class on paper. `rev` names this text, `parentRev` the one it was edited from: two edits fork, neither overwrites. */
export type Plan = {
  readonly id: string;
  readonly rev: string;
  readonly parentRev: string | null;
  readonly name: string;
  /** One line on who it is for; may be empty. */
  readonly about: string;
  readonly countInSeconds: number;
  readonly blocks: readonly Block[];
};
