import type { PlanFileFault } from '../../src/exchange/plan-file.ts';
import type { FieldPath, Refused } from '../../src/records/parsed.ts';

type Words = readonly [what: string, mustBe: string];

const ID = '1 to 64 letters, digits, "-" or "_"';
const NAME = '1 to 80 characters on one line';
const LINE = '1 to 240 characters on one line';
const MAYBE_LINE = 'at most 240 characters on one line';
const SHORT = '1 to 10 characters';
const REST = '0 seconds to 10 minutes, in whole seconds';
const WORK = '5 seconds to 60 minutes, in whole seconds';
const YES_NO = 'true or false';
const DOSE: Words = ['the dose', 'seconds or a count at a tempo'];
const FORMAT: Words = ['the format', 'all together, stations, on the minute, rounds in the time or ladder'];

/** By the last names of a field's path, the most exact first; `*` stands for a place in a list. */
const FIELDS: ReadonlyMap<string, Words> = new Map<string, Words>([
  ['format', ['the kind of file', '"hallpace-plan"']],
  ['v', ['the version', 'a whole number from 1']],
  ['plan', ['the plan', 'a plan with all its parts']],
  ['moves', ['the list of moves', 'a list of at most 200 moves']],
  ['moves.*', ['this', 'a move with all its parts']],
  ['id', ['the id', ID]],
  ['rev', ['the revision', ID]],
  ['parentRev', ['the revision before', `nothing or ${ID}`]],
  ['name', ['the name', NAME]],
  ['about', ['the line about it', MAYBE_LINE]],
  ['countInSeconds', ['the count-in', REST]],
  ['blocks', ['the list of blocks', 'a list of 1 to 200 blocks']],
  ['blocks.*', ['this', 'a block with all its parts']],
  ['part', ['the part of the class', 'warm-up, circuit or stretch']],
  ['blocks.*.format', FORMAT],
  ['format.kind', FORMAT],
  ['format.forSeconds', ['the time for the rounds', WORK]],
  ['format.of', ['what the ladder changes', 'work or changeover']],
  ['format.stepSeconds', ['the step of the ladder', 'up to 10 minutes more or less, in whole seconds, and not 0']],
  ['rounds', ['the number of rounds', '1 to 20']],
  ['cueStyle', ['the cue style', 'sharp, soft or silent']],
  ['leadInSeconds', ['the breather before the block', REST]],
  ['breatherSeconds', ['the breather between rounds', REST]],
  ['closingRestSeconds', ['the closing rest', REST]],
  ['entries', ['the list of entries', 'a list of 1 to 200 entries']],
  ['entries.*', ['this', 'an entry with all its parts']],
  ['entries.*.kind', ['the kind of entry', 'a move, talk, water or a wait point']],
  ['moveId', ['the id of the move', '1 to 64 lower-case letters, digits or "-"']],
  ['moves.*.id', ['the id of the move', '1 to 64 lower-case letters, digits or "-"']],
  ['dose', DOSE],
  ['dose.kind', DOSE],
  ['dose.seconds', ['the work time', WORK]],
  ['dose.count', ['the count', 'a whole number from 1 to 500']],
  ['dose.secondsEach', ['the tempo', 'a quarter of a second to 60 seconds each']],
  ['byRound', ['the list of rounds that differ', 'a list of at most 20 rounds']],
  ['byRound.*', ['this', 'a round and its dose']],
  ['round', ['the round', 'a whole number from 1 to 20']],
  ['forSome', ['the second dose for some', 'nothing, or who does what']],
  ['who', ['who it is for', NAME]],
  ['doing', ['what they do', NAME]],
  ['sides', ['the sides', 'both, alternating, in turn or reverse']],
  ['swapSeconds', ['the time to swap sides', REST]],
  ['changeoverSeconds', ['the changeover', REST]],
  ['locked', ['"locked"', YES_NO]],
  ['dropIfLate', ['the place in "drop if late"', 'nothing, or a whole number from 1 to 200']],
  ['seconds', ['the length', '1 second to 10 minutes, in whole seconds']],
  ['goesOn', ['how the wait point goes on', 'by itself or when asked']],
  ['why', ['the reason to wait', MAYBE_LINE]],
  ['hallName', ['the short name for the hall', SHORT]],
  ['pattern', ['the pattern', 'one of the known movement patterns']],
  ['regions', ['the list of body regions', 'a list of 1 to 6 of the known regions']],
  ['regions.*', ['a body region', 'one of the known regions']],
  ['position', ['the position', 'standing, sitting, kneeling, on all fours or lying']],
  ['impact', ['the impact', 'none, low or jump']],
  ['effort', ['the effort', 'light, moderate or hard']],
  ['kit', ['the kit', 'a list of known pieces with how many']],
  ...['mat', 'band', 'loopBand', 'bandHook', 'handWeight', 'step', 'chair', 'wall', 'rope', 'floorLine'].map(
    (piece): [string, Words] => [`kit.${piece}`, [`the number of "${piece}" in the kit`, '1 to 10']],
  ),
  ['options', ['the list of options', 'a list of at most 8 options']],
  ['options.*', ['this', 'an option with all its parts']],
  ['level', ['the level of the option', 'lower or higher']],
  ['how', ['the line on how', LINE]],
  ['formPoints', ['the list of form points', 'a list of at most 6 lines']],
  ['formPoints.*', ['a form point', LINE]],
  ['takeCareIf', ['the list of "take care if"', 'a list of at most 6 lines']],
  ['takeCareIf.*', ['a line of "take care if"', LINE]],
  ['figure', ['the figure', ID]],
]);

const PLACES: ReadonlyMap<string, string> = new Map([
  ['blocks', 'block'],
  ['entries', 'entry'],
  ['byRound', 'round change'],
  ['moves', 'move'],
  ['options', 'option'],
]);

/** One sentence on why a plan file was refused, with the field in people's words: `Block 2, entry 3: the work time must be ...`. */
export function planFileSentence({ reason, field }: Refused<PlanFileFault>): string {
  const whole = WHOLE_FILE[reason];
  if (whole !== undefined) return whole;
  const place = placeOf(field);
  const rest = `${faultWords(reason, field)}.`;
  return place === '' ? `${rest.charAt(0).toUpperCase()}${rest.slice(1)}` : `${place}: ${rest}`;
}

const WHOLE_FILE: Partial<Record<PlanFileFault, string>> = {
  tooLarge: 'This file is larger than a plan can be (1 MB).',
  notJson: 'This file is not a plan file: its text cannot be read as JSON.',
  tooDeep: 'This file is not a plan file: its lists lie too deep inside one another.',
  notAPlan: 'This file is not a plan file of this app.',
  tooNew: 'This plan file was written by a newer version of this app. Update the app, then open it again.',
};

function faultWords(reason: PlanFileFault, field: FieldPath): string {
  const [what, mustBe] = wordsFor(field);
  switch (reason) {
    case 'missing':
      return `${what} is missing`;
    case 'unknownField':
      return `${quoted(field.at(-1))} is not something this version knows`;
    case 'sameKeyTwice':
      return `${quoted(field.at(-1))} stands twice`;
    case 'usedTwice':
      return `${what} is used twice and may be used only once`;
    case 'noSuchRound':
      return `${what} is beyond the rounds of the block`;
    case 'tooManyEntries':
      return 'the plan has more than 200 entries';
    case 'doseOutOfBounds':
      return 'the count at its tempo must take 5 seconds to 60 minutes';
    case 'noLowerOption':
      return 'a circuit move needs at least one lower option';
    case 'tooManyOptions':
      return 'a move has at most 4 lower and 4 higher options';
    case 'noWork':
      return 'the plan has no move in any round';
    case 'unknownMove':
      return 'the move is neither in the library nor in the file';
    case 'clash':
      return 'the library has another move under this id, so the one in the file needs an id of its own';
    default:
      return `${what} must be ${mustBe}`;
  }
}

function wordsFor(field: FieldPath): Words {
  const names = field.map((step) => (typeof step === 'number' ? '*' : step));
  for (let length = Math.min(names.length, 3); length > 0; length -= 1) {
    const words = FIELDS.get(names.slice(-length).join('.'));
    if (words !== undefined) return words;
  }
  return [quoted(field.at(-1)), 'something else than it is'];
}

/** `Block 2, entry 3`: places counted from 1, as people count. Empty for the plan as a whole. */
function placeOf(field: FieldPath): string {
  const places = field.flatMap((step, at) => {
    if (step === 'forSome' && at < field.length - 1) return ['second dose'];
    const name = PLACES.get(String(field[at - 1]));
    return typeof step === 'number' && name !== undefined ? [`${name} ${step + 1}`] : [];
  });
  const text = places.join(', ');
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}

/** What stands in a hostile file is shown short and on one line. */
function quoted(step: string | number | undefined): string {
  const text = String(step ?? '').replace(/[^\p{L}\p{N}\p{P}\p{S} ]/gu, ' ');
  return `"${[...text].slice(0, 40).join('')}"`;
}
