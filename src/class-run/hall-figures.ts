import type { KitId, KitNeeds, Move, MoveLibrary, Option } from '../moves/move.ts';
import { turnBetween } from '../moves/position.ts';
import { type Doing, isWork, type Span } from '../running-order/span.ts';
import type { ClassState } from './class-state.ts';
import { comingWork, followerOf } from './coming.ts';
import type { FigureView, NextView } from './hall-values.ts';
import type { Level } from './marks.ts';

/** The option a level stands for: null for the move as planned, and for a level the move does not have. */
export function optionAt(move: Move, level: Level): Option | null {
  const kind = level > 0 ? 'lower' : 'higher';
  return level === 0 ? null : (move.options.filter((option) => option.level === kind)[Math.abs(level) - 1] ?? null);
}

/** How many lower options a move has. */
export function lowerCount(move: Move): number {
  return move.options.filter((option) => option.level === 'lower').length;
}

/** The figure for what one span does, at a level; null when the span has no move. */
export function figureOf(span: Span | undefined, library: MoveLibrary, level: Level): FigureView | null {
  const doing = span?.doing[0];
  const move = doing === undefined ? undefined : library.get(doing.moveId);
  if (span === undefined || doing === undefined || move === undefined) return null;
  return figureFor(move, doing, halfOf(span, doing), optionAt(move, level));
}

function figureFor(move: Move, doing: Doing, half: FigureView['half'], option: Option | null): FigureView {
  const { name, hallName, figure } = option ?? move;
  const { entryId, moveId, side } = doing;
  return { moveId, entryId, name, hallName, figure, position: move.position, side, half, kit: kitList(move.kit) };
}

function halfOf(span: Span, doing: Doing): FigureView['half'] {
  if (doing.side === 'both' || doing.side === 'alternating') return null;
  if (span.kind === 'sideChange') return 'second';
  return doing.side === 'left' || doing.side === 'forward' ? 'first' : 'second';
}

function kitList(kit: KitNeeds): FigureView['kit'] {
  return (Object.keys(kit) as KitId[]).flatMap((one) => {
    const count = kit[one];
    return count === undefined ? [] : [{ kit: one, count }];
  });
}

/** The lower option that stands beside the main figure, one below the level shown; null when there is none lower. */
export function lowerOf(span: Span | undefined, library: MoveLibrary, level: Level): FigureView | null {
  const doing = span?.doing[0];
  const move = doing === undefined ? undefined : library.get(doing.moveId);
  if (span === undefined || doing === undefined || move === undefined) return null;
  const option = optionAt(move, Math.max(0, level) + 1);
  return option === null ? null : figureFor(move, doing, halfOf(span, doing), option);
}

/** What comes after the live span at `index`, as planned for all or at the level shown for it. */
export function nextOf(state: ClassState, library: MoveLibrary, index: number): NextView | null {
  const follower = followerOf(state, index);
  const coming = follower === -1 ? -1 : isWorkAt(state, follower) ? follower : comingWork(state, follower);
  const span = state.live[coming];
  const figure = figureOf(span, library, levelOf(state, span));
  const from = state.live[index]?.doing[0]?.moveId;
  if (figure === null) return null;
  const present = from === undefined ? undefined : library.get(from);
  const turn = present === undefined ? null : turnBetween(present.position, figure.position);
  return { figure, turn: turn ?? 'stay', straightIn: coming === follower };
}

function isWorkAt(state: ClassState, index: number): boolean {
  const span = state.live[index];
  return span !== undefined && isWork(span);
}

/** The level shown for the entry of a span; 0 when nothing was chosen. */
export function levelOf(state: ClassState, span: Span | undefined): Level {
  const entryId = span?.doing[0]?.entryId;
  return entryId === undefined ? 0 : (state.shown[entryId] ?? 0);
}
