import { act, cleanup, screen } from '@testing-library/preact';
import { afterEach, describe, expect, it } from 'vitest';
import type { FigureView } from '../../../../src/class-run/hall-values.ts';
import type { HallView } from '../../../../src/class-run/hall-view.ts';
import { atTheGate, bandRow, halfSquat, paused, pressUp, renderHall, running, squat } from './hall-builders.tsx';

afterEach(cleanup);

const next = (figure: FigureView, turn: 'up' | 'down' | 'stay' = 'stay', straightIn = false): Partial<HallView> => ({
  digits: '7',
  leftSeconds: 7,
  next: { figure, turn, straightIn },
});
const show = (change: Partial<HallView>) => renderHall({ ...running, ...change });
const one = (selector: string): HTMLElement | null => document.querySelector(selector);
const figureIn = (selector: string): string | undefined => one(`${selector} [data-figure]`)?.dataset['figure'];
const pads = (): string =>
  [...document.querySelectorAll('.pad')].map((pad) => (pad.classList.contains('filled') ? '#' : 'o')).join('');

describe('the scene', () => {
  it('has the main figure, its lower option down the ramp, and both names', () => {
    show({});
    expect(figureIn('.main-figure')).toBe('squat');
    expect(figureIn('.lower-figure')).toBe('halfSquat');
    expect(one('.ramp')).not.toBeNull();
    expect(screen.getByRole('heading', { name: /^squat/i })).toBeTruthy();
    expect(one('.lower-name')?.textContent).toBe('Lower option: half squat');
  });

  it('has no ramp where nothing is lower', () => {
    show({ lower: null });
    expect(one('.ramp')).toBeNull();
    expect(one('.lower-figure')).toBeNull();
  });

  it('draws a new figure only when there is one', () => {
    const { live } = show({});
    const drawn = one('.main-figure svg');
    act(() => {
      live.view.value = { ...live.view.value, main: { ...squat }, digits: '23', leftSeconds: 23 };
    });
    expect(one('.main-figure svg')).toBe(drawn);
    expect(screen.getByRole('timer').textContent).toBe('23');
  });
});

describe('the next move', () => {
  it('walks in when the tens are gone, with its kit and its name', () => {
    show(next(bandRow));
    expect(figureIn('.next-figure')).toBe('bandRow');
    expect([...document.querySelectorAll('.kit [data-kit]')].map((kit) => kit.getAttribute('data-kit'))).toEqual([
      'band',
      'handWeight',
    ]);
    expect(screen.getByText('2 hand weights')).toBeTruthy();
    expect(one('.next-name')?.textContent).toBe('Next: Band row');
  });

  it('waits outside while there are two digits', () => {
    show({ ...next(bandRow), digits: '10' });
    expect(one('.next-figure')).toBeNull();
    expect(one('.kit')).toBeNull();
  });

  it('stands on a joined floor when it follows straight on, else beyond a gap', () => {
    show(next(bandRow, 'stay', true));
    expect(one('.scene')?.dataset['next']).toBe('joined');
    cleanup();
    show(next(bandRow));
    expect(one('.scene')?.dataset['next']).toBe('apart');
  });

  it('says up, down or stay', () => {
    show({ ...next(bandRow, 'up'), main: pressUp });
    expect(one('.turn-arrow')?.dataset['turn']).toBe('up');
    // Its shaft begins at the floor of its 120 px box, so its head is at the top.
    expect(one('.turn-arrow path')?.getAttribute('d')).toMatch(/^M18 120/);
    expect(one('.next-name')?.textContent).toContain('everyone up');
    cleanup();
    show(next(pressUp, 'down'));
    expect(one('.turn-arrow')?.dataset['turn']).toBe('down');
    expect(one('.turn-arrow path')?.getAttribute('d')).toMatch(/^M18 0/);
    expect(one('.next-figure')?.dataset['lies']).toBe('');
    cleanup();
    show({ ...next({ ...pressUp, figure: 'bridge' }), main: pressUp });
    expect(one('.turn-arrow')).toBeNull();
    expect(one('.lid')).not.toBeNull();
    expect(one('.next-name')?.textContent).toContain('stay down');
    cleanup();
    show(next(bandRow));
    expect(one('.lid')).toBeNull();
  });
});

describe('sides', () => {
  const sided = (side: FigureView['side'], half: FigureView['half']): Partial<HallView> => ({
    main: { ...squat, side, half },
    lower: { ...halfSquat, side, half },
  });

  it.each([
    ['left', 'first', '#o', 'first side'],
    ['right', 'second', 'o#', 'other side'],
    ['alternating', null, '##', 'alternate'],
    ['both', null, '', null],
    ['forward', 'first', '', null],
    ['reverse', 'second', '', 'reverse'],
  ] as const)('%s', (side, half, marks, words) => {
    show(sided(side, half));
    expect(pads()).toBe(marks);
    expect(one('.side-name')?.textContent ?? null).toBe(words);
    expect(one('.turn-back') !== null).toBe(side === 'reverse');
    expect(one('.pads')?.classList.contains('joined') ?? false).toBe(side === 'alternating');
  });

  it('mirrors the whole figure for the other side, as a class sees its instructor', () => {
    show(sided('right', 'second'));
    expect(one('.main-figure g')?.getAttribute('transform')).toMatch(/^matrix\(-1 /);
    cleanup();
    show(sided('left', 'first'));
    expect(one('.main-figure g')?.getAttribute('transform')).toBeNull();
  });
});

describe('rounds', () => {
  const squares = () =>
    [...document.querySelectorAll('.square')]
      .map((square) => (square.classList.contains('filled') ? '#' : 'o'))
      .join('');

  it('are squares, filled up to this one', () => {
    show({});
    expect(squares()).toBe('##o');
    expect(screen.getByText('Round 2 of 3')).toBeTruthy();
    expect(one('.scene')?.dataset['lastRound']).toBeUndefined();
  });

  it('leave one square and a doubled line in the last', () => {
    show({ round: 3 });
    expect(squares()).toBe('#');
    expect(one('.scene')?.dataset['lastRound']).toBe('');
  });

  it('are written where they are too many to count, and not at all where there is one', () => {
    show({ round: 4, rounds: 12 });
    expect(squares()).toBe('');
    expect(one('.rounds')?.textContent).toContain('4 / 12');
    cleanup();
    show({ round: 1, rounds: 1 });
    expect(one('.rounds')).toBeNull();
    expect(one('.scene')?.dataset['lastRound']).toBeUndefined();
  });
});

describe('standing still', () => {
  it('is hollow, with two posts on the line', () => {
    renderHall(paused);
    expect(screen.getByRole('timer').classList.contains('hollow')).toBe(true);
    expect(one('.floor-left')?.classList.contains('hollow')).toBe(true);
    expect(Number.parseFloat(one('.floor-left')?.style.width ?? '')).toBeCloseTo(58.67, 1);
    expect(document.querySelectorAll('.pause-posts span')).toHaveLength(2);
  });

  it('leaves nothing of its motion on the floor that stands', () => {
    const { live } = renderHall(running);
    act(() => {
      live.view.value = paused;
    });
    expect(one('.floor-left')?.style.transform).toBe('');
    expect(one('.floor-left')?.classList.contains('hollow')).toBe(true);
    act(() => {
      live.view.value = running;
    });
    expect(one('.floor-left')?.style.width).toBe('');
  });

  it('ends the floor at a gate without digits where the class waits for its instructor', () => {
    renderHall(atTheGate);
    expect(one('.gate')).not.toBeNull();
    expect(one('.floor-left')).toBeNull();
    expect(screen.getByRole('timer').textContent).toBe('');
    expect(one('.scene-words')?.textContent).toBe('Hook the bands');
    expect(screen.getByText('Hook the bands: carry on when all are set')).toBeTruthy();
  });

  it('keeps hollow digits and a floor that runs where it goes on by itself', () => {
    renderHall({
      ...atTheGate,
      gate: false,
      hollow: true,
      digits: '17',
      floor: { leftMs: 16_500, wholeMs: 20_000, runs: true },
    });
    expect(one('.gate')).toBeNull();
    expect(screen.getByRole('timer').classList.contains('hollow')).toBe(true);
    expect(one('.floor-left')?.classList.contains('hollow')).toBe(false);
    expect(screen.getByText('Hook the bands: goes on by itself')).toBeTruthy();
  });
});

describe('words on the wall', () => {
  it('say what a talk is about, and water where nothing else is said', () => {
    show({ kind: 'talk', main: null, lower: null, words: { kind: 'talk', text: 'How to hold the band' } });
    expect(one('.scene-words')?.textContent).toBe('How to hold the band');
    cleanup();
    show({ kind: 'water', main: null, lower: null, words: { kind: 'water', text: '' } });
    expect(one('.scene-words')?.textContent).toBe('Water');
  });

  it('offer the own pace in the first count-in', () => {
    show({ kind: 'countIn', spanId: 0, field: 'dark' });
    expect(screen.getByText('Your own pace is right')).toBeTruthy();
    cleanup();
    show({ kind: 'countIn', spanId: 77, round: 1, field: 'dark' });
    expect(screen.queryByText('Your own pace is right')).toBeNull();
  });

  it('tell the milestone and what some do instead', () => {
    show({ milestone: 'threeToGo', forSome: 'new people: march' });
    expect(screen.getByText('Three to go')).toBeTruthy();
    expect(screen.getByText('new people: march')).toBeTruthy();
  });
});

describe('the instructor’s strip', () => {
  it('has the line to say, the time, the finish and how late it is', () => {
    show({ lateMs: 95_000 });
    expect(screen.getByText('Knees point the same way as your toes.')).toBeTruthy();
    // 18:00 by the fake clock, and 18 minutes of class to go.
    expect(screen.getByText('18:00, ends 18:18')).toBeTruthy();
    expect(screen.getByText('Running 1:35 late')).toBeTruthy();
  });

  it('is quiet about ten seconds either way', () => {
    show({ lateMs: -9400 });
    expect(screen.queryByText(/early/)).toBeNull();
  });

  it('says what is missing, and why an ask did nothing', () => {
    const { live } = renderHall(running, {
      facts: { sound: 'absent', wake: 'refused', voice: 'absent', keeping: 'off' },
    });
    const notices = one('.notices');
    for (const text of ['No sound', 'Not being kept', 'Screen may go dark', 'No voice'])
      expect(notices?.textContent).toContain(text);
    act(() => {
      live.refused.value = 'begun';
    });
    expect(notices?.textContent).toContain('Too late: the count has begun');
  });

  it('has nothing to say where all is well', () => {
    show({});
    expect(one('.notices')?.textContent).toBe('');
  });
});
