import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { libraryOf } from '../../src/moves/library.ts';
import { parseRunningOrder } from '../../src/records/running-order.ts';
import { canRun, compile } from '../../src/running-order/compile.ts';
import type { RunningOrder, Span } from '../../src/running-order/span.ts';
import { ANY_PLAN_MOVES, anyPlan } from '../builders/any-plan.ts';
import { aBlock, anEntry, aPlan, SMALL_LIBRARY } from '../builders/small-plan.ts';

const order = compile(aPlan([aBlock([anEntry('a'), anEntry('sided')])]), SMALL_LIBRARY);
const sided = order.spans.findIndex(({ pair }) => pair !== null);

function changed(at: number, change: Partial<Span>): RunningOrder {
  return { ...order, spans: order.spans.map((span, i) => (i === at ? { ...span, ...change } : span)) };
}

describe('parseRunningOrder', () => {
  it('gives back what compile makes of any plan that can run', () => {
    const library = libraryOf(ANY_PLAN_MOVES);
    fc.assert(
      fc.property(anyPlan.filter(canRun), (plan) => {
        const made = compile(plan, library);
        expect(parseRunningOrder(JSON.parse(JSON.stringify(made)))).toEqual({ ok: true, value: made });
      }),
    );
  });

  it.each([
    ['whose ids are not their places', changed(1, { id: 7 }), 1],
    ['that is a copy', changed(1, { of: 0 }), 1],
    ['of no length', changed(1, { lengthMs: 0 }), 1],
    ['that already ran', changed(1, { doneMs: 5 }), 1],
    ['whose other side is elsewhere', changed(sided, { pair: 0 }), sided],
    ['whose other side is itself', changed(sided, { pair: sided }), sided],
    ['whose other side is not there', changed(sided, { pair: 99 }), sided],
    ['whose sides differ in length', changed(sided, { lengthMs: 1 }), sided],
  ])('refuses a span %s', (_what, bent, at) => {
    expect(sided).toBeGreaterThan(0);
    expect(parseRunningOrder(bent)).toEqual({ ok: false, reason: 'spansDoNotAdd', field: ['spans', at] });
  });

  it('refuses a sum that is not the sum', () => {
    const bent = { ...order, plannedMs: order.plannedMs + 1 };
    expect(parseRunningOrder(bent)).toEqual({ ok: false, reason: 'spansDoNotAdd', field: ['plannedMs'] });
  });
});
