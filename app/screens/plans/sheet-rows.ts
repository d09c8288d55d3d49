import type { FigureId, KitNeeds, Move, MoveLibrary } from '../../../src/moves/move.ts';
import type { Block, Dose, Entry, MoveEntry } from '../../../src/plan/plan.ts';
import { kitText } from '../../words/kit-words.ts';
import {
  doseText,
  forSomeText,
  optionsText,
  roundText,
  SIDES_TEXTS,
  secondsOf,
  WAIT_TEXTS,
} from '../../words/plan-words.ts';

/** One stretch of a row's floor. `gap` is a change of sides: nothing is drawn there. */
export type Piece = { readonly does: 'work' | 'gap' | 'still' | 'open'; readonly seconds: number };

/** One entry of a block as the class sheet shows it. */
export type SheetRow = {
  readonly key: string;
  readonly kind: Entry['kind'];
  readonly name: string;
  /** Null where nobody works at a move. */
  readonly figure: FigureId | null;
  /** The lower option that the hall shows; empty for none. */
  readonly lower: string;
  readonly details: readonly string[];
  /** Seconds that lead into it; 0 is straight in. */
  readonly leadSeconds: number;
  readonly pieces: readonly Piece[];
  /** As it stands at the right: `30`, `30 + 30`. */
  readonly secondsText: string;
};

/** The rows of a block, in order. `firstLeadSeconds` is the longer time that leads into the whole block. */
export function rowsOf(block: Block, library: MoveLibrary, firstLeadSeconds: number): readonly SheetRow[] {
  return block.entries.map((entry, index) => rowOf(entry, library, index === 0 ? firstLeadSeconds : 0));
}

/** Everything that one person needs for the blocks, the largest count of each piece. */
export function kitOf(blocks: readonly Block[], library: MoveLibrary): KitNeeds {
  const needs: Record<string, number> = {};
  for (const entry of blocks.flatMap((block) => block.entries)) {
    const move = entry.kind === 'move' ? library.get(entry.moveId) : undefined;
    for (const [kit, count] of Object.entries(move?.kit ?? {})) needs[kit] = Math.max(needs[kit] ?? 0, count);
  }
  return needs;
}

function rowOf(entry: Entry, library: MoveLibrary, leadSeconds: number): SheetRow {
  const base = { key: entry.id, kind: entry.kind, figure: null, lower: '', leadSeconds };
  switch (entry.kind) {
    case 'move':
      return moveRow(entry, library.get(entry.moveId), leadSeconds);
    case 'wait':
      return {
        ...base,
        name: 'Wait point',
        details: [entry.why, WAIT_TEXTS[entry.goesOn]].filter((text) => text !== ''),
        pieces: [{ does: entry.goesOn === 'whenAsked' ? 'open' : 'still', seconds: entry.seconds }],
        secondsText: String(entry.seconds),
      };
    default:
      return {
        ...base,
        name: entry.kind === 'talk' ? 'Talk' : 'Water',
        details: entry.about === '' ? [] : [entry.about],
        pieces: [{ does: 'still', seconds: entry.seconds }],
        secondsText: String(entry.seconds),
      };
  }
}

function moveRow(entry: MoveEntry, move: Move | undefined, leadSeconds: number): SheetRow {
  const sides = entry.sides ?? move?.sides ?? 'both';
  const isTwice = sides === 'inTurn' || sides === 'reverse';
  const seconds = secondsOf(entry.dose);
  const options = move?.options ?? [];
  const [lower, ...furtherLower] = options.filter((option) => option.level === 'lower');
  return {
    key: entry.id,
    kind: 'move',
    name: move?.name ?? entry.moveId,
    figure: move?.figure ?? '',
    lower: lower?.name ?? '',
    details: [
      ...doseDetails(entry.dose),
      SIDES_TEXTS[sides],
      kitText(move?.kit ?? {}),
      optionsText('lower still', furtherLower),
      optionsText(
        'higher',
        options.filter((option) => option.level === 'higher'),
      ),
      ...(entry.forSome === null ? [] : [forSomeText(entry.forSome)]),
      ...entry.byRound.map(roundText),
      entry.locked ? 'locked' : '',
      entry.dropIfLate === null ? '' : 'drop if late',
    ].filter((text) => text !== ''),
    leadSeconds: Math.max(leadSeconds, entry.changeoverSeconds),
    pieces: isTwice ? bothSides(seconds, entry.swapSeconds) : [{ does: 'work', seconds }],
    secondsText: isTwice ? `${wholeSeconds(seconds)} + ${wholeSeconds(seconds)}` : wholeSeconds(seconds),
  };
}

function bothSides(seconds: number, swapSeconds: number): readonly Piece[] {
  return [
    { does: 'work', seconds },
    { does: 'gap', seconds: swapSeconds },
    { does: 'work', seconds },
  ];
}

function doseDetails(dose: Dose): readonly string[] {
  return dose.kind === 'count' ? [doseText(dose)] : [];
}

function wholeSeconds(seconds: number): string {
  return String(Math.round(seconds * 10) / 10);
}
