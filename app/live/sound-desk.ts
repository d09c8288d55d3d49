import type { ClassState } from '../../src/class-run/class-state.ts';
import type { Cue } from '../../src/class-run/cue.ts';
import type { FigureView } from '../../src/class-run/hall-values.ts';
import type { MoveLibrary } from '../../src/moves/move.ts';
import type { Timers } from '../../src/ports/clocks.ts';
import type { CueLine } from '../../src/ports/cue-line.ts';
import type { Voice } from '../../src/ports/voice.ts';
import type { ClassClock } from './class-clock.ts';
import { spokenNames } from './spoken-names.ts';
import { cuesAhead, HORIZON_MS, runs, soundsOf } from './wanted-sounds.ts';

/** Brings sound and voice to what state and time want. */
export type SoundDesk = {
  /** Queues what is wanted from `atMs` on, where that changed or the queue runs short. */
  readonly reconcile: (state: ClassState, atMs: number, mayCue: boolean) => void;
  /** Next time everything is queued anew. */
  readonly forget: () => void;
  /** Says the names that are due. */
  readonly speak: (state: ClassState, atMs: number) => void;
  /** Silence at once. */
  readonly hush: () => void;
};

/** The queue is filled up again when less than this is left of it. */
const REFILL_MS = HORIZON_MS - 60_000;

export function soundDesk(
  { cueLine, voice }: { readonly cueLine: CueLine; readonly voice: Voice },
  library: MoveLibrary,
  clock: ClassClock,
  nameLine: (figure: FigureView) => string,
): SoundDesk {
  const names = spokenNames(library);
  let cues: readonly Cue[] = [];
  let cuedFor: ClassState | null = null;
  let cuedAtMs = 0;
  return {
    reconcile: (state, atMs, mayCue) => {
      if (cuedFor === state && atMs - cuedAtMs <= HORIZON_MS - REFILL_MS) return;
      cues = mayCue ? cuesAhead(state, library, atMs) : [];
      cuedFor = state;
      cuedAtMs = atMs;
      cueLine.want(soundsOf(cues, state, clock));
      if (!runs(state, atMs)) voice.hush();
    },
    forget: () => {
      cuedFor = null;
    },
    speak: (state, atMs) => {
      if (!runs(state, atMs)) return;
      for (const figure of names.due(state, cues, atMs)) {
        const line = nameLine(figure);
        if (line !== '') voice.say(line);
      }
    },
    hush: () => {
      cueLine.hush();
      voice.hush();
    },
  };
}

const CHECKED = [
  'tick',
  'tick',
  'tick',
  'start',
  'halfway',
  'otherSide',
  'down',
  'up',
  'change',
  'headsUp',
  'finish',
] as const;
const CHECK_GAP_MS = 900;

/** Plays every cue once, with a count before the start; call inside a press. */
export function playSoundCheck(cueLine: CueLine, timers: Timers): void {
  cueLine.unlock();
  for (const [index, kind] of CHECKED.entries()) {
    timers.after(index * CHECK_GAP_MS, () => cueLine.playNow(kind, 'sharp'));
  }
}
