import { describe, expect, it } from 'vitest';
import { holdFor } from '../../../../app/screens/hall/hold.ts';
import { fakeClocks } from '../../../fakes/fake-clocks.ts';

function holding() {
  const time = fakeClocks();
  const heard: string[] = [];
  const hold = holdFor(time.timers, {
    done: () => heard.push('done'),
    short: () => heard.push('short'),
    change: (isHeld) => heard.push(isHeld ? 'held' : 'let go'),
  });
  return { time, heard, hold };
}

describe('holding a button', () => {
  it('is done after a second, once', () => {
    const { time, heard, hold } = holding();
    hold.press();
    time.advance(999);
    expect(heard).toEqual(['held']);
    time.advance(1);
    expect(heard).toEqual(['held', 'let go', 'done']);
    hold.release();
    time.advance(5000);
    expect(heard).toEqual(['held', 'let go', 'done']);
  });

  it('does nothing but say so when let go a moment too soon', () => {
    const { time, heard, hold } = holding();
    hold.press();
    time.advance(999);
    hold.release();
    time.advance(5000);
    expect(heard).toEqual(['held', 'let go', 'short']);
  });

  it('is not begun anew by a second finger', () => {
    const { time, heard, hold } = holding();
    hold.press();
    time.advance(600);
    hold.press();
    time.advance(400);
    expect(hold.isHeld()).toBe(false);
    time.advance(5000);
    expect(heard).toEqual(['held', 'let go', 'done']);
  });

  it('says nothing when what was not held is let go', () => {
    const { heard, hold } = holding();
    hold.release();
    expect(heard).toEqual([]);
  });
});
