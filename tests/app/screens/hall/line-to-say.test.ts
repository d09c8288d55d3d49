import { describe, expect, it } from 'vitest';
import { lineSize, lineToSay } from '../../../../app/screens/hall/line-to-say.ts';

describe('the line to say', () => {
  it('is said as it stands', () => {
    expect(lineToSay('Heels stay heavy on the floor.')).toBe('Heels stay heavy on the floor.');
    expect(lineToSay('Half squat: Go down only half as far')).toBe('Half squat: Go down only half as far');
    expect(lineToSay('')).toBe('');
  });

  it('leaves out the reason why an option is easier', () => {
    expect(lineToSay('Half squat: Go down only half as far: less bend in the knees.')).toBe(
      'Half squat: Go down only half as far',
    );
  });

  it('leaves out the name too where the rest is long', () => {
    const line = 'Hinge without weights: Leave the weights on the floor and slide your hands down: less to hold.';
    expect(lineToSay(line)).toBe('Leave the weights on the floor and slide your hands down');
  });

  it('is set at full size up to 60 letters', () => {
    expect(lineSize('x'.repeat(60))).toBe('full');
    expect(lineSize('x'.repeat(61))).toBe('small');
  });
});
