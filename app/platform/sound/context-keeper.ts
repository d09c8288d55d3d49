import type { Clocks } from '../../../src/ports/clocks.ts';
import type { Log } from '../../../src/ports/log.ts';
import type { SoundContext } from './howler-context.ts';
import { nextRevival, noRevival } from './revival.ts';

export type ContextKeeper = {
  /** A context was taken: asks it to run. */
  readonly begin: (context: AudioContext) => void;
  /** Its clock was seen running. */
  readonly sawItRun: () => void;
  /** Does what is next towards a clock that runs; call at each look at which it does not. May leave another context behind. */
  readonly urge: (context: AudioContext) => void;
  /** The page is back: asks once more. */
  readonly askAgain: (context: AudioContext) => void;
  /** Inside a press, which alone may start sound in a page. May leave another context behind. */
  readonly press: (context: AudioContext) => void;
  /** True while a clock that stood still is being brought back. */
  readonly isReviving: () => boolean;
};

/** A press that brought no sound by then has failed, and the next one takes a new context. */
const PRESS_MS = 1500;
const LEAST_WAIT_MS = 2000;
const MOST_WAIT_MS = 30_000;

/** Gets a context to run. Its promises may never settle and are never waited for. */
export function contextKeeper(sound: SoundContext, clocks: Clocks, log: Log): ContextKeeper {
  let revival = noRevival;
  let isReviving = false;
  let hasRun = false;
  let askedMonoMs = Number.NEGATIVE_INFINITY;
  let waitMs = LEAST_WAIT_MS;
  let pressedMonoMs: number | null = null;
  // Made while the device was gone: Chromium may run it on nothing at all, for good, and say that all is well.
  let isOnTrial = false;

  const note = (what: string) => (error: unknown) => log.note(`sound: ${what}`, error);

  // Only ever out of `suspended` or a stall: resuming what the system has taken makes a context that says it runs and
  // does not (Tonejs/Tone.js 1028).
  const resume = (context: AudioContext) => {
    askedMonoMs = clocks.monoMs();
    context.resume().catch(note('resume refused'));
  };

  const revive = (context: AudioContext) => {
    const next = nextRevival(revival, clocks.monoMs());
    if (next.step === 'none') return;
    revival = next.revival;
    isReviving = true;
    log.note('sound: the audio clock stands', next.step);
    if (next.step === 'resume') resume(context);
    else if (next.step === 'suspend') context.suspend().catch(note('suspend refused'));
    else {
      sound.renew();
      isOnTrial = true;
    }
  };

  /** A context that never ran waits for a press; one that ran and was stopped, by a lost device, is asked now and then. */
  const askNowAndThen = (context: AudioContext) => {
    if (!hasRun || clocks.monoMs() - askedMonoMs < waitMs) return;
    waitMs = Math.min(MOST_WAIT_MS, waitMs * 2);
    resume(context);
  };

  return {
    begin: (context) => {
      isReviving = false;
      hasRun = false;
      waitMs = LEAST_WAIT_MS;
      if (context.state === 'suspended') resume(context);
    },
    sawItRun: () => {
      hasRun = true;
      isReviving = false;
      revival = noRevival;
      waitMs = LEAST_WAIT_MS;
    },
    urge: (context) => {
      if (context.state === 'running' || (context.state === 'suspended' && isReviving)) revive(context);
      else if (context.state === 'suspended') askNowAndThen(context);
    },
    askAgain: (context) => {
      if (context.state === 'suspended' && !isReviving) resume(context);
    },
    press: (context) => {
      if (context.state !== 'suspended') {
        pressedMonoMs = null;
        // Once, and where a person is at hand: by then the device is mostly back.
        if (isOnTrial && !isReviving) sound.renew();
        isOnTrial = isOnTrial && isReviving;
        return;
      }
      const isFirst = pressedMonoMs === null;
      const wasInVain = pressedMonoMs !== null && clocks.monoMs() - pressedMonoMs > PRESS_MS;
      if (isFirst || wasInVain) pressedMonoMs = clocks.monoMs();
      const pressed = (wasInVain ? sound.renew()?.context : null) ?? context;
      resume(pressed);
      startNothing(pressed);
    },
    isReviving: () => isReviving,
  };
}

/** Older iPhones let a context run only once something was started in it inside a press. */
function startNothing(context: AudioContext): void {
  const source = context.createBufferSource();
  source.buffer = context.createBuffer(1, 1, context.sampleRate);
  source.connect(context.destination);
  source.start(0);
}
