import { libraryOf } from '../../src/moves/library.ts';
import type { Move, MoveLibrary } from '../../src/moves/move.ts';
import { parseMoves } from '../../src/records/paper.ts';
import { readTopJson } from './stored.ts';

/** The moves of one file in `assets/moves`, parsed. */
export function movesIn(file: 'circuit' | 'warm-up' | 'stretch'): readonly Move[] {
  const raw = readTopJson(`assets/moves/${file}.json`);
  if (!Array.isArray(raw)) throw new Error(`assets/moves/${file}.json is no list`);
  const moves = parseMoves(raw);
  if (!moves.ok) throw new Error(`assets/moves/${file}.json: ${moves.reason} at ${moves.field.join('.')}`);
  return moves.value;
}

/** All moves of the starter library. */
export function starterLibrary(): MoveLibrary {
  return libraryOf([...movesIn('warm-up'), ...movesIn('circuit'), ...movesIn('stretch')]);
}
