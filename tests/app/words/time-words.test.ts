import { describe, expect, it } from 'vitest';
import {
  clockText,
  dayText,
  minutesOf,
  minutesText,
  timeOfDayHereText,
  timeOfDayText,
} from '../../../app/words/time-words.ts';

const MINUTE = 60_000;
/** Ten past eleven in the evening of 31 December, UTC. */
const NEW_YEARS_EVE = Date.UTC(2026, 11, 31, 23, 10);

describe('lengths in words', () => {
  it('rounds minutes, but never to none for what was there', () => {
    expect([0, 1, 29_999, 90_000, 28 * MINUTE + 29_999].map(minutesOf)).toEqual([0, 1, 1, 2, 28]);
  });

  it('counts one minute as one', () => {
    expect(minutesText(MINUTE)).toBe('1 minute');
    expect(minutesText(2 * MINUTE)).toBe('2 minutes');
  });

  it('writes minutes and seconds, and hours only where there are some', () => {
    expect(clockText(0)).toBe('0:00');
    expect(clockText(245_999)).toBe('4:05');
    expect(clockText(62 * MINUTE + 3000)).toBe('1:02:03');
  });

  it('writes less than nothing with a minus, and never a minus nothing', () => {
    expect(clockText(-61_000)).toBe('−1:01');
    expect(clockText(-400)).toBe('0:00');
  });
});

describe('days and times', () => {
  it('are those of the zone the class was in', () => {
    expect(dayText(NEW_YEARS_EVE, 'UTC')).toBe('Thursday 31 December 2026');
    expect(dayText(NEW_YEARS_EVE, 'Europe/Berlin')).toBe('Friday 1 January 2027');
    expect(timeOfDayText(NEW_YEARS_EVE, 'Europe/Berlin')).toBe('00:10');
  });

  it('differ across the day the clocks change', () => {
    expect(timeOfDayText(Date.UTC(2026, 2, 28, 18), 'Europe/Berlin')).toBe('19:00');
    expect(timeOfDayText(Date.UTC(2026, 2, 29, 18), 'Europe/Berlin')).toBe('20:00');
  });

  it('are told in UTC, and said so, for a zone that the phone does not know', () => {
    expect(timeOfDayText(NEW_YEARS_EVE, 'Moon/Tycho')).toBe('23:10 UTC');
  });

  it('of this phone is that of its zone', () => {
    const { timeZone } = Intl.DateTimeFormat().resolvedOptions();
    for (let at = NEW_YEARS_EVE; at < NEW_YEARS_EVE + 300 * 86_400_000; at += 7_919 * 60_000) {
      expect(timeOfDayHereText(at)).toBe(timeOfDayText(at, timeZone));
    }
    expect(timeOfDayHereText(Number.NaN)).toBe('at an unknown time');
  });

  it('are unknown beyond all calendars', () => {
    expect(dayText(Number.MAX_SAFE_INTEGER, 'Europe/Berlin')).toBe('at an unknown time');
    expect(dayText(Number.NaN, 'UTC')).toBe('at an unknown time');
  });
});
