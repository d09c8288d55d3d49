import type { Move, MoveLibrary } from '../moves/move.ts';
import { isWork, type Span } from '../running-order/span.ts';
import type { ClassState } from './class-state.ts';
import { moveOfSpan } from './coming.ts';
import { levelOf, optionAt } from './hall-figures.ts';
import type { Milestone } from './hall-values.ts';
import { hasTime, isLeadIn, isOf } from './now.ts';

const SET_UP_UNTIL_MS = 5000;
const LOWER_UNTIL_MS = 10_000;

/**
 * The one line for the instructor: the set-up in a lead-in and for the first 5 s, the lower option from 5 to 10 s, then a
 * form point, another one after each third. Empty where the moves have nothing to say.
 */
export function lineFor(state: ClassState, library: MoveLibrary, span: Span, intoMs: number): string {
  const move = moveOfSpan(span, library);
  if (move === null) return '';
  if (isLeadIn(span) || span.kind === 'sideChange') return move.formPoints[0] ?? '';
  return isWork(span) ? workLine(move, span, intoMs + span.doneMs, levelOf(state, span)) : '';
}

function workLine(move: Move, span: Span, intoMs: number, level: number): string {
  const [setUp = '', ...points] = move.formPoints;
  if (intoMs < SET_UP_UNTIL_MS) return setUp;
  const lower = optionAt(move, Math.max(0, level) + 1);
  if (intoMs < LOWER_UNTIL_MS && lower !== null) return `${lower.name}: ${lower.how}`;
  const third = Math.floor((3 * intoMs) / Math.max(1, span.doneMs + span.lengthMs));
  return points[(span.round - 1 + third) % Math.max(1, points.length)] ?? setUp;
}

/** Half done, three to go, last one: by moves of the circuit with time left after the present one; null elsewhere. */
export function milestoneAt(state: ClassState, index: number, circuit: ReadonlySet<string>): Milestone | null {
  const span = state.live[index];
  if (span === undefined || !circuit.has(span.blockId)) return null;
  const all = occurrences(state, 0, circuit);
  const left = occurrences(state, index, circuit);
  if (left === 1) return 'lastOne';
  if (left === 4) return 'threeToGo';
  return all > 8 && left === Math.floor(all / 2) ? 'halfDone' : null;
}

function occurrences(state: ClassState, from: number, circuit: ReadonlySet<string>): number {
  let count = 0;
  let last: Span | null = null;
  for (let index = from; index < state.live.length; index += 1) {
    const span = state.live[index];
    if (span === undefined || !isWork(span) || !hasTime(span) || !circuit.has(span.blockId)) continue;
    if (last === null || !isOf(span, last)) count += 1;
    last = span;
  }
  return count;
}
