import { describe, expect, it } from 'vitest';
import { type Field, LEAST_APART_MS, latch, wantedField } from '../../../../app/screens/hall/field.ts';
import { running } from './hall-builders.tsx';

const lightSince = (changedAtMs: number | null) => ({ shown: 'light' as Field, changedAtMs });

describe('the latch of the field', () => {
  it.each<[string, number | null, Field, number, Field, number | null]>([
    ['shows what it already shows', 0, 'light', 10, 'light', null],
    ['changes at once when it never did', null, 'dark', 0, 'dark', null],
    ['changes at once a second after the last change', 1000, 'dark', 2000, 'dark', null],
    ['waits for the rest of the second', 1000, 'dark', 1400, 'light', 600],
    ['waits a whole second after a change in this instant', 1000, 'dark', 1000, 'light', 1000],
    ['waits 1 ms before the second is over', 1000, 'dark', 1999, 'light', 1],
  ])('%s', (_rule, changedAtMs, wanted, nowMs, shown, againInMs) => {
    const latched = latch(lightSince(changedAtMs), wanted, nowMs);
    expect(latched.state.shown).toBe(shown);
    expect(latched.againInMs).toBe(againInMs);
  });

  it('remembers when it changed, so that the next change waits', () => {
    const { state } = latch(lightSince(null), 'dark', 5000);
    expect(latch(state, 'light', 5999).state.shown).toBe('dark');
    expect(latch(state, 'light', 5000 + LEAST_APART_MS).state.shown).toBe('light');
  });

  it('forgets a change that is no longer wanted when its time comes', () => {
    const waiting = latch(lightSince(1000), 'dark', 1200);
    expect(latch(waiting.state, 'light', 2000)).toEqual({ state: lightSince(1000), againInMs: null });
  });

  it('is far from a strobe however often it is asked', () => {
    // WCAG 2.2, 2.3.1: no more than three flashes in any one second; a flash is a pair of opposing changes.
    let state = lightSince(null);
    const changes: number[] = [];
    for (let nowMs = 0; nowMs < 20_000; nowMs += 10) {
      const wanted: Field = nowMs % 50 < 25 ? 'dark' : 'light';
      const next = latch(state, wanted, nowMs).state;
      if (next.shown !== state.shown) changes.push(nowMs);
      state = next as typeof state;
    }
    expect(changes.length).toBeGreaterThan(10);
    for (const [index, at] of changes.entries())
      expect(at - (changes[index - 1] ?? -1000)).toBeGreaterThanOrEqual(1000);
  });
});

describe('the field that a view asks for', () => {
  const work = (wholeMs: number) =>
    ({ kind: 'work', field: 'dark', floor: { leftMs: 2000, wholeMs, runs: true } }) as const;

  it('is dark in the last seconds of work of nine seconds or more', () => {
    expect(wantedField(work(9000))).toBe('dark');
  });

  it('stays light in shorter work', () => {
    expect(wantedField(work(8999))).toBe('light');
  });

  it('is dark in a changeover however short', () => {
    expect(wantedField({ ...work(3000), kind: 'changeover' })).toBe('dark');
  });

  it('is light in work', () => {
    expect(wantedField(running)).toBe('light');
  });
});
