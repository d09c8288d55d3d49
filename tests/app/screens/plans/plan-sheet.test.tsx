import { cleanup, render, screen, within } from '@testing-library/preact';
import { afterEach, describe, expect, it } from 'vitest';
import { PlanSheet } from '../../../../app/screens/plans/plan-sheet.tsx';
import type { Plan } from '../../../../src/plan/plan.ts';
import { aBlock, anEntry, aPlan, aTalk, aWait, SMALL_LIBRARY } from '../../../builders/small-plan.ts';

afterEach(cleanup);

const show = (plan: Plan) => render(<PlanSheet plan={plan} library={SMALL_LIBRARY} />);
const widthsOf = (row: Element, kind: string): readonly (string | null)[] =>
  [...row.querySelectorAll(`.sheet-piece-${kind}`)].map((piece) => piece.getAttribute('width'));

describe('the class sheet', () => {
  it('leads to the hall of the plan', () => {
    show(aPlan([aBlock([anEntry('a')])], { id: 'p7' }));
    expect(screen.getByRole('link', { name: 'Run this class' }).getAttribute('href')).toBe('#/hall/p7');
  });

  it('says instead that a plan with stations cannot be run yet', () => {
    show(aPlan([aBlock([anEntry('a')], { format: { kind: 'stations' } })]));
    expect(screen.queryByRole('link', { name: 'Run this class' })).toBeNull();
    expect(screen.getByText(/not run yet/)).toBeTruthy();
  });

  it('shows both totals', () => {
    const entries = [
      anEntry('a', { dose: { kind: 'seconds', seconds: 300 } }),
      anEntry('b', { changeoverSeconds: 90 }),
    ];
    const { container } = show(aPlan([aBlock(entries)]));
    expect(container.querySelector('.sheet-totals')?.textContent).toMatch(/7 minutes in the hall6 on paper/);
  });

  it('lists the entries of each block in order, with talk and wait points', () => {
    show(
      aPlan([
        aBlock([anEntry('a'), aTalk()], { id: 'one', name: 'First' }),
        aBlock([aWait(), anEntry('band')], { id: 'two', name: '', part: 'stretch', rounds: 3, breatherSeconds: 45 }),
      ]),
    );
    const first = within(screen.getByRole('region', { name: 'First' }));
    expect(first.getAllByRole('listitem').map((row) => row.querySelector('.sheet-name')?.textContent)).toEqual([
      'The a',
      'Talk',
    ]);
    const second = screen.getByRole('region', { name: 'Stretch' });
    expect(second.textContent).toContain('3 rounds · all together · sharp cues · 45 s breather between rounds');
    expect(second.textContent).toContain('hook the band · goes on by itself');
  });

  it('draws two px a second, and a change of sides as a gap of its length', () => {
    show(aPlan([aBlock([anEntry('sided', { swapSeconds: 5 })])]));
    const [row] = screen.getAllByRole('listitem');
    if (row === undefined) throw new Error('no row');
    expect(widthsOf(row, 'work')).toEqual(['60', '60']);
    const [first, second] = [...row.querySelectorAll('.sheet-piece-work')].map((piece) =>
      Number(piece.getAttribute('x')),
    );
    expect((second ?? 0) - (first ?? 0)).toBe(60 + 10);
  });

  it('ends the floor at a gate post where only the instructor goes on', () => {
    show(aPlan([aBlock([anEntry('a'), aWait({ seconds: 30, goesOn: 'whenAsked' }), aWait({ id: 'other' })])]));
    const gates = screen.getAllByRole('listitem').map((row) => row.querySelector('.sheet-gate')?.getAttribute('x'));
    expect(gates).toEqual([undefined, '100', undefined]);
    const [, asked] = screen.getAllByRole('listitem');
    const [, line] = asked?.querySelectorAll('.sheet-floor-line') ?? [];
    expect(line?.getAttribute('width')).toBe('60');
  });

  it('joins the floor on straight in, and leaves a gap for a changeover', () => {
    show(aPlan([aBlock([anEntry('a'), anEntry('b'), anEntry('c', { changeoverSeconds: 8 })])], { countInSeconds: 0 }));
    const stubs = screen
      .getAllByRole('listitem')
      .map((row) => row.querySelector('.sheet-floor-line')?.getAttribute('width'));
    expect(stubs).toEqual(['40', '40', '24']);
  });

  it('names the kit for each, or that there is none', () => {
    show(aPlan([aBlock([anEntry('band')])]));
    expect(within(screen.getByRole('list', { name: 'Kit for each' })).getByText('band')).toBeTruthy();
    cleanup();
    show(aPlan([aBlock([anEntry('a')])]));
    expect(screen.getByText('No kit.')).toBeTruthy();
  });
});
