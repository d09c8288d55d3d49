import { describe, expect, it } from 'vitest';
import { happeningText } from '../../../app/words/record-words.ts';
import type { Happening } from '../../../src/class-run/marks.ts';

const nameOf = (entryId: string): string => `the ${entryId}`;
const changed = (why: Extract<Happening, { kind: 'changed' }>['why'], entryId: string | null = null): Happening => ({
  kind: 'changed',
  why,
  entryId,
  edits: [],
});

const TEXTS: readonly (readonly [Happening, string | null])[] = [
  [{ kind: 'started' }, 'Started'],
  [{ kind: 'paused', cause: 'asked' }, 'Paused'],
  [{ kind: 'paused', cause: 'hurt' }, 'Stopped: someone hurt'],
  [{ kind: 'carriedOn' }, 'Carried on'],
  [changed('skip'), 'Went to the next move'],
  [changed('back'), 'Went back one'],
  [changed('give'), 'Gave more time'],
  [changed('drop', 'squat'), 'Dropped: the squat'],
  [changed('trim'), 'Shortened what was left'],
  [changed('finishEarly'), 'Finished early'],
  [changed('wentOn'), 'Went on from the wait point'],
  [{ kind: 'showed', entryId: 'squat', level: 1 }, 'Lower option for all: the squat'],
  [{ kind: 'showed', entryId: 'squat', level: -1 }, 'Higher option for all: the squat'],
  [{ kind: 'showed', entryId: 'squat', level: 0 }, 'Back to the move as planned: the squat'],
  [{ kind: 'away', byMs: 42_000 }, 'Ran on for 0:42 while the phone slept'],
  [{ kind: 'asked', gapMs: 900_000 }, 'Stood still: the phone had been away and could not tell how long'],
  [{ kind: 'ranOn' }, 'The class had gone on without the phone'],
  [{ kind: 'stood', byMs: 65_000 }, 'Went back to where it stopped, 1:05 before'],
  [{ kind: 'wallMoved', byMs: -3_600_000 }, "The phone's clock was moved by −1:00:00; the class took no notice"],
  [{ kind: 'finished' }, 'Finished'],
  [{ kind: 'abandoned' }, 'Left'],
];

describe('what happened in words', () => {
  it.each(TEXTS)('tells %o', (happening, text) => {
    expect(happeningText(happening, nameOf)).toBe(text);
  });

  it('says nothing of a count-in: it only follows from carrying on', () => {
    expect(happeningText(changed('countIn'), nameOf)).toBeNull();
  });
});
