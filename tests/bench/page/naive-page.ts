import { Howl, Howler } from 'howler';
import { clipAddress } from '../../../app/platform/sound/clip-addresses.ts';
import { SOUND_KINDS } from '../../../app/platform/sound/clips.ts';
import type { WantedSound } from '../../../src/ports/cue-line.ts';
import { openTaps, type Taps } from './taps.ts';

// The way a class is usually sounded: a timer looks at the clock and plays what is due. It lives in a frame of the
// page under test and so on its very thread: what holds up the one holds up the other.

/** How often it looks. */
const LOOK_MS = 100;

export type NaivePlay = { readonly key: string; readonly monoMs: number };

/** All instants are by the clock of the page around. */
export type NaiveClass = {
  /** Call inside a press. */
  readonly start: (sounds: readonly WantedSound[]) => void;
  readonly report: Taps['report'];
  readonly isHeard: Taps['areOpen'];
  /** When `play` was called for each cue so far. */
  readonly plays: readonly NaivePlay[];
  readonly sampleRate: () => number;
};

declare global {
  interface Window {
    naive: NaiveClass;
  }
}

const { performance: clock } = parent;
const taps = openTaps(clock.timeOrigin);
const plays: NaivePlay[] = [];
const nameOf = ({ style, kind }: Pick<WantedSound, 'style' | 'kind'>) => `${style} ${kind}`;
const howls = new Map(
  (['sharp', 'soft'] as const).flatMap((style) =>
    SOUND_KINDS.map((kind): [string, Howl] => [nameOf({ style, kind }), new Howl({ src: [clipAddress(kind, style)] })]),
  ),
);

window.naive = {
  start: (sounds) => {
    const waiting = [...sounds].sort((one, other) => one.dueMonoMs - other.dueMonoMs);
    void Howler.ctx.resume();
    taps.tap(Howler.masterGain);
    setInterval(() => {
      for (let next = waiting[0]; next !== undefined && next.dueMonoMs <= clock.now(); next = waiting[0]) {
        howls.get(nameOf(next))?.play();
        plays.push({ key: next.key, monoMs: clock.now() });
        waiting.shift();
      }
    }, LOOK_MS);
  },
  report: taps.report,
  isHeard: taps.areOpen,
  plays,
  sampleRate: () => Howler.ctx.sampleRate,
};
