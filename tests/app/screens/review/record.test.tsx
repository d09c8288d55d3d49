import { cleanup, render, screen } from '@testing-library/preact';
import { afterEach, describe, expect, it } from 'vitest';
import { Record } from '../../../../app/screens/review/record.tsx';
import { type KeptClass, readFacts } from '../../../../app/screens/review/record-facts.ts';
import type { Happening, Mark } from '../../../../src/class-run/marks.ts';
import { compile } from '../../../../src/running-order/compile.ts';
import { A_START_WALL_MS, aHead, aPaper, ended } from '../../../builders/kept-class.ts';
import { aBlock, anEntry, aPlan, aTalk, SMALL_LIBRARY } from '../../../builders/small-plan.ts';

afterEach(cleanup);

/** Count-in 10 s, a 30 s, b 30 s, talk 20 s. */
const PLAN = aPlan([aBlock([anEntry('a'), anEntry('b'), aTalk()])]);
const PAPER = aPaper('a', { plan: PLAN, order: compile(PLAN, SMALL_LIBRARY), moves: [...SMALL_LIBRARY.values()] });

function marksOf(...happenings: readonly (readonly [atMs: number, Happening])[]): readonly Mark[] {
  return happenings.map(([atMs, happening], seq) => ({
    seq,
    atMs,
    seen: { monoMs: atMs, wallMs: A_START_WALL_MS + atMs, life: 1 },
    ...happening,
  }));
}

const kept = (marks: readonly Mark[]): KeptClass => ({ head: ended(aHead()), paper: PAPER, marks });

const PAUSED = marksOf(
  [0, { kind: 'started' }],
  [15_000, { kind: 'paused', cause: 'asked' }],
  [22_000, { kind: 'carriedOn' }],
  [30_000, { kind: 'showed', entryId: 'b', level: 1 }],
  [97_000, { kind: 'finished' }],
);

describe('what is kept of a class', () => {
  it('is planned, stood still and real, and they add up', () => {
    expect(readFacts(kept(PAUSED))).toMatchObject({
      plannedMs: 90_000,
      pausedMs: 7000,
      realMs: 97_000,
      bentAt: null,
    });
  });

  it('tells every mark with its instant, moves by their names', () => {
    expect(readFacts(kept(PAUSED)).lines.map(({ atMs, text }) => [atMs, text])).toEqual([
      [0, 'Started'],
      [15_000, 'Paused'],
      [22_000, 'Carried on'],
      [30_000, 'Lower option for all: The b'],
      [97_000, 'Finished'],
    ]);
  });

  it('says from where on marks do not fit, and still tells them', () => {
    const bent = readFacts(kept(marksOf([0, { kind: 'started' }], [5000, { kind: 'carriedOn' }])));
    expect(bent.bentAt).toBe(1);
    expect(bent.books).toBeNull();
    expect(bent.lines).toHaveLength(2);
  });

  it('counts a class without an end up to its last mark', () => {
    expect(readFacts(kept(PAUSED.slice(0, 4))).realMs).toBe(30_000);
  });
});

describe('the page of one class', () => {
  it('shows the facts in plain lines', () => {
    render(<Record kept={{ ok: true, value: kept(PAUSED) }} />);
    expect(screen.getByRole('heading', { name: 'Small class' })).toBeTruthy();
    expect(screen.getByText('Monday 2 March 2026, finished')).toBeTruthy();
    expect(screen.getByText(/Started 19:00, ended 19:20 \(Europe\/Berlin\)/)).toBeTruthy();
    expect(screen.getByText('Real against plan: 2 against 2 minutes')).toBeTruthy();
    const sums = screen.getAllByRole('term').map((term) => [term.textContent, term.nextElementSibling?.textContent]);
    expect(sums).toEqual([
      ['Planned', '1:30'],
      ['Stood still', '0:07'],
      ['Real', '1:37'],
    ]);
    expect(screen.getAllByRole('listitem').map((row) => row.textContent)).toContain('0:15Paused');
  });

  it('says that marks do not fit together', () => {
    render(<Record kept={{ ok: true, value: kept(marksOf([0, { kind: 'carriedOn' }])) }} />);
    expect(screen.getByRole('alert').textContent).toContain('does not fit together');
  });

  it.each([
    [{ ok: true, value: null } as const, 'There is no such class on this phone.'],
    [{ ok: false, reason: 'tooNew' } as const, 'newer version'],
    [{ ok: false, reason: 'unreadable' } as const, 'Nothing was deleted'],
  ])('says why there is nothing to see', (answer, text) => {
    render(<Record kept={answer} />);
    expect(screen.getByRole('status').textContent).toContain(text);
    expect(screen.getByRole('link', { name: 'Classes that ran' }).getAttribute('href')).toBe('#/review');
  });
});
