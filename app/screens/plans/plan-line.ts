import type { FigureId, MoveLibrary } from '../../../src/moves/move.ts';
import type { Block, Plan } from '../../../src/plan/plan.ts';
import { canRun, compile } from '../../../src/running-order/compile.ts';
import { isWork, type RunningOrder } from '../../../src/running-order/span.ts';
import { totalsOf } from '../../../src/running-order/totals.ts';

/** A plan as lists and the start page show it. Lengths in whole ms, from the first work on. */
export type PlanLine = {
  readonly planId: string;
  readonly name: string;
  readonly about: string;
  readonly figure: FigureId;
  /** The moves alone. */
  readonly paperMs: number;
  /** With every change of place, side and kit. */
  readonly hallMs: number;
  /** How long each block is in the hall, in order; they add up to `hallMs`. */
  readonly blockMs: readonly number[];
  /** False for formats that cannot be run yet. */
  readonly canRun: boolean;
};

/** Sums a plan up. Its moves are all in `library`. */
export function planLine(plan: Plan, library: MoveLibrary): PlanLine {
  const order = compile(plan, library);
  const totals = totalsOf(order);
  return {
    planId: plan.id,
    name: plan.name,
    about: plan.about,
    figure: figureOf(plan, library),
    paperMs: totals.workMs,
    hallMs: totals.totalMs,
    blockMs: lengthsOf(plan.blocks, order),
    canRun: canRun(plan),
  };
}

/** The first move of the circuit stands for the class, else the first of all. */
function figureOf(plan: Plan, library: MoveLibrary): FigureId {
  const circuit = plan.blocks.filter((block) => block.part === 'circuit');
  const entries = [...circuit, ...plan.blocks].flatMap((block) => block.entries);
  const first = entries.find((entry) => entry.kind === 'move');
  return first === undefined ? '' : (library.get(first.moveId)?.figure ?? '');
}

function lengthsOf(blocks: readonly Block[], order: RunningOrder): readonly number[] {
  const from = order.spans.findIndex(isWork);
  if (from === -1) return blocks.map(() => 0);
  const spans = order.spans.slice(from);
  return blocks.map((block) =>
    spans.filter((span) => span.blockId === block.id).reduce((sum, span) => sum + span.lengthMs, 0),
  );
}
