import type { SoundFact } from '../../src/ports/cue-line.ts';
import type { VoiceFact } from '../../src/ports/voice.ts';
import type { WakeFact } from '../../src/ports/wake-lock.ts';

/** What is missing in a word or two, for the edge of a running class, and as a sentence, for before it. Null: nothing. */
type Missing = readonly [short: string, long: string] | null;

const NO_WAKE: Missing = [
  'Screen may go dark',
  'This phone may let its screen go dark: touch it now and then, or set a long time in its settings.',
];

const SOUND: Readonly<Record<SoundFact, Missing>> = {
  ok: null,
  starting: null,
  needsTap: ['Touch for sound', 'Sound waits for a touch.'],
  interrupted: ['Sound taken away', 'The phone has taken the sound for something else.'],
  stalled: ['Sound stands still', 'Sound stands still and is being brought back.'],
  absent: ['No sound', 'No sound on this phone: the class runs, and shows everything.'],
};

const WAKE: Readonly<Record<WakeFact, Missing>> = {
  notWanted: null,
  asked: null,
  refused: NO_WAKE,
  absent: NO_WAKE,
  lost: NO_WAKE,
};

const VOICE: Readonly<Record<VoiceFact, Missing>> = {
  ok: null,
  absent: ['No voice', 'No voice on this phone: names are shown, not spoken.'],
  failing: ['Voice has stopped', 'The voice has stopped: names are shown, not spoken.'],
};

const KEEPING = {
  keeping: null,
  behind: ['Not all kept yet', 'Keeping the class lags behind.'],
  fenced: ['Runs in another window', 'Another window runs this class.'],
  off: ['Not being kept', 'This class is not being kept: a closed page ends it.'],
  rehearsal: ['Rehearsal', 'A rehearsal: nothing is kept.'],
} as const;

const WALL_MOVED: Missing = ['Clock was moved', 'The phone’s clock was moved; the class did not follow it.'];

/** How the phone is doing, as far as a class is concerned. */
export type PhoneFacts = {
  readonly sound: SoundFact;
  readonly wake: WakeFact;
  readonly voice: VoiceFact;
  readonly keeping: keyof typeof KEEPING;
  readonly wallMoved: boolean;
};

/** What is missing while a class runs, most pressing first; nothing where all is well. */
export function missingTexts(facts: PhoneFacts): readonly string[] {
  return missing(facts).map(([short]) => short);
}

/** What is missing before the start, in sentences. A touch is still to come then, so sound that waits for one is well. */
export function missingBeforeStart(facts: PhoneFacts): readonly string[] {
  const isWaiting = facts.sound === 'needsTap';
  return missing(isWaiting ? { ...facts, sound: 'ok' } : facts).map(([, long]) => long);
}

function missing({ sound, wake, voice, keeping, wallMoved }: PhoneFacts): readonly NonNullable<Missing>[] {
  const all: readonly Missing[] = [
    SOUND[sound],
    KEEPING[keeping],
    WAKE[wake],
    wallMoved ? WALL_MOVED : null,
    VOICE[voice],
  ];
  return all.filter((one) => one !== null);
}
