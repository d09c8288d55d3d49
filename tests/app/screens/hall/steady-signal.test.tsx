import { signal } from '@preact/signals';
import { act, cleanup, render } from '@testing-library/preact';
import { afterEach, describe, expect, it } from 'vitest';
import { useSteady } from '../../../../app/screens/hall/steady-signal.ts';

afterEach(cleanup);

const first = { move: 'squat', round: 1, left: 24 };
const pick = ({ move, round }: typeof first) => ({ move, round });

describe('a part of a view', () => {
  it('is drawn again only when its own values change', () => {
    const view = signal(first);
    const drawn: ReturnType<typeof pick>[] = [];
    const Part = () => {
      drawn.push(useSteady(view, pick));
      return null;
    };
    render(<Part />);
    for (const left of [23, 22, 21])
      act(() => {
        view.value = { ...first, left };
      });
    expect(drawn).toEqual([{ move: 'squat', round: 1 }]);
    act(() => {
      view.value = { ...first, round: 2 };
    });
    expect(drawn).toEqual([
      { move: 'squat', round: 1 },
      { move: 'squat', round: 2 },
    ]);
  });
});
