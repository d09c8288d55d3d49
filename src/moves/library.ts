import type { Move, MoveLibrary } from './move.ts';

/** Moves by their id, in the order given. Two moves of one id are a programmer's mistake and throw. */
export function libraryOf(moves: readonly Move[]): MoveLibrary {
  const library = new Map(moves.map((move) => [move.id, move]));
  if (library.size !== moves.length) throw new Error('libraryOf: two moves have the same id');
  return library;
}
