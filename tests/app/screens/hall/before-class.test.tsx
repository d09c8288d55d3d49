import { act, cleanup, fireEvent, screen } from '@testing-library/preact';
import { afterEach, describe, expect, it } from 'vitest';
import type { HallChoices } from '../../../../app/screens/hall/hall-choices.ts';
import type { HallCard } from '../../../../src/records/stored-shapes.ts';
import { hurt, liveDouble, ready, renderHall } from './hall-builders.tsx';

afterEach(cleanup);

const card: HallCard = {
  v: 1,
  address: '4 Mill Lane, side door',
  defibrillator: 'By the entrance',
  emergencyNumber: '112',
};

describe('before a class', () => {
  it('stands the button that starts it before everything else', () => {
    renderHall(ready);
    const start = screen.getByRole('button', { name: 'Start class' });
    const others = [...document.querySelectorAll('button, input, a, h1, h2')].filter((one) => one !== start);
    for (const other of others)
      expect(start.compareDocumentPosition(other) & Node.DOCUMENT_POSITION_FOLLOWING).toBeTruthy();
  });

  it('says how long the class is and when it would end', () => {
    renderHall(ready);
    expect(screen.getByRole('heading', { level: 1 }).textContent).toBe('Thursday class');
    expect(screen.getByText('28 minutes, ends at 18:28 if you start now.')).toBeTruthy();
  });

  it('checks the sound and speaks of the silent switch', () => {
    const { live } = renderHall(ready);
    fireEvent.click(screen.getByRole('button', { name: 'Sound check' }));
    expect(live.soundChecks()).toBe(1);
    expect(screen.getByText(/silent switch/)).toBeTruthy();
  });

  it('rehearses on asking, but not within a rehearsal', () => {
    let rehearsals = 0;
    renderHall(ready, { onRehearse: () => (rehearsals += 1) });
    fireEvent.click(screen.getByRole('button', { name: 'Rehearse' }));
    expect(rehearsals).toBe(1);
    cleanup();
    renderHall(ready, { live: { ...liveDouble(ready), isRehearsal: true } });
    expect(screen.queryByRole('button', { name: 'Rehearse' })).toBeNull();
    expect(screen.getByText(/^Rehearsal\./)).toBeTruthy();
  });

  it('lists the kit with how many there are', () => {
    renderHall(ready);
    expect(screen.getByText('mat')).toBeTruthy();
    expect(screen.getByText('2 hand weights')).toBeTruthy();
  });

  it('says what is missing, but not that the sound waits for the first touch', () => {
    const { live } = renderHall(ready, { facts: { sound: 'needsTap', wake: 'absent', keeping: 'off' } });
    expect(screen.getByText(/^This phone may let its screen go dark/)).toBeTruthy();
    expect(screen.getByText(/^This class is not being kept/)).toBeTruthy();
    expect(screen.queryByText(/waits for a touch/)).toBeNull();
    act(() => {
      live.facts.value = { ...live.facts.value, sound: 'absent' };
    });
    expect(screen.getByText(/^No sound on this phone/)).toBeTruthy();
  });

  it('says how far each line reads, and that it is an estimate', () => {
    renderHall(ready);
    const reading = screen.getByRole('region', { name: 'How far it reads' }).textContent ?? '';
    for (const what of ['The seconds', 'Names of moves', 'The line to say']) expect(reading).toContain(what);
    expect(reading).toMatch(/estimate.*0\.165 mm/);
  });

  it('has the usual cautions and defers to local rules and the instructor’s practice', () => {
    renderHall(ready);
    const text = screen.getByRole('region', { name: 'Take care' }).textContent ?? '';
    expect(text).toMatch(/rules of your place and your own licensed practice come first/);
    expect(text).toMatch(/not a medical device/);
    // Screening by three questions, stop signs, space, shoes, heat: facts and sources in caution-words.ts.
    for (const word of [
      'how active they are now',
      'known disease',
      'how hard',
      'chest',
      'wheeze',
      'Dizzy',
      'asks to stop',
    ])
      expect(text).toContain(word);
    for (const word of ['4.2 m²', '2 × 2 m', 'Shoes', '27.8 °C', '32.2 °C', 'own pace']) expect(text).toContain(word);
  });

  it('takes how the hall is to look', () => {
    const chosen: HallChoices[] = [];
    renderHall(ready, { onChoices: (choices) => chosen.push(choices) });
    fireEvent.click(screen.getByRole('checkbox', { name: /^Steady field/ }));
    fireEvent.click(screen.getByRole('checkbox', { name: /^Softer light/ }));
    expect(chosen).toEqual([
      { steadyField: true, softLight: false },
      { steadyField: false, softLight: true },
    ]);
  });

  it('takes this hall’s address, defibrillator and number', () => {
    const kept: HallCard[] = [];
    renderHall(ready, { onCard: (one) => kept.push(one) });
    const fill = (name: RegExp, value: string) => {
      const input = screen.getByRole('textbox', { name });
      fireEvent.input(input, { target: { value } });
      fireEvent.change(input);
    };
    fill(/Address/, card.address);
    fill(/defibrillator/, card.defibrillator);
    fill(/number/, card.emergencyNumber);
    expect(kept.at(-1)).toEqual(card);
  });

  it('takes no key of the clicker from whoever fills that in', () => {
    const { live } = renderHall(ready);
    fireEvent.keyDown(screen.getByRole('textbox', { name: /Address/ }), { key: ' ' });
    expect(live.asked).toEqual([]);
  });
});

describe('someone’s hurt', () => {
  const told = (): string => document.querySelector('.hurt')?.textContent ?? '';

  it('shows address, defibrillator, number and the time, and how long it has been', () => {
    renderHall(hurt, { card });
    for (const text of ['4 Mill Lane, side door', 'By the entrance', '112', '18:00']) expect(told()).toContain(text);
    expect(screen.getByRole('link', { name: '112' }).getAttribute('href')).toBe('tel:112');
    expect(told()).toContain('2:02 since the class was stopped');
    expect(screen.queryByRole('timer')).toBeNull();
  });

  it('says what is not filled in and to call the local emergency number', () => {
    renderHall(hurt);
    expect(told()).toContain('Not filled in: call the local emergency number');
    expect(told()).toContain('Not filled in: ask who knows the address');
    expect(told()).toContain('Not filled in: send someone to ask for one');
  });

  it('counts on while it lasts', () => {
    const { live } = renderHall(hurt, { card });
    act(() => {
      live.view.value = { ...hurt, atMs: hurt.atMs + 1000 };
    });
    expect(told()).toContain('2:03 since');
  });
});

describe('asking', () => {
  it.each([
    [14 * 60_000, 'The phone was away for 14 minutes. Did the class go on?'],
    [-5000, 'The phone’s clock went back. Did the class go on?'],
    [null, 'The phone was away. Did the class go on?'],
  ])('says what happened: %s ms', (gapMs, question) => {
    renderHall({ ...hurt, status: 'asking', standing: { sinceMs: 0, cause: 'gap' } }, { facts: { gapMs } });
    expect(screen.getByRole('heading', { level: 1 }).textContent).toBe(question);
  });
});
