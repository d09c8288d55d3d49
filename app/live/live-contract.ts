import type { ReadonlySignal } from '@preact/signals';
import type { HallView } from '../../src/class-run/hall-view.ts';
import type { Mark, Refusal } from '../../src/class-run/marks.ts';
import type { SoundFact } from '../../src/ports/cue-line.ts';
import type { VoiceFact } from '../../src/ports/voice.ts';
import type { WakeFact } from '../../src/ports/wake-lock.ts';
import type { RecordHead } from '../../src/records/stored-shapes.ts';

/** `behind`: marks have waited over 2 s. `fenced`: another window runs this class now. `off`: nothing can be kept here. */
export type KeepingFact = 'keeping' | 'behind' | 'fenced' | 'off' | 'rehearsal';

/** What the world does to a class; shown quietly, never ends it. */
export type LiveFacts = {
  readonly sound: SoundFact;
  readonly wake: WakeFact;
  readonly voice: VoiceFact;
  readonly keeping: KeepingFact;
  /** The wall clock was moved while the class ran, and was not followed. */
  readonly wallMoved: boolean;
  /** "Go back to where it stopped" is on offer until this class instant; `byMs` is what ran unseen. */
  readonly away: { readonly offeredUntilMs: number; readonly byMs: number } | null;
  /** Set while asking: how long the phone was away; negative when the wall clock went back. */
  readonly gapMs: number | null;
};

/** What a person can ask of a class. `press` is a clicker: once pauses or carries on, twice within 350 ms goes on to the next move. */
export type HallAsk =
  | 'start'
  | 'pause'
  | 'carryOn'
  | 'nextMove'
  | 'goBackOne'
  | 'tenMore'
  | 'lowerForAll'
  | 'dropMove'
  | 'hurt'
  | 'finish'
  | 'abandon'
  | 'ranOn'
  | 'goBackToStop'
  | 'press';

/** A class on this screen, from ready to its end. */
export type LiveClass = {
  readonly view: ReadonlySignal<HallView>;
  readonly facts: ReadonlySignal<LiveFacts>;
  /** Seq of the last mark that is surely stored; null before the first. */
  readonly keptSeq: ReadonlySignal<number | null>;
  /** Why the last ask changed nothing; null when it did. */
  readonly refused: ReadonlySignal<Refusal | null>;
  /** True from Start to the end. */
  readonly isLive: ReadonlySignal<boolean>;
  readonly isRehearsal: boolean;
  /** Class time per ms of real time: 1, or more in a rehearsal. */
  readonly rate: number;
  /** Stamps the instant and the span seen, and steps; never throws. Call inside the press: it also asks for sound. */
  readonly ask: (what: HallAsk) => void;
  /** The screen was touched or a key pressed, whatever it was for: a live class without sound asks for it. */
  readonly touch: () => void;
  /** Plays the cues one after the other. */
  readonly soundCheck: () => void;
  /** Lets go of sound, screen and timers. The class itself stays as it is. */
  readonly leave: () => void;
};

/** Keeps one class. Nothing here throws or is waited for. */
export type Keeper = {
  /** Fencing number of this window; 0 until it is known. */
  readonly life: () => number;
  readonly begin: (head: Pick<RecordHead, 'startedWallMs'>) => void;
  readonly add: (marks: readonly Mark[]) => void;
  readonly beat: (atMs: number, wallMs: number) => void;
  readonly end: (outcome: 'finished' | 'abandoned', endedWallMs: number) => void;
  readonly fact: () => KeepingFact;
  readonly keptSeq: () => number | null;
  /** The page came back: tries again at once what waits for another try. */
  readonly hasten: () => void;
  /** Calls `hear` when fact or kept seq changes until the returned function is called. */
  readonly listen: (hear: () => void) => () => void;
};
