import { Howler } from 'howler/dist/howler.core.min.js';
import type { Log } from '../../../src/ports/log.ts';

/** A context and where its sounds go in. Only good for the moment: the next look may find another. */
export type SoundOut = { readonly context: AudioContext; readonly out: AudioNode };

export type SoundContext = {
  /** What Howler has now, or null where none was made or the last one was closed. */
  readonly now: () => SoundOut | null;
  /** As `now`, and makes one where there is none. Null where the browser gives none. */
  readonly make: () => SoundOut | null;
  /** Leaves the present context for a new one: the last step for a clock that will not run again. */
  readonly renew: () => SoundOut | null;
};

export type HowlerContextNeeds = {
  /** Throws where there is no sound. */
  readonly makeContext: () => AudioContext;
  /** The browser's `navigator.audioSession`, on iPhones. */
  readonly audioSession: { type: string } | undefined;
  readonly log: Log;
};

/** -1 dBFS. */
const CEILING = 10 ** (-1 / 20);

/**
 * The one wrapper of Howler, which holds the volume and later the music. Howler may replace its context at any time, so
 * `ctx` and `masterGain` are read at each use. Its own `state` sticks after an interruption and is never asked.
 */
export function howlerContext({ makeContext, audioSession, log }: HowlerContextNeeds): SoundContext {
  // After 30 s without a sound of its own Howler would suspend the context under the queued cues.
  Howler.autoSuspend = false;
  // Its unlocker swaps the context at the first touch and resumes without a catch (goldfire/howler.js 1559, 1141).
  Howler.autoUnlock = false;

  const now = (): SoundOut | null => {
    const context: AudioContext | null = Howler.ctx;
    const out: AudioNode | null = Howler.masterGain;
    return context === null || out === null || context.state === 'closed' ? null : { context, out };
  };

  const renew = (): SoundOut | null => {
    const old: AudioContext | null = Howler.ctx;
    try {
      // Plays in spite of the silent switch; heeded only by contexts made after it (goldfire/howler.js 753).
      if (audioSession !== undefined) audioSession.type = 'playback';
      // Not by Howler.unload(): where making one fails, that leaves Howler without sound for good.
      const context = makeContext();
      const volume = context.createGain();
      volume.connect(ceilingOf(context));
      Howler.ctx = context;
      Howler.masterGain = volume;
      volume.gain.value = Howler.volume();
    } catch (error) {
      log.note('sound: no context', error);
      return now();
    }
    if (old !== null && old.state !== 'closed') old.close().catch((error) => log.note('sound: close failed', error));
    return now();
  };

  return { now, make: () => now() ?? renew(), renew };
}

/**
 * Cuts off what is above -1 dBFS when sounds add up; below it changes nothing. A compressor would hear 6 ms ahead and
 * play everything that much late.
 */
function ceilingOf(context: AudioContext): AudioNode {
  const shaper = context.createWaveShaper();
  shaper.curve = Float32Array.from({ length: 4097 }, (_, at) => {
    const level = at / 2048 - 1;
    return Math.max(-CEILING, Math.min(CEILING, level));
  });
  shaper.connect(context.destination);
  return shaper;
}
