import quietAddress from '../../assets/sounds/quiet.wav?url';
import { browserDigest } from './browser-digest.ts';
import type { FirstParts } from './first-parts.ts';
import { browserWorkerNeeds, registerWorker } from './install/worker-registration.ts';
import { randomIds } from './random-ids.ts';
import { mediaKeys } from './remote/media-keys.ts';
import { fetchClip } from './sound/clip-addresses.ts';
import { clips } from './sound/clips.ts';
import { webAudioCueLine } from './sound/cue-line.ts';
import { makeTickingWorker, startHiddenTicker } from './sound/hidden-ticker.ts';
import { howlerContext } from './sound/howler-context.ts';
import { browserWindowLock } from './store/browser-window-lock.ts';
import { browserPersist } from './store/persist.ts';
import { browserVoice } from './voice/browser-voice.ts';
import { browserWakeLock } from './wake-lock/browser-wake-lock.ts';

type MaybeAudioSession = Navigator & { readonly audioSession?: { type: string } };

/** What a class needs of the phone. What a browser lacks is undefined here and said by the adapter's own fact. */
export function classParts(first: FirstParts, isLive: () => boolean) {
  const { clocks, timers, log, pageLife, store, zone } = first;
  return {
    phone: { clocks, timers, pageLife, ...senses(first), hiddenTicker: ticker(first) },
    keeping: { store, clocks, timers, log },
    lock: browserWindowLock({ locks: 'locks' in navigator ? navigator.locks : undefined, log }),
    persist: browserPersist({ storage: 'storage' in navigator ? navigator.storage : undefined, log }),
    digest: browserDigest(isSecureContext ? crypto.subtle : undefined, log),
    ids: randomIds((bytes) => crypto.getRandomValues(bytes)),
    offlineCopy: registerWorker({ ...browserWorkerNeeds(), isLive, pageLife, timers, log }),
    zone,
  };
}

export type ClassParts = ReturnType<typeof classParts>;

function senses({ clocks, timers, log, pageLife }: FirstParts) {
  const { audioSession } = navigator as MaybeAudioSession;
  const makeContext = () => new AudioContext({ latencyHint: 'interactive' });
  const sound = howlerContext({ makeContext, audioSession, log });
  return {
    cueLine: webAudioCueLine({ sound, clips: clips({ load: fetchClip, log }), clocks, timers, pageLife, log }),
    voice: browserVoice({
      synth: 'speechSynthesis' in window ? window.speechSynthesis : undefined,
      makeUtterance: (line) => new SpeechSynthesisUtterance(line),
      language: 'en',
      timers,
      log,
    }),
    wakeLock: browserWakeLock({
      browserLock: 'wakeLock' in navigator ? navigator.wakeLock : undefined,
      pageLife,
      clocks,
      log,
    }),
    remote: mediaKeys({
      session: 'mediaSession' in navigator ? navigator.mediaSession : undefined,
      makeMetadata: (title) => new MediaMetadata({ title }),
      makeElement: () => new Audio(quietAddress),
      pageLife,
      log,
    }),
  };
}

function ticker({ log }: FirstParts) {
  return (tick: () => void) => startHiddenTicker(makeTickingWorker, tick, log);
}
