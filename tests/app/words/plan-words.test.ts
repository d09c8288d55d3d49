import { describe, expect, it } from 'vitest';
import { kitText } from '../../../app/words/kit-words.ts';
import { blockText, doseText, formatText, lengthText } from '../../../app/words/plan-words.ts';
import type { Format } from '../../../src/plan/plan.ts';
import { aBlock } from '../../builders/small-plan.ts';

describe('words of a plan', () => {
  it('writes lengths in seconds below a minute, then in minutes', () => {
    expect([0, 30, 60, 90, 600, 7.5].map(lengthText)).toEqual([
      '0 s',
      '30 s',
      '1 min',
      '1 min 30 s',
      '10 min',
      '7.5 s',
    ]);
  });

  it('tells a dose by seconds or by count', () => {
    expect(doseText({ kind: 'seconds', seconds: 45 })).toBe('45 s');
    expect(doseText({ kind: 'count', count: 12, secondsEach: 2 })).toBe('12 times, 2 s each');
  });

  it.each([
    [{ kind: 'allTogether' }, 'all together'],
    [{ kind: 'onTheMinute' }, 'on the minute'],
    [{ kind: 'stations' }, 'stations'],
    [{ kind: 'roundsInTheTime', forSeconds: 480 }, 'rounds in the time, 8 min'],
    [{ kind: 'ladder', of: 'work', stepSeconds: 5 }, 'ladder, work 5 s longer each round'],
    [{ kind: 'ladder', of: 'changeover', stepSeconds: -2 }, 'ladder, changeovers 2 s shorter each round'],
  ] as readonly (readonly [Format, string])[])('calls %o by its name', (format, text) => {
    expect(formatText(format)).toBe(text);
  });

  it('speaks of a breather between rounds only where there are rounds', () => {
    const rested = { breatherSeconds: 45, closingRestSeconds: 10 };
    expect(blockText(aBlock([], { ...rested, cueStyle: 'soft' }))).toBe(
      'all together · soft cues · 10 s rest at its end',
    );
    expect(blockText(aBlock([], { ...rested, rounds: 2 }))).toBe(
      '2 rounds · all together · sharp cues · 45 s breather between rounds · 10 s rest at its end',
    );
  });

  it('names kit with how many', () => {
    expect(kitText({ handWeight: 2, band: 1 })).toBe('band, 2 hand weights');
    expect(kitText({})).toBe('');
  });
});
