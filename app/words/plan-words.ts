import type { Option, Part, Sides } from '../../src/moves/move.ts';
import type { Block, CueStyle, Dose, Format, ForSome, RoundDose, WaitEntry } from '../../src/plan/plan.ts';

export const PART_NAMES: Readonly<Record<Part, string>> = {
  warmUp: 'Warm-up',
  circuit: 'Circuit',
  stretch: 'Stretch',
};

export const SIDES_TEXTS: Readonly<Record<Sides, string>> = {
  both: '',
  alternating: 'alternating',
  inTurn: 'each side in turn',
  reverse: 'one way, then the other',
};

const CUE_STYLE_TEXTS: Readonly<Record<CueStyle, string>> = {
  sharp: 'sharp cues',
  soft: 'soft cues',
  silent: 'no cues',
};

export const WAIT_TEXTS: Readonly<Record<WaitEntry['goesOn'], string>> = {
  byItself: 'goes on by itself',
  whenAsked: 'goes on when asked',
};

export function formatText(format: Format): string {
  switch (format.kind) {
    case 'allTogether':
      return 'all together';
    case 'onTheMinute':
      return 'on the minute';
    case 'stations':
      return 'stations';
    case 'roundsInTheTime':
      return `rounds in the time, ${lengthText(format.forSeconds)}`;
    case 'ladder':
      return `ladder, ${ladderText(format.of, format.stepSeconds)} each round`;
  }
}

/** "30 s", "2 min", "2 min 30 s". */
export function lengthText(seconds: number): string {
  const minutes = Math.floor(seconds / 60);
  const rest = Math.round((seconds % 60) * 10) / 10;
  if (minutes === 0) return `${rest} s`;
  return rest === 0 ? `${minutes} min` : `${minutes} min ${rest} s`;
}

export function secondsOf(dose: Dose): number {
  return dose.kind === 'seconds' ? dose.seconds : dose.count * dose.secondsEach;
}

export function doseText(dose: Dose): string {
  return dose.kind === 'seconds'
    ? lengthText(dose.seconds)
    : `${dose.count} times, ${lengthText(dose.secondsEach)} each`;
}

/** A ladder may lead down: its step is then below nothing. */
function ladderText(of: 'work' | 'changeover', stepSeconds: number): string {
  const what = of === 'work' ? 'work' : 'changeovers';
  return `${what} ${lengthText(Math.abs(stepSeconds))} ${stepSeconds < 0 ? 'shorter' : 'longer'}`;
}

/** "higher: squat with a stop, jump squat"; empty where there is none. */
export function optionsText(how: string, options: readonly Option[]): string {
  return options.length === 0 ? '' : `${how}: ${options.map((option) => option.name).join(', ')}`;
}

export function forSomeText({ who, doing, dose }: ForSome): string {
  return dose === null ? `${who}: ${doing}` : `${who}: ${doing}, ${doseText(dose)}`;
}

export function roundText({ round, dose }: RoundDose): string {
  return dose === null ? `not in round ${round}` : `round ${round}: ${doseText(dose)}`;
}

export function roundsText(rounds: number): string {
  return rounds === 1 ? '1 round' : `${rounds} rounds`;
}

/** What is said of a block under its name. */
export function blockText(block: Block): string {
  return [
    block.rounds > 1 ? roundsText(block.rounds) : '',
    formatText(block.format),
    CUE_STYLE_TEXTS[block.cueStyle],
    block.breatherSeconds > 0 && block.rounds > 1 ? `${lengthText(block.breatherSeconds)} breather between rounds` : '',
    block.closingRestSeconds > 0 ? `${lengthText(block.closingRestSeconds)} rest at its end` : '',
  ]
    .filter((text) => text !== '')
    .join(' · ');
}

export const NO_SUCH_PLAN = 'There is no such plan on this phone.';
export const FORMAT_NOT_RUN = 'This plan is kept and can be read, but one of its formats cannot be run yet.';
