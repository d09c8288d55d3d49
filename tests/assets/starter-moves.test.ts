import { describe, expect, it } from 'vitest';
import { FIGURE_IDS } from '../../src/figures/poses.ts';
import type { Move } from '../../src/moves/move.ts';
import { movesIn, starterLibrary } from '../builders/starter-moves.ts';

const all = [...starterLibrary().values()];
const circuit = movesIn('circuit');
const named = (moves: readonly Move[]): [string, Move][] => moves.map((move) => [move.id, move]);
const distinct = (values: readonly unknown[]): number => new Set(values).size;

describe('the starter library', () => {
  it('has 14 circuit moves, 5 warm-up moves and 6 stretches, each in its own file', () => {
    expect(circuit.map(({ part }) => part)).toEqual(Array(14).fill('circuit'));
    expect(movesIn('warm-up').map(({ part }) => part)).toEqual(Array(5).fill('warmUp'));
    expect(movesIn('stretch').map(({ part }) => part)).toEqual(Array(6).fill('stretch'));
  });

  it('is spread over patterns, regions, positions, impacts, sides and kit', () => {
    expect(distinct(circuit.map(({ pattern }) => pattern))).toBeGreaterThanOrEqual(8);
    expect(distinct(all.flatMap(({ regions }) => regions))).toBeGreaterThanOrEqual(8);
    expect(distinct(all.map(({ position }) => position))).toBeGreaterThanOrEqual(6);
    expect(new Set(all.map(({ impact }) => impact))).toEqual(new Set(['none', 'low', 'jump']));
    expect(new Set(all.map(({ sides }) => sides))).toEqual(new Set(['both', 'alternating', 'inTurn', 'reverse']));
    expect(distinct(all.flatMap(({ kit }) => Object.keys(kit)))).toBeGreaterThanOrEqual(5);
  });

  it('says each thing once: no name, hall name or set of form points stands twice', () => {
    expect(distinct(all.map(({ name }) => name))).toBe(all.length);
    expect(distinct(all.map(({ hallName }) => hallName))).toBe(all.length);
    expect(distinct(all.map(({ formPoints }) => [...formPoints].sort().join()))).toBe(all.length);
  });

  it('shouts nowhere and leaves every sentence finished', () => {
    for (const move of all) {
      for (const name of [move.name, move.hallName, ...move.options.map(({ hallName }) => hallName)]) {
        expect(name, move.id).toMatch(/^\p{Lu}[^\p{Lu}]*$/u);
      }
      for (const line of [...move.formPoints, ...move.takeCareIf, ...move.options.map(({ how }) => how)]) {
        expect(line, move.id).toMatch(/^\p{Lu}.*\.$/u);
      }
    }
  });

  it('uses only figures that are drawn: any other would show as plain standing', () => {
    const used = all.flatMap((move) => [move.figure, ...move.options.map(({ figure }) => figure)]);
    expect(used.filter((figure) => !FIGURE_IDS.includes(figure))).toEqual([]);
  });

  describe.each(named(all))('%s', (_id, move) => {
    it('has three or four form points and says whom to watch', () => {
      expect([3, 4]).toContain(move.formPoints.length);
      expect(move.takeCareIf.length).toBeGreaterThan(0);
    });

    it('has lower options before higher ones, under names of their own', () => {
      const levels = move.options.map(({ level }) => level);
      expect(levels).toEqual([...levels].sort().reverse());
      expect(levels.filter((level) => level === 'lower').length).toBeGreaterThanOrEqual(1);
      expect(distinct([move.hallName, ...move.options.map(({ hallName }) => hallName)])).toBe(move.options.length + 1);
    });
  });

  it.each(named(circuit))('%s has one to three lower options and something for the keen', (_id, move) => {
    const lower = move.options.filter(({ level }) => level === 'lower');
    expect(lower.length).toBeLessThanOrEqual(3);
    expect(move.options.some(({ level }) => level === 'higher')).toBe(true);
  });

  it('never jumps in a lower option of a jump', () => {
    const jumps = all.filter(({ impact }) => impact === 'jump');
    expect(jumps.length).toBeGreaterThan(0);
    for (const jump of jumps) {
      const lower = jump.options.filter(({ level }) => level === 'lower').map(({ figure }) => figure);
      expect(lower.filter((figure) => ['starJump', 'jumpSquat', 'ropeSkip'].includes(figure))).toEqual([]);
    }
  });
});
