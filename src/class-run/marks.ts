import type { EntryId } from '../plan/plan.ts';
import type { Span } from '../running-order/span.ts';

/** In which of the three books a change is written. Amounts are signed: a given second can be taken back. */
export type Account = 'given' | 'skipped' | 'trimmed';

/** Why the live list changed. Evidence for people: replay never reads it. */
export type Why = 'skip' | 'back' | 'give' | 'drop' | 'trim' | 'finishEarly' | 'countIn' | 'wentOn';

/** The only two ways a live list changes. They hold RESULTS (lengths), never a rule to be run again. A resize closes an open span. */
export type Edit =
  | { readonly do: 'resize'; readonly span: number; readonly toMs: number; readonly account: Account }
  | { readonly do: 'insert'; readonly after: number; readonly spans: readonly Span[]; readonly account: 'given' };

/** Evidence for people and for fault-finding; replay never reads it. `life` is the fencing number of the window. */
export type Evidence = { readonly monoMs: number; readonly wallMs: number; readonly life: number };

/** 0 as planned, 1.. the nth lower option, -1.. the nth higher one. */
export type Level = number;

/** What happened, by kind. `atMs` of the mark is when. */
export type Happening =
  | { readonly kind: 'started' }
  | { readonly kind: 'paused'; readonly cause: 'asked' | 'hurt' }
  | { readonly kind: 'carriedOn' }
  | {
      readonly kind: 'changed';
      readonly why: Why;
      /** The entry dropped, else null. */
      readonly entryId: EntryId | null;
      readonly edits: readonly Edit[];
    }
  | { readonly kind: 'showed'; readonly entryId: EntryId; readonly level: Level }
  /** The class ran on unseen for `byMs`, ending at `atMs`. */
  | { readonly kind: 'away'; readonly byMs: number }
  /** The clock rule would not decide on a gap of `gapMs` (negative: the wall went back): the class stands from `atMs`. */
  | { readonly kind: 'asked'; readonly gapMs: number }
  /** Answer to `asked`: it ran on without the phone; the class no longer stands, and stood for no time. */
  | { readonly kind: 'ranOn' }
  /** "Go back to where it stopped": the last `byMs` of class time were spent standing. */
  | { readonly kind: 'stood'; readonly byMs: number }
  /** The wall clock was moved by `byMs` while the page watched; ignored. */
  | { readonly kind: 'wallMoved'; readonly byMs: number }
  | { readonly kind: 'finished' }
  | { readonly kind: 'abandoned' };

/**
 * One thing that happened; never changed once written. M1 `seq` is dense from 0. M2 `atMs` (class clock, 0 = started,
 * whole) never falls. M3 `atMs` and the happening are all that replay reads.
 */
export type Mark = { readonly seq: number; readonly atMs: number; readonly seen: Evidence } & Happening;

/** What was asked for, by kind. `span` is the id of the span the person saw. */
export type Asked =
  | { readonly kind: 'start' }
  | { readonly kind: 'pause'; readonly cause: 'asked' | 'hurt' }
  /** At a wait point: go on. Paused or asking: go on from where the class stands. 0 goes on at once. */
  | { readonly kind: 'carryOn'; readonly countInMs: number }
  | { readonly kind: 'nextMove'; readonly span: number }
  | { readonly kind: 'goBackOne'; readonly span: number; readonly countInMs: number }
  | { readonly kind: 'give'; readonly span: number; readonly byMs: number }
  | { readonly kind: 'drop'; readonly entryId: EntryId }
  | { readonly kind: 'trimTo'; readonly finishAtMs: number; readonly order: readonly EntryId[] }
  | { readonly kind: 'show'; readonly entryId: EntryId; readonly level: Level }
  | { readonly kind: 'finishEarly' }
  | { readonly kind: 'abandon' }
  /** From the clock rule, not from a person. */
  | { readonly kind: 'noteAway'; readonly byMs: number }
  | { readonly kind: 'noteWallMoved'; readonly byMs: number }
  | { readonly kind: 'askAboutGap'; readonly gapMs: number }
  /** Answer while asking: the class ran on. `atMs` of the intent already has the gap in it. */
  | { readonly kind: 'ranOn' }
  /** "Go back to where it stopped", true to the last beat, within the offer. */
  | { readonly kind: 'goBackToStop'; readonly stoppedAtMs: number }
  /** Nothing asked: writes the end down once the class is over. */
  | { readonly kind: 'look' };

/** I1 `atMs` is lifted to the last look where it is older. I2 a late press on another span is refused as `movedOn`. */
export type Intent = { readonly atMs: number; readonly seen: Evidence } & Asked;

/** Why an intent changed nothing. */
export type Refusal =
  | 'notNow'
  | 'movedOn'
  /** A count has begun: nothing is added in the last three seconds. */
  | 'begun'
  | 'notFound'
  | 'nothingToTrim'
  | 'nothingBefore';
