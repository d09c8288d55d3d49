import { act, cleanup, fireEvent, screen } from '@testing-library/preact';
import { afterEach, describe, expect, it } from 'vitest';
import { asking, atTheGate, hurt, liveDouble, over, paused, ready, renderHall, running } from './hall-builders.tsx';

afterEach(cleanup);

const buttonNames = (): readonly string[] =>
  screen.getAllByRole('button').map((button) => button.getAttribute('aria-label') ?? button.textContent ?? '');

const surface = (hall: HTMLElement): Readonly<Record<string, string | null>> => {
  const names = ['hall', 'status', 'kind', 'span', 'moves', 'side', 'left', 'kept'];
  return Object.fromEntries(names.map((name) => [name, hall.getAttribute(`data-${name}`)]));
};

describe('the hall’s surface for tests', () => {
  it('tells status, kind, span, moves, side, seconds left and what is kept', () => {
    const { live, hall } = renderHall({ ...running, moveIds: ['squat', 'row'], side: 'left' });
    act(() => {
      live.keptSeq.value = 12;
    });
    expect(surface(hall())).toMatchObject({
      hall: '',
      status: 'running',
      kind: 'work',
      span: '7',
      moves: 'squat row',
      side: 'left',
      left: '24',
      kept: '12',
    });
  });

  it('follows the class', () => {
    const { live, hall } = renderHall(running);
    act(() => {
      live.view.value = { ...running, leftSeconds: 0, digits: '0', spanId: 8, kind: 'changeover' };
    });
    expect(surface(hall())).toMatchObject({ left: '0', span: '8', kind: 'changeover' });
  });

  it('tells the very first mark as kept', () => {
    const { live, hall } = renderHall(running);
    act(() => {
      live.keptSeq.value = 0;
    });
    expect(surface(hall())['kept']).toBe('0');
  });

  it('is empty where there is nothing to tell', () => {
    const { hall } = renderHall(ready);
    expect(surface(hall())).toMatchObject({
      status: 'ready',
      kind: '',
      span: '',
      moves: '',
      side: '',
      left: '',
      kept: '',
    });
  });

  it('has one timer with the digits as they are shown', () => {
    renderHall({ ...running, digits: '1:30' });
    expect(screen.getByRole('timer').textContent).toBe('1:30');
  });
});

describe('the buttons of each status', () => {
  it.each([
    [
      'running',
      running,
      [
        'Pause',
        'Next move',
        'Go back one',
        'Ten seconds more',
        'Drop this move',
        "Someone's hurt",
        'Lower for all',
        'Finish',
      ],
    ],
    [
      'paused',
      paused,
      [
        'Carry on',
        'Next move',
        'Go back one',
        'Ten seconds more',
        'Drop this move',
        "Someone's hurt",
        'Lower for all',
        'Finish',
        'Abandon',
      ],
    ],
    [
      'waiting',
      atTheGate,
      ['Carry on', 'Next move', 'Go back one', 'Pause', 'Drop this move', "Someone's hurt", 'Finish'],
    ],
    ['asking', asking, ['Carry on', 'It ran on without me', 'Finish', 'Abandon']],
    ['hurt', hurt, ['Carry on']],
    ['ready', ready, ['Start class', 'Sound check', 'Rehearse']],
  ])('%s', (_status, view, names) => {
    renderHall(view);
    expect(buttonNames()).toEqual(names);
  });

  it('leads to the start page and the review once the class is over', () => {
    renderHall(over);
    expect(screen.queryAllByRole('button')).toEqual([]);
    const links = screen.getAllByRole('link').map((link) => link.getAttribute('href'));
    expect(links).toEqual(['#/', '#/review/rec1']);
    expect(screen.getByText('Class over')).toBeTruthy();
    expect(screen.getByText('minutes really passed, 2:20 more than planned; the plan had 28 minutes')).toBeTruthy();
  });

  it('leads from the end of a rehearsal back to the class itself', () => {
    let wasAsked = 0;
    renderHall(over, { live: { ...liveDouble(over), isRehearsal: true }, onReadyAgain: () => (wasAsked += 1) });
    expect(screen.getByText('Rehearsal over')).toBeTruthy();
    fireEvent.click(screen.getByRole('button', { name: 'Ready for the class' }));
    expect(wasAsked).toBe(1);
  });

  it('counts one minute as one, and says where it went as planned', () => {
    renderHall({ ...over, status: 'abandoned', finishAtMs: 61_000, lateMs: -1_619_000 });
    expect(screen.getByText('minute really passed, 26:59 less than planned; the plan had 28 minutes')).toBeTruthy();
    cleanup();
    renderHall({ ...over, finishAtMs: 1_685_000, lateMs: 5000 });
    expect(screen.getByText('minutes really passed, as planned; the plan had 28 minutes')).toBeTruthy();
  });

  it('has no review to lead to where nothing was kept', () => {
    renderHall({ ...over, status: 'abandoned' }, { recordId: null });
    expect(screen.getAllByRole('link').map((link) => link.getAttribute('href'))).toEqual(['#/']);
    expect(screen.getByText('Class abandoned')).toBeTruthy();
  });

  it('stands back where another window runs the class', () => {
    let ranHere = 0;
    renderHall(running, { facts: { keeping: 'fenced' }, onRunHere: () => (ranHere += 1) });
    expect(buttonNames()).toEqual(['Run it here']);
    screen.getByRole('button', { name: 'Run it here' }).click();
    expect(ranHere).toBe(1);
    expect(screen.queryByRole('timer')).toBeNull();
  });
});

describe('the field', () => {
  it('is dark for what the view says, and a frame where the field is to be steady', () => {
    const dark = { ...running, kind: 'changeover', field: 'dark' } as const;
    const first = renderHall(dark);
    expect(first.hall().className).toBe('hall field-dark');
    expect(first.hall().dataset['field']).toBe('dark');
    cleanup();
    const steady = renderHall(dark, { choices: { steadyField: true, softLight: true } });
    expect(steady.hall().className).toBe('hall field-light field-soft steady');
    expect(steady.hall().dataset['field']).toBe('dark');
  });

  it('changes no more than once a second', () => {
    const { live, time, hall } = renderHall(running);
    const show = (field: 'light' | 'dark') =>
      act(() => {
        live.view.value = { ...live.view.value, field };
      });
    show('dark');
    expect(hall().dataset['field']).toBe('dark');
    act(() => time.advance(400));
    show('light');
    expect(hall().dataset['field']).toBe('dark');
    act(() => time.advance(600));
    expect(hall().dataset['field']).toBe('light');
  });
});

describe('a screen reader', () => {
  it('hears the condition of the class', () => {
    const { live } = renderHall(running);
    expect(screen.getByText('The class runs')).toBeTruthy();
    act(() => {
      live.view.value = asking;
    });
    expect(screen.getByText('The class stands and asks you something')).toBeTruthy();
  });
});
