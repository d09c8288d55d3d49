import type { WantedSound } from '../../../src/ports/cue-line.ts';
import type { Heard, SoundReport, Started } from '../page/sound-page.tsx';
import { monoAtFrame } from './audio-fit.ts';

/** A cue as the class wants it and what was heard of it. */
export type CueHeard = {
  readonly key: string;
  readonly dueMonoMs: number;
  /** Each time it was heard: how late by the class clock, and how far from the frame that was handed to `start`. */
  readonly times: readonly { readonly lateMs: number; readonly offScheduleFrames: number }[];
};

export type Matched = {
  readonly cues: readonly CueHeard[];
  /** Onsets that belong to no cue. */
  readonly strayOnsets: number;
};

/** An onset belongs to a start that is this near. */
const NEAR_FRAMES = 2400;
/** A cue is looked for this far from its instant; cues are further apart. */
const REACH_MS = 450;

/** Puts what was heard beside what was wanted. A cue counts as heard only where it is the right sound. */
export function matchOnsets(report: SoundReport): Matched {
  const heard = report.taps.flatMap((tap, at) => tap.onsets.map((frame) => explain(report.started, tap, at, frame)));
  const cues = report.wanted.map((cue) => {
    const times = heard.filter(
      ({ name, monoMs }) => name === nameOf(cue) && Math.abs(monoMs - cue.dueMonoMs) < REACH_MS,
    );
    return {
      key: cue.key,
      dueMonoMs: cue.dueMonoMs,
      times: times.map(({ monoMs, offScheduleFrames }) => ({ lateMs: monoMs - cue.dueMonoMs, offScheduleFrames })),
    };
  });
  return { cues, strayOnsets: heard.length - cues.reduce((sum, { times }) => sum + times.length, 0) };
}

function nameOf({ style, kind }: Pick<WantedSound, 'style' | 'kind'>): string {
  return `${style} ${kind}`;
}

/** The start that an onset comes from, if any, and when it was heard on the page's clock. */
function explain(started: readonly Started[], tap: Heard, tapAt: number, onsetFrame: number) {
  const able = started.filter(
    ({ tap: at, frame, stoppedFrame }) => at === tapAt && (stoppedFrame === null || stoppedFrame > frame),
  );
  const off = ({ frame, onsetFrames }: Started) => onsetFrame - frame - onsetFrames;
  const [nearest] = [...able].sort((one, other) => Math.abs(off(one)) - Math.abs(off(other)));
  if (nearest === undefined || Math.abs(off(nearest)) > NEAR_FRAMES) {
    return { name: 'nobody', monoMs: monoAtFrame(tap, onsetFrame), offScheduleFrames: Number.NaN };
  }
  const monoMs = monoAtFrame(tap, onsetFrame - nearest.onsetFrames);
  return { name: nearest.name, monoMs, offScheduleFrames: off(nearest) };
}

export type NaiveHeard = {
  /** How late each cue was heard, null for one that was not. */
  readonly lateMs: readonly (number | null)[];
  /** Sounds that could be told apart; where cues came together these are fewer. */
  readonly apart: number;
};

/** A `play` is followed by its sound within this. */
const PLAY_MS = 200;

/** What became of the same cues played by a timer: each one's onset is the first after its `play`. */
export function naiveHeard({ naive, naivePlays, wanted }: SoundReport): NaiveHeard {
  const onsets = naive.flatMap((tap) => tap.onsets.map((frame) => monoAtFrame(tap, frame)));
  const lateMs = wanted.map(({ key, dueMonoMs }) => {
    const played = naivePlays.find((play) => play.key === key);
    const after = onsets.filter(
      (at) => played !== undefined && at > played.monoMs - 20 && at < played.monoMs + PLAY_MS,
    );
    return after.length === 0 ? null : Math.min(...after) - dueMonoMs;
  });
  return { lateMs, apart: onsets.length };
}
