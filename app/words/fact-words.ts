import type { SoundFact } from '../../src/ports/cue-line.ts';
import type { VoiceFact } from '../../src/ports/voice.ts';
import type { WakeFact } from '../../src/ports/wake-lock.ts';

const SOUND: Readonly<Record<SoundFact, string>> = {
  ok: '',
  starting: '',
  needsTap: 'No sound yet: touch the screen once',
  interrupted: 'The phone took the sound away',
  stalled: 'Sound stands still: bringing it back',
  absent: 'No sound on this phone',
};

const WAKE: Readonly<Record<WakeFact, string>> = {
  notWanted: '',
  asked: '',
  refused: 'The screen may go dark by itself',
  absent: 'The screen may go dark by itself',
  lost: 'The screen may go dark by itself',
};

const VOICE: Readonly<Record<VoiceFact, string>> = {
  ok: '',
  absent: 'No voice for the names',
  failing: 'The voice has stopped',
};

const KEEPING = {
  keeping: '',
  behind: 'Keeping the class lags behind',
  fenced: 'Another window runs this class',
  off: 'This class is not being kept',
  rehearsal: 'Rehearsal: nothing is kept',
} as const;

/** How the phone is doing, as far as a class is concerned. */
export type PhoneFacts = {
  readonly sound: SoundFact;
  readonly wake: WakeFact;
  readonly voice: VoiceFact;
  readonly keeping: keyof typeof KEEPING;
  readonly wallMoved: boolean;
};

/** What is missing, in plain words, most pressing first; nothing where all is well. */
export function missingTexts({ sound, wake, voice, keeping, wallMoved }: PhoneFacts): readonly string[] {
  const clock = wallMoved ? 'The phone’s clock was moved; the class did not follow' : '';
  return [SOUND[sound], KEEPING[keeping], WAKE[wake], clock, VOICE[voice]].filter((text) => text !== '');
}

/** Before the start a tap is still to come, so a waiting sound is nothing to speak of. */
export function missingBeforeStart(facts: PhoneFacts): readonly string[] {
  return missingTexts({ ...facts, sound: facts.sound === 'needsTap' ? 'ok' : facts.sound });
}
