import { signal } from '@preact/signals';
import { describe, expect, it } from 'vitest';
import { followField } from '../../../../app/screens/hall/field-latch.ts';
import { fakeClocks } from '../../../fakes/fake-clocks.ts';
import { running } from './hall-builders.tsx';

function following() {
  const view = signal(running);
  const time = fakeClocks();
  const followed = followField(view, time.clocks, time.timers);
  const want = (field: 'light' | 'dark') => {
    view.value = { ...view.value, field };
  };
  return { followed, time, want };
}

describe('the field of the hall', () => {
  it('turns dark at once, and light again no sooner than a second later', () => {
    const { followed, time, want } = following();
    want('dark');
    expect(followed.field.value).toBe('dark');
    time.advance(300);
    want('light');
    expect(followed.field.value).toBe('dark');
    time.advance(699);
    expect(followed.field.value).toBe('dark');
    time.advance(1);
    expect(followed.field.value).toBe('light');
  });

  it('keeps to the last word when it changes its mind while waiting', () => {
    const { followed, time, want } = following();
    want('dark');
    time.advance(100);
    want('light');
    time.advance(100);
    want('dark');
    time.advance(5000);
    expect(followed.field.value).toBe('dark');
  });

  it('waits for nothing once stopped', () => {
    const { followed, time, want } = following();
    want('dark');
    want('light');
    followed.stop();
    expect(time.waiting()).toBe(0);
    time.advance(5000);
    expect(followed.field.value).toBe('dark');
  });
});
