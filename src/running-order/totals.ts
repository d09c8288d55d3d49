import { isWork, type RunningOrder } from './span.ts';

/** Whole ms. `totalMs` runs from the start of the first work span to the end of the order. */
export type Totals = { readonly totalMs: number; readonly workMs: number; readonly beforeWorkMs: number };

/** Adds up a running order; all zero when there is no work in it. */
export function totalsOf(order: RunningOrder): Totals {
  let beforeWorkMs = 0;
  let workMs = 0;
  for (const span of order.spans) {
    if (isWork(span)) workMs += span.lengthMs;
    else if (workMs === 0) beforeWorkMs += span.lengthMs;
  }
  if (workMs === 0) return { totalMs: 0, workMs: 0, beforeWorkMs: 0 };
  return { totalMs: order.plannedMs - beforeWorkMs, workMs, beforeWorkMs };
}
