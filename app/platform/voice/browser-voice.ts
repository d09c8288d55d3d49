import type { Timers } from '../../../src/ports/clocks.ts';
import type { Log } from '../../../src/ports/log.ts';
import type { Voice, VoiceFact } from '../../../src/ports/voice.ts';
import { toldFact } from '../hearers.ts';

/** As much of the browser's speechSynthesis as is used. */
export type Synth = Pick<
  SpeechSynthesis,
  'speak' | 'cancel' | 'getVoices' | 'speaking' | 'pending' | 'addEventListener'
>;

export type VoiceNeeds = {
  /** Undefined where the browser has none. */
  readonly synth: Synth | undefined;
  readonly makeUtterance: (line: string) => SpeechSynthesisUtterance;
  /** Language tag of the lines, such as `en`. */
  readonly language: string;
  readonly timers: Timers;
  readonly log: Log;
};

/** A line takes 2-4 s; one that neither ends nor fails by then is stuck (Firefox without a sound device). */
const STUCK_MS = 8000;
/** Ends of a line that we or the system asked for: nothing is wrong with the voice. */
const CALLED_OFF: readonly string[] = ['canceled', 'interrupted'];

/**
 * The device's own voice. Speech events may never come, and a line may be swallowed: nothing waits for them, a watch on
 * each line only finds out how the voice is. Needing `localService` would lose voices that are local all the same
 * (WebKitGTK says false of all of its own), so it is preferred and no more.
 */
export function browserVoice({ synth, makeUtterance, language, timers, log }: VoiceNeeds): Voice {
  const { fact, become, listen } = toldFact<VoiceFact>('absent');
  // Kept until they end: an utterance nobody refers to is collected in mid-word and its events with it.
  const speaking = new Set<SpeechSynthesisUtterance>();

  const lookForVoices = () => {
    if (fact() === 'absent' && readVoices(synth).length > 0) become('ok');
  };

  const cancel = () => {
    speaking.clear();
    try {
      // A cancel with nothing to cancel swallows the next line on some Linux voices.
      if (synth !== undefined && (synth.speaking || synth.pending)) synth.cancel();
    } catch (error) {
      log.note('voice: cancel failed', error);
    }
  };

  const fail = (why: string) => {
    log.note('voice: line failed', why);
    become(readVoices(synth).length > 0 ? 'failing' : 'absent');
  };

  const watch = (utterance: SpeechSynthesisUtterance) => {
    const stopWaiting = timers.after(STUCK_MS, () => {
      if (!speaking.has(utterance)) return;
      cancel();
      fail('stuck');
    });
    const end = () => {
      stopWaiting();
      speaking.delete(utterance);
    };
    utterance.onend = () => {
      end();
      become('ok');
    };
    utterance.onerror = (event) => {
      end();
      if (!CALLED_OFF.includes(event.error)) fail(event.error);
    };
  };

  const say = (line: string) => {
    if (synth === undefined) return;
    cancel();
    try {
      const utterance = makeUtterance(line);
      // Android speaks in the phone's language unless told, whatever the voice.
      utterance.lang = language;
      utterance.voice = bestVoice(readVoices(synth), language);
      watch(utterance);
      speaking.add(utterance);
      synth.speak(utterance);
    } catch (error) {
      speaking.clear();
      log.note('voice: say threw', error);
      fail('threw');
    }
  };

  lookForVoices();
  synth?.addEventListener('voiceschanged', lookForVoices);
  return { say, hush: cancel, fact, listen };
}

function readVoices(synth: Synth | undefined): readonly SpeechSynthesisVoice[] {
  try {
    return synth?.getVoices() ?? [];
  } catch {
    return [];
  }
}

/** A local voice of the language, else any of it, else null: the browser then goes by the language tag. */
function bestVoice(voices: readonly SpeechSynthesisVoice[], language: string): SpeechSynthesisVoice | null {
  const fitting = voices.filter((voice) => voice.lang.toLowerCase().startsWith(language.toLowerCase()));
  const local = fitting.filter((voice) => voice.localService);
  const best = local.length > 0 ? local : fitting;
  return best.find((voice) => voice.default) ?? best[0] ?? null;
}
