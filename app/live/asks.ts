import type { ClassState } from '../../src/class-run/class-state.ts';
import { moveOfSpan } from '../../src/class-run/coming.ts';
import { levelOf, lowerCount } from '../../src/class-run/hall-figures.ts';
import type { Asked } from '../../src/class-run/marks.ts';
import type { MoveLibrary } from '../../src/moves/move.ts';
import { isDown } from '../../src/moves/position.ts';
import type { Span } from '../../src/running-order/span.ts';
import type { HallAsk } from './live-contract.ts';

const COUNT_IN_MS = 5000;
/** After a pause people with kit or on the floor need longer to get set. */
const COUNT_IN_SET_UP_MS = 10_000;
const MORE_MS = 10_000;
const NO_SPAN = -1;

/** What a person sees when asking: the state and the live span on screen. */
export type Seen = { readonly state: ClassState; readonly library: MoveLibrary; readonly span: Span | null };

/** Asks whose meaning does not depend on the clock rule. */
export type PlainAsk = Exclude<HallAsk, 'press' | 'ranOn' | 'goBackToStop'>;

/** Turns a button into what the machine is asked for; null when there is nothing on screen it could mean. */
export function askedFor(what: PlainAsk, seen: Seen): Asked | null {
  const span = seen.span?.id ?? NO_SPAN;
  switch (what) {
    case 'start':
      return { kind: 'start' };
    case 'pause':
      return { kind: 'pause', cause: 'asked' };
    case 'hurt':
      return { kind: 'pause', cause: 'hurt' };
    case 'carryOn':
      return { kind: 'carryOn', countInMs: countInFor(seen) };
    case 'nextMove':
      return { kind: 'nextMove', span };
    case 'goBackOne':
      return { kind: 'goBackOne', span, countInMs: countInFor(seen) };
    case 'tenMore':
      return { kind: 'give', span, byMs: MORE_MS };
    case 'lowerForAll':
      return lowerForAll(seen);
    case 'dropMove':
      return seen.span?.entryId == null ? null : { kind: 'drop', entryId: seen.span.entryId };
    case 'finish':
      return { kind: 'finishEarly' };
    case 'abandon':
      return { kind: 'abandon' };
  }
}

function countInFor({ span, library }: Seen): number {
  const move = moveOfSpan(span ?? undefined, library);
  if (move === null) return COUNT_IN_MS;
  return isDown(move.position) || Object.keys(move.kit).length > 0 ? COUNT_IN_SET_UP_MS : COUNT_IN_MS;
}

/** One lower at each press, and after the lowest back to the move as planned. */
function lowerForAll({ state, library, span }: Seen): Asked | null {
  const move = moveOfSpan(span ?? undefined, library);
  const entryId = span?.doing[0]?.entryId;
  if (move === null || entryId === undefined || lowerCount(move) === 0) return null;
  const level = Math.max(0, levelOf(state, span ?? undefined)) + 1;
  return { kind: 'show', entryId, level: level > lowerCount(move) ? 0 : level };
}
