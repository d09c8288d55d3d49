import type { Status } from '../../src/class-run/class-state.ts';
import type { FigureView, Milestone, WordsView } from '../../src/class-run/hall-values.ts';
import type { Refusal } from '../../src/class-run/marks.ts';
import { minutesOf, minutesText } from './time-words.ts';

/** What a screen reader hears when the class changes its condition. */
export const STATUS_TEXTS: Readonly<Record<Status, string>> = {
  ready: 'Ready',
  running: 'The class runs',
  paused: 'Paused',
  waiting: 'Waiting',
  asking: 'The class stands and asks you something',
  finished: 'The class is over',
  abandoned: 'The class was abandoned',
};

const MILESTONES: Readonly<Record<Milestone, string>> = {
  halfDone: 'Half done',
  threeToGo: 'Three to go',
  lastOne: 'Last one',
};

export function milestoneText(milestone: Milestone | null): string {
  return milestone === null ? '' : MILESTONES[milestone];
}

/** "first side", "other side", "alternate", "reverse"; empty where both sides work at once. */
export function sideText({ side, half }: Pick<FigureView, 'side' | 'half'>): string {
  if (side === 'alternating') return 'alternate';
  if (side === 'reverse') return 'reverse';
  if (side === 'both' || side === 'forward' || half === null) return '';
  return half === 'first' ? 'first side' : 'other side';
}

/** What everyone does in a longer rest. */
export const BREATHER_TEXT = 'Breathe';

/** What everyone does while nobody works. */
export function wordsText({ kind, text }: WordsView): string {
  if (text !== '') return text;
  return { talk: 'Listen', water: 'Water', wait: 'Get set', rest: 'Rest' }[kind];
}

export function endedText(status: Status, isRehearsal: boolean): string {
  if (isRehearsal) return 'Rehearsal over';
  return status === 'finished' ? 'Class over' : 'Class abandoned';
}

/** "Hook the bands: carry on when all are set". */
export function waitText({ words, gate }: { readonly words: WordsView | null; readonly gate: boolean }): string {
  const why = words === null ? 'Get set' : wordsText(words).replace(/[.:;,\s]+$/, '');
  return gate ? `${why}: carry on when all are set` : `${why}: goes on by itself`;
}

/** "Running 1:20 late", "Running 40 s early"; empty within ten seconds of the plan. */
export function lateText(lateMs: number): string {
  const apart = apartText(lateMs);
  return apart === '' ? '' : `Running ${apart} ${lateMs > 0 ? 'late' : 'early'}`;
}

/** "1:20", "40 s"; nothing within ten seconds, which no one would call apart. */
function apartText(ms: number): string {
  const seconds = Math.round(Math.abs(ms) / 1000);
  if (seconds < 10) return '';
  return seconds < 60 ? `${seconds} s` : `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}

/** Squares stop being counted at a glance; from there on digits say it. */
export function roundsText(round: number, rounds: number): string {
  return `Round ${round} of ${rounds}`;
}

const REFUSALS: Readonly<Record<Refusal, string>> = {
  notNow: 'Not now',
  movedOn: 'The class had moved on',
  begun: 'Too late: the count has begun',
  notFound: 'Nothing here to do that with',
  nothingToTrim: 'Nothing left to shorten',
  nothingBefore: 'Nothing before this',
};

/** Why an ask changed nothing; empty when it did. */
export function refusalText(refusal: Refusal | null): string {
  return refusal === null ? '' : REFUSALS[refusal];
}

/** "1 minute", "14 minutes", "20 s": how long a phone was away. */
export function awayText(ms: number): string {
  const seconds = Math.round(ms / 1000);
  if (seconds < 60) return `${seconds} s`;
  const minutes = Math.round(seconds / 60);
  return minutes === 1 ? '1 minute' : `${minutes} minutes`;
}

/** "6.0 m", "85 cm". */
export function metresText(mm: number): string {
  return mm < 1000 ? `${Math.round(mm / 10)} cm` : `${(mm / 1000).toFixed(1)} m`;
}

/** Said to everyone while the first count-in runs. */
export const OWN_PACE = 'Your own pace is right';

/** After a press that was let go too soon. */
export const HOLD_HINT = 'Hold for a second';

/** Names of the buttons that ask the class for something, exactly as people and tests read them. */
export const ASK_NAMES = {
  start: 'Start class',
  pause: 'Pause',
  carryOn: 'Carry on',
  nextMove: 'Next move',
  goBackOne: 'Go back one',
  tenMore: 'Ten seconds more',
  lowerForAll: 'Lower for all',
  dropMove: 'Drop this move',
  hurt: "Someone's hurt",
  finish: 'Finish',
  abandon: 'Abandon',
  ranOn: 'It ran on without me',
  goBackToStop: 'Go back to where it stopped',
} as const;

export const SILENT_SWITCH =
  'On a phone with a silent switch, switch it off: it mutes the class at any volume. Then the volume up, and any loudspeaker connected before the start.';

/** What reads from how far. */
export const READING_TEXTS = {
  seconds: 'The seconds',
  minutes: 'Minutes, as in 1:30',
  name: 'Names of moves',
  lower: 'Name of the lower option',
  line: 'The line to say',
} as const;

/** "minutes really passed, 2:20 more than planned; the plan had 28 minutes"; beside the number of those that passed. */
export function againstPlanText(realMs: number, plannedMs: number): string {
  const unit = minutesOf(realMs) === 1 ? 'minute' : 'minutes';
  const apart = apartText(realMs - plannedMs);
  const against = apart === '' ? 'as planned' : `${apart} ${realMs > plannedMs ? 'more' : 'less'} than planned`;
  return `${unit} really passed, ${against}; the plan had ${minutesText(plannedMs)}`;
}
