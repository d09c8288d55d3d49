import { describe, expect, it } from 'vitest';
import { readPlanFile } from '../../src/exchange/plan-file.ts';
import type { MoveEntry, Plan } from '../../src/plan/plan.ts';
import { compile } from '../../src/running-order/compile.ts';
import { isWork, type Span } from '../../src/running-order/span.ts';
import { totalsOf } from '../../src/running-order/totals.ts';
import { starterLibrary } from '../builders/starter-moves.ts';
import { readTop } from '../builders/stored.ts';

const library = starterLibrary();

function demoPlan(): Plan {
  const file = readPlanFile(readTop('assets/plans/demo-class.json'), library);
  if (!file.ok) throw new Error(`${file.reason} at ${file.field.join('.')}`);
  expect(file.ownMoves).toEqual([]);
  return file.plan;
}

const plan = demoPlan();
const order = compile(plan, library);
const [warmUp, circuit, stretch] = plan.blocks;
const moveEntries = plan.blocks.flatMap((block) => block.entries).filter((entry): entry is MoveEntry => entry.kind === 'move');
const lengthOf = (spans: readonly Span[]): number => spans.reduce((sum, span) => sum + span.lengthMs, 0) / 1000;
const spansOf = (blockId: string | undefined): readonly Span[] => order.spans.filter((span) => span.blockId === blockId);

describe('the demo class', () => {
  it('takes 25 to 30 minutes from the first move to the end', () => {
    const seconds = totalsOf(order).totalMs / 1000;
    expect(seconds).toBeGreaterThanOrEqual(25 * 60);
    expect(seconds).toBeLessThanOrEqual(30 * 60);
  });

  it('warms up softly for six minutes, then has two sharp rounds, then stretches softly for five minutes', () => {
    expect(plan.blocks.map(({ part, cueStyle, rounds }) => [part, cueStyle, rounds])).toEqual([
      ['warmUp', 'soft', 1],
      ['circuit', 'sharp', 2],
      ['stretch', 'soft', 1],
    ]);
    expect(lengthOf(spansOf(warmUp?.id).filter(({ kind }) => kind !== 'countIn'))).toBe(360);
    expect(lengthOf(spansOf(stretch?.id).filter(({ kind }) => kind !== 'breather'))).toBe(300);
  });

  it('holds stretches 20 s a side with 4 s to swap', () => {
    const sided = spansOf(stretch?.id).filter(({ pair }) => pair !== null);
    expect(new Set(sided.map(({ lengthMs }) => lengthMs))).toEqual(new Set([20_000]));
    expect(new Set(spansOf(stretch?.id).flatMap((span) => (span.kind === 'sideChange' ? [span.lengthMs] : [])))).toEqual(
      new Set([4000]),
    );
  });

  it('has sides in turn, alternating, the other direction, straight-in changes and kit', () => {
    const sides = new Set(order.spans.filter(isWork).flatMap(({ doing }) => doing.map(({ side }) => side)));
    expect([...sides].sort()).toEqual(['alternating', 'both', 'forward', 'left', 'reverse', 'right']);
    const straightIn = order.spans.filter((span, at) => {
      const before = order.spans[at - 1];
      return isWork(span) && before !== undefined && isWork(before) && before.entryId !== span.entryId;
    });
    expect(straightIn.length).toBeGreaterThanOrEqual(5);
    const kit = new Set(moveEntries.flatMap(({ moveId }) => Object.keys(library.get(moveId)?.kit ?? {})));
    expect(kit).toEqual(new Set(['band', 'bandHook', 'mat', 'handWeight', 'wall']));
  });

  it('waits 20 s for the band to be hooked, then goes on by itself', () => {
    const at = circuit?.entries.findIndex(({ kind }) => kind === 'wait') ?? -1;
    expect(circuit?.entries[at]).toMatchObject({ kind: 'wait', seconds: 20, goesOn: 'byItself' });
    const next = circuit?.entries[at + 1];
    expect(next?.kind === 'move' && library.get(next.moveId)?.kit.bandHook).toBe(1);
  });

  it('has a count at a tempo, water, a second dose for some, and a round that differs', () => {
    expect(moveEntries.some(({ dose }) => dose.kind === 'count')).toBe(true);
    expect(circuit?.entries.some(({ kind }) => kind === 'water')).toBe(true);
    expect(moveEntries.filter(({ forSome }) => forSome !== null).length).toBeGreaterThanOrEqual(2);
    expect(moveEntries.some(({ byRound }) => byRound.length > 0)).toBe(true);
  });

  it('keeps jumps to 30 s at a stretch and never asks for more than 60 s of one thing in the circuit', () => {
    const longest = Math.max(...spansOf(circuit?.id).flatMap((span) => (isWork(span) ? [span.lengthMs] : [])));
    expect(longest).toBeLessThanOrEqual(60_000);
    const jumps = moveEntries.filter(({ moveId }) => library.get(moveId)?.impact === 'jump');
    expect(jumps.length).toBeGreaterThan(0);
    for (const { dose } of jumps) expect(dose.kind === 'seconds' ? dose.seconds : 99).toBeLessThanOrEqual(30);
  });

  it('uses moves where they belong', () => {
    for (const block of plan.blocks) {
      const parts = block.entries.flatMap((entry) => (entry.kind === 'move' ? [library.get(entry.moveId)?.part] : []));
      expect(new Set(parts)).toEqual(new Set([block.part]));
    }
  });
});
