import type { Position } from './move.ts';

const STANDING: ReadonlySet<Position> = new Set<Position>(['standing']);

/** True for every position that is on the floor or on a seat: getting in and out of it takes time. */
export function isDown(position: Position): boolean {
  return !STANDING.has(position);
}

/** `up` when everyone gets up between the two positions, `down` when everyone gets down, null when they stay. */
export function turnBetween(from: Position, to: Position): 'up' | 'down' | null {
  if (isDown(from) === isDown(to)) return null;
  return isDown(to) ? 'down' : 'up';
}
