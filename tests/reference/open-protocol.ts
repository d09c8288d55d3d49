import { readFileSync } from 'node:fs';
import { readPlanFile } from '../../src/exchange/plan-file.ts';
import { libraryOf } from '../../src/moves/library.ts';
import type { MoveId } from '../../src/moves/move.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { compile } from '../../src/running-order/compile.ts';
import { isWork, type Span } from '../../src/running-order/span.ts';

/** Seconds from the start of the first work span. */
export type WorkSpan = { readonly moveId: MoveId; readonly start: number; readonly end: number };

/** What a protocol comes to, in seconds. `total` ends with the last work span, `totalWithRest` with the running order. */
export type Timeline = {
  readonly work: readonly WorkSpan[];
  readonly total: number;
  readonly totalWithRest: number;
  readonly workSum: number;
};

/** A published protocol from the fixtures, read as any plan file is, compiled with a count-in and a closing rest. */
export function timelineOf(
  name: string,
  change: { readonly countIn: number; readonly closingRest?: number },
): Timeline {
  const file = readPlanFile(
    readFileSync(new URL(`../fixtures/protocols/${name}.json`, import.meta.url), 'utf8'),
    new Map(),
  );
  if (!file.ok) throw new Error(`${name}: ${file.reason} at ${file.field.join('.')}`);
  const plan = withRests(file.plan, change.countIn, change.closingRest ?? 0);
  return measure(compile(plan, libraryOf(file.ownMoves)).spans);
}

function withRests(plan: Plan, countInSeconds: number, closingRestSeconds: number): Plan {
  const blocks = plan.blocks.map((block, at) =>
    at === plan.blocks.length - 1 ? { ...block, closingRestSeconds } : block,
  );
  return { ...plan, countInSeconds, blocks };
}

function measure(spans: readonly Span[]): Timeline {
  let at = 0;
  const placed = spans.map((span) => {
    const start = at / 1000;
    at += span.lengthMs;
    return { span, start, end: at / 1000 };
  });
  const working = placed.filter(({ span }) => isWork(span));
  const first = working[0]?.start ?? 0;
  const work = working.map(({ span, start, end }) => {
    return { moveId: span.doing[0]?.moveId ?? '', start: start - first, end: end - first };
  });
  const total = work.at(-1)?.end ?? 0;
  const workSum = work.reduce((sum, { start, end }) => sum + end - start, 0);
  return { work, total, totalWithRest: at / 1000 - first, workSum };
}
