import { act, cleanup, fireEvent, screen } from '@testing-library/preact';
import { afterEach, describe, expect, it } from 'vitest';
import type { HallAsk } from '../../../../app/live/live-contract.ts';
import { HOLD_MS } from '../../../../app/screens/hall/hold.ts';
import { asking, atTheGate, bandRow, hurt, paused, ready, renderHall, running } from './hall-builders.tsx';

afterEach(cleanup);

const button = (name: string): HTMLElement => screen.getByRole('button', { name });
const key = (type: 'keyDown' | 'keyUp', name: string): void => {
  fireEvent[type](document.body, { key: name });
};

describe('a pressed button', () => {
  it.each<[string, HallAsk, typeof running]>([
    ['Start class', 'start', ready],
    ['Pause', 'pause', running],
    ['Carry on', 'carryOn', paused],
    ['Carry on', 'carryOn', atTheGate],
    ['Carry on', 'carryOn', asking],
    ['Carry on', 'carryOn', hurt],
    ['Next move', 'nextMove', running],
    ['Go back one', 'goBackOne', running],
    ['Ten seconds more', 'tenMore', running],
    ['Lower for all', 'lowerForAll', running],
    ['Drop this move', 'dropMove', running],
    ["Someone's hurt", 'hurt', running],
    ['It ran on without me', 'ranOn', asking],
  ])('"%s" asks for %s', (name, ask, view) => {
    const { live } = renderHall(view);
    fireEvent.click(button(name));
    expect(live.asked).toEqual([ask]);
  });

  it('asks to go back to where the class stopped while that is on offer', () => {
    const { live } = renderHall(running, { facts: { away: { offeredUntilMs: 620_000, byMs: 40_000 } } });
    fireEvent.click(button('Go back to where it stopped'));
    expect(live.asked).toEqual(['goBackToStop']);
    act(() => {
      live.facts.value = { ...live.facts.value, away: null };
    });
    expect(screen.queryByRole('button', { name: 'Go back to where it stopped' })).toBeNull();
  });
});

describe('lower for all', () => {
  it('is there while there is a lower option, and once more to lead back', () => {
    renderHall({ ...running, main: bandRow, lower: null });
    expect(screen.queryByRole('button', { name: 'Lower for all' })).toBeNull();
    cleanup();
    renderHall({ ...running, lower: null, level: 2 });
    expect(button('Lower for all')).toBeTruthy();
  });
});

describe('finish and abandon', () => {
  it.each<[string, HallAsk, typeof running]>([
    ['Finish', 'finish', running],
    ['Finish', 'finish', asking],
    ['Abandon', 'abandon', paused],
    ['Abandon', 'abandon', asking],
  ])('"%s" asks for %s after a second under the finger', (name, ask, view) => {
    const { live, time } = renderHall(view);
    fireEvent.pointerDown(button(name));
    act(() => time.advance(HOLD_MS - 1));
    expect(live.asked).toEqual([]);
    expect(button(name).dataset['held']).toBe('');
    act(() => time.advance(1));
    expect(live.asked).toEqual([ask]);
    expect(button(name).dataset['held']).toBeUndefined();
  });

  it('asks for nothing and says how when the press was short', () => {
    const { live, time } = renderHall(running);
    fireEvent.pointerDown(button('Finish'));
    act(() => time.advance(HOLD_MS / 2));
    fireEvent.pointerUp(button('Finish'));
    act(() => time.advance(10_000));
    expect(live.asked).toEqual([]);
    expect(screen.getByText('Hold for a second')).toBeTruthy();
    expect(button('Finish')).toBeTruthy();
  });

  it.each(['pointerLeave', 'pointerCancel', 'blur'] as const)('is let go by %s', (event) => {
    const { live, time } = renderHall(running);
    fireEvent.pointerDown(button('Finish'));
    fireEvent[event](button('Finish'));
    act(() => time.advance(10_000));
    expect(live.asked).toEqual([]);
  });

  it('is held by its own Enter, whose repeats count for nothing', () => {
    const { live, time } = renderHall(running);
    const finish = button('Finish');
    fireEvent.keyDown(finish, { key: 'Enter' });
    act(() => time.advance(500));
    fireEvent.keyDown(finish, { key: 'Enter', repeat: true });
    act(() => time.advance(500));
    expect(live.asked).toEqual(['finish']);
    fireEvent.keyUp(finish, { key: 'Enter' });
    act(() => time.advance(5000));
    expect(live.asked).toEqual(['finish']);
  });

  it('is held by f from anywhere', () => {
    const { live, time } = renderHall(running);
    key('keyDown', 'f');
    act(() => time.advance(HOLD_MS - 1));
    expect(live.asked).toEqual([]);
    key('keyUp', 'f');
    key('keyDown', 'f');
    act(() => time.advance(HOLD_MS));
    expect(live.asked).toEqual(['finish']);
  });

  it('tells whoever cannot hold a button how it is done', () => {
    const { live } = renderHall(running);
    fireEvent.click(button('Finish'), { detail: 0 });
    expect(live.asked).toEqual([]);
    expect(screen.getByText('Hold for a second')).toBeTruthy();
  });

  it('is let go when the hall goes', () => {
    const { live, time } = renderHall(running);
    fireEvent.pointerDown(button('Finish'));
    act(cleanup);
    time.advance(10_000);
    expect(live.asked).toEqual([]);
  });
});

describe('a remote', () => {
  it.each<[string, HallAsk]>([
    [' ', 'press'],
    ['PageDown', 'press'],
    ['PageUp', 'goBackOne'],
    ['ArrowUp', 'tenMore'],
    ['ArrowDown', 'lowerForAll'],
    ['n', 'nextMove'],
    ['d', 'dropMove'],
    ['h', 'hurt'],
  ])('%s asks for %s', (name, ask) => {
    const { live } = renderHall(running);
    key('keyDown', name);
    expect(live.asked).toEqual([ask]);
  });

  it('starts a class that is ready, and scrolls with all other keys', () => {
    const { live } = renderHall(ready);
    key('keyDown', 'ArrowDown');
    key('keyDown', 'n');
    key('keyDown', ' ');
    expect(live.asked).toEqual(['press']);
  });

  it('goes on from nothing while someone is hurt', () => {
    const { live } = renderHall(hurt);
    key('keyDown', ' ');
    key('keyDown', 'n');
    expect(live.asked).toEqual([]);
  });

  it('is not heard once the hall is gone', () => {
    const { live } = renderHall(running);
    act(cleanup);
    key('keyDown', ' ');
    expect(live.asked).toEqual([]);
  });
});
