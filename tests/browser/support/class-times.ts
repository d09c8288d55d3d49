import { cuesBetween } from '../../../src/class-run/cues.ts';
import { positionAt } from '../../../src/class-run/position.ts';
import { replay } from '../../../src/class-run/replay.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import { compile } from '../../../src/running-order/compile.ts';
import type { Span } from '../../../src/running-order/span.ts';
import { starterLibrary } from '../../builders/starter-moves.ts';
import type { HallSeen } from './hall-watch.ts';
import type { KeptClass } from './kept-rows.ts';

function stateOf({ paper, marks }: KeptClass) {
  const replayed = replay(paper.order, marks);
  if (!replayed.ok) throw new Error(`what is kept does not replay: ${replayed.reason}`);
  return replayed.state;
}

/** A stretch of a class in which the hall root's kind, moves and side stay as they are. Class time, ms. */
export type Stretch = {
  readonly shows: string;
  readonly isOpen: boolean;
  readonly startMs: number;
  readonly endMs: number;
};

/** What of the hall root changes from span to span. */
export function showsOf({ kind, moves, side }: Pick<HallSeen, 'kind' | 'moves' | 'side'>): string {
  return `${kind} ${moves} ${side}`.trim();
}

function spanShows({ kind, doing }: Span): string {
  return showsOf({ kind, moves: doing.map(({ moveId }) => moveId).join(' '), side: doing[0]?.side ?? '' });
}

/** What a plan's class shows from second to second when nobody touches it. */
export function stretchesOf(plan: Plan): readonly Stretch[] {
  let endMs = 0;
  return compile(plan, starterLibrary()).spans.map((span) => {
    const startMs = endMs;
    endMs += span.lengthMs;
    return { shows: spanShows(span), isOpen: span.open, startMs, endMs };
  });
}

/** What the hall must show at an instant of the wall clock, by the marks that are kept and nothing else. */
export function shouldShow(kept: KeptClass, wallMs: number) {
  const { status, span, leftMs } = positionAt(stateOf(kept), wallMs - kept.head.startedWallMs);
  return { status, span: span?.id ?? null, shows: span === null ? '' : spanShows(span), leftMs };
}

/** When sounds are due between two instants, all by the page's clock, in a class that has not stood. */
export function dueMs(kept: KeptClass, fromMs: number, toMs: number): readonly number[] {
  const zeroMs = kept.marks[0]?.seen.monoMs ?? Number.NaN;
  return cuesBetween(stateOf(kept), starterLibrary(), fromMs - zeroMs, toMs - zeroMs)
    .filter(({ kind }) => kind !== 'name')
    .map(({ dueRunMs }) => zeroMs + dueRunMs);
}
