import { describe, expect, it } from 'vitest';
import { askOfKey, type KeyAsk, type KeyPress, listenForKeys } from '../../../../app/screens/hall/remote-keys.ts';
import type { Status } from '../../../../src/class-run/class-state.ts';

const press = (key: string, more: Partial<KeyPress> = {}): KeyPress => ({
  key,
  repeat: false,
  ctrlKey: false,
  altKey: false,
  metaKey: false,
  target: document.body,
  ...more,
});
const running = { status: 'running', isHurt: false } as const;

describe('remote keys', () => {
  it.each<[string, KeyAsk]>([
    [' ', 'press'],
    ['Enter', 'press'],
    ['PageDown', 'press'],
    ['ArrowRight', 'press'],
    ['MediaPlayPause', 'press'],
    ['PageUp', 'goBackOne'],
    ['ArrowLeft', 'goBackOne'],
    ['ArrowUp', 'tenMore'],
    ['+', 'tenMore'],
    ['ArrowDown', 'lowerForAll'],
    ['n', 'nextMove'],
    ['N', 'nextMove'],
    ['d', 'dropMove'],
    ['h', 'hurt'],
    ['f', 'holdFinish'],
  ])('%s asks for %s', (key, ask) => {
    expect(askOfKey(press(key), running)).toBe(ask);
  });

  it.each(['Tab', 'Escape', 'x', 'F5', 'Backspace'])('leaves %s to the browser', (key) => {
    expect(askOfKey(press(key), running)).toBeNull();
  });

  it('counts a key that repeats once, and none that comes with a modifier', () => {
    expect(askOfKey(press(' ', { repeat: true }), running)).toBeNull();
    expect(askOfKey(press('n', { ctrlKey: true }), running)).toBeNull();
    expect(askOfKey(press('h', { metaKey: true }), running)).toBeNull();
    expect(askOfKey(press('ArrowLeft', { altKey: true }), running)).toBeNull();
  });

  it('lets a button in focus have its own Enter and Space, and nothing else', () => {
    const target = document.createElement('button');
    expect(askOfKey(press(' ', { target }), running)).toBeNull();
    expect(askOfKey(press('Enter', { target }), running)).toBeNull();
    expect(askOfKey(press('PageDown', { target }), running)).toBe('press');
    expect(askOfKey(press('n', { target }), running)).toBe('nextMove');
  });

  it('takes no key from whoever types', () => {
    const target = document.createElement('input');
    for (const key of [' ', 'n', 'h', 'ArrowLeft', 'PageDown'])
      expect(askOfKey(press(key, { target }), running)).toBeNull();
  });

  it.each<[Status, KeyAsk | null, KeyAsk | null]>([
    ['ready', 'press', null],
    ['running', 'press', 'nextMove'],
    ['paused', 'press', 'nextMove'],
    ['waiting', 'press', 'nextMove'],
    ['asking', 'press', 'nextMove'],
    ['finished', null, null],
    ['abandoned', null, null],
  ])('while %s a clicker asks for %s and n for %s', (status, clicked, next) => {
    expect(askOfKey(press('PageDown'), { status, isHurt: false })).toBe(clicked);
    expect(askOfKey(press('n'), { status, isHurt: false })).toBe(next);
  });

  it('goes on from nothing while someone is hurt: that takes the button', () => {
    for (const key of [' ', 'PageDown', 'n', 'f'])
      expect(askOfKey(press(key), { status: 'paused', isHurt: true })).toBeNull();
  });
});

describe('the page', () => {
  const listening = () => {
    const heard: string[] = [];
    const stop = listenForKeys(document, () => running, {
      ask: (what) => heard.push(what),
      holdFinish: { press: () => heard.push('held'), release: () => heard.push('let go') },
    });
    return { heard, stop };
  };
  const send = (type: 'keydown' | 'keyup', key: string, on: Element = document.body): KeyboardEvent => {
    const event = new KeyboardEvent(type, { key, bubbles: true, cancelable: true });
    on.dispatchEvent(event);
    return event;
  };

  it('passes keys on, and keeps the browser from scrolling by them', () => {
    const { heard, stop } = listening();
    expect(send('keydown', 'PageDown').defaultPrevented).toBe(true);
    expect(send('keydown', 'Tab').defaultPrevented).toBe(false);
    stop();
    expect(heard).toEqual(['press']);
  });

  it('holds finish for as long as f is down', () => {
    const { heard, stop } = listening();
    send('keydown', 'f');
    send('keyup', 'f');
    stop();
    expect(heard).toEqual(['held', 'let go']);
  });

  it('hears nothing once stopped', () => {
    const { heard, stop } = listening();
    stop();
    send('keydown', ' ');
    send('keyup', 'f');
    expect(heard).toEqual([]);
  });

  it('takes the focus back from a button pressed by pointer, so that the clicker’s Space is a press', () => {
    const { heard, stop } = listening();
    const button = document.body.appendChild(document.createElement('button'));
    button.focus();
    button.dispatchEvent(new MouseEvent('click', { bubbles: true, detail: 1 }));
    expect(document.activeElement).not.toBe(button);
    send('keydown', ' ');
    stop();
    button.remove();
    expect(heard).toEqual(['press']);
  });

  it('leaves the focus on a button pressed by key', () => {
    const { stop } = listening();
    const button = document.body.appendChild(document.createElement('button'));
    button.focus();
    button.dispatchEvent(new MouseEvent('click', { bubbles: true, detail: 0 }));
    expect(document.activeElement).toBe(button);
    stop();
    button.remove();
  });
});
