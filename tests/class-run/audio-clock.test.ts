import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type AudioClock,
  addReading,
  audioTimeFor,
  isSettled,
  restarted,
  unknownAudioClock,
  wantsReadings,
} from '../../src/class-run/audio-clock.ts';

/** A sound card: its true position at a page instant, shown in steps. */
type Card = { readonly seconds: (monoMs: number) => number; readonly stepSeconds: number };

/** Between two readings close together. */
const DENSE_MS = 13;
const STEP_42 = 2048 / 48_000;

const card = (skewPpm = 0, stepSeconds = STEP_42, startsMonoMs = 1000): Card => ({
  seconds: (monoMs) => Math.max(0, ((monoMs - startsMonoMs) / 1000) * (1 + skewPpm * 1e-6)),
  stepSeconds,
});

/** The same card, standing for `lengthMs` from `fromMonoMs` on. */
const standing = (of: Card, fromMonoMs: number, lengthMs: number): Card => ({
  ...of,
  seconds: (monoMs) => of.seconds(Math.min(monoMs, Math.max(fromMonoMs, monoMs - lengthMs))),
});

const read = ({ seconds, stepSeconds }: Card, monoMs: number) => ({
  audioSeconds: Math.floor(seconds(monoMs) / stepSeconds) * stepSeconds,
  monoMs,
});

const watch = (of: Card, instants: readonly number[], from: AudioClock = unknownAudioClock): AudioClock =>
  instants.reduce((clock, monoMs) => addReading(clock, read(of, monoMs)), from);

/** Instants a few times a second, never quite evenly, as timers come. */
const beats = (fromMonoMs: number, toMonoMs: number, everyMs = 125): readonly number[] => {
  const out: number[] = [];
  for (let at = 0; fromMonoMs + at * everyMs <= toMonoMs; at += 1) {
    out.push(fromMonoMs + at * everyMs + ((at * 17) % 31));
  }
  return out;
};

/** As `watch`, and takes readings close together between them for as long as the clock wants them, as the cue line does. */
const attend = (
  of: Card,
  instants: readonly number[],
  from: AudioClock = unknownAudioClock,
  untilMs = Number.NEGATIVE_INFINITY,
): AudioClock =>
  instants.reduce((before, monoMs, at) => {
    let clock = addReading(before, read(of, monoMs));
    const nextMs = instants[at + 1] ?? untilMs;
    for (let more = monoMs + DENSE_MS; more < nextMs && wantsReadings(clock); more += DENSE_MS) {
      clock = addReading(clock, read(of, more));
    }
    return clock;
  }, from);

/** Distances of a second reading after each beat, as the cue line takes them. */
const EXTRA = [31, 7, 53, 17, 41, 11, 61, 23, 47, 3, 37];

/** How far a sound due at `monoMs` would be off, in ms: above 0 is late. */
const errorMs = (clock: AudioClock, of: Card, monoMs: number): number => {
  const at = audioTimeFor(clock, monoMs);
  if (at === null) throw new Error('nothing known');
  return (at - of.seconds(monoMs)) * 1000;
};

describe('the audio clock against the page clock', () => {
  test('is not known before the audio clock was seen to move', () => {
    expect(audioTimeFor(unknownAudioClock, 5000)).toBeNull();
    const one = watch(card(), [2000]);
    expect(audioTimeFor(one, 5000)).toBeNull();
    expect(audioTimeFor(watch(card(), [2040], one), 5000)).not.toBeNull();
  });

  test('does not take the time before a new clock first moved for a part of it', () => {
    // Says that it runs from 1000 on, and moves from 1300 on.
    const late = standing(card(), 1000, 300);
    const clock = watch(late, beats(1010, 2500, 13));
    expect(Math.abs(errorMs(clock, late, 2500))).toBeLessThan(4);
  });

  test.each([10, 23, 42])(
    'is known to a few ms after half a second of dense reading, shown in steps of %i ms',
    (stepMs) => {
      const of = card(0, stepMs / 1000);
      const clock = watch(of, beats(1001, 1620, 13));
      expect(isSettled(clock)).toBe(true);
      expect(Math.abs(errorMs(clock, of, 1700))).toBeLessThan(4);
    },
  );

  test.each([-500, -80, 0, 80, 500])(
    'follows a card that runs %i ppm fast within 3 ms, half a minute ahead',
    (skewPpm) => {
      const of = card(skewPpm);
      const clock = watch(of, beats(1001, 90_000));
      expect(Math.abs(errorMs(clock, of, 90_000))).toBeLessThan(2);
      expect(Math.abs(errorMs(clock, of, 120_000))).toBeLessThan(3);
    },
  );

  test('asks for readings while few are fresh', () => {
    expect(wantsReadings(watch(card(), beats(1001, 1300, 30)))).toBe(true);
    const known = attend(card(), beats(1001, 10_000));
    expect(wantsReadings(known)).toBe(false);
    expect(wantsReadings(watch(card(), [13_050, 16_050], known))).toBe(true);
    const stood = standing(card(), 10_000, 300);
    expect(wantsReadings(watch(stood, [10_003, 10_080], known))).toBe(false);
    expect(wantsReadings(watch(stood, [10_003, 10_080, 10_160], known))).toBe(true);
  });

  test('asks for readings close together every two seconds until the slope is known', () => {
    const early = watch(card(), [...beats(1001, 10_000), ...beats(10_020, 10_400, DENSE_MS)]);
    expect(wantsReadings(watch(card(), beats(10_500, 12_000), early))).toBe(false);
    expect(wantsReadings(watch(card(), beats(10_500, 12_700), early))).toBe(true);
    const sure = attend(card(), beats(1001, 30_000));
    expect(wantsReadings(watch(card(), beats(30_125, 40_000), sure))).toBe(false);
  });

  test('is met before the slope is known however the readings beat with the steps', () => {
    const of = card();
    // A whole number of steps between any two, all at the top of one.
    const beat = Array.from({ length: 120 }, (_, at) => 1000 + STEP_42 * 1000 * (0.9 + 4 * (at + 1)));
    expect(Math.abs(errorMs(watch(of, beat), of, 20_000))).toBeGreaterThan(30);
    expect(Math.abs(errorMs(attend(of, beat), of, 20_000))).toBeLessThan(8);
  });

  test('stays known within 8 ms while hardly anything is read, before the slope is known', () => {
    const known = watch(card(150), beats(1001, 5000));
    const of = card(150);
    for (let monoMs = 5500, clock = known; monoMs < 20_000; monoMs += 1501) {
      clock = watch(of, [monoMs], clock);
      expect(Math.abs(errorMs(clock, of, monoMs))).toBeLessThan(8);
    }
  });

  test('lets old readings count for less before the slope is known', () => {
    const of = card(-500, 0.01);
    expect(Math.abs(errorMs(watch(of, beats(1001, 19_500, 700)), of, 19_500))).toBeLessThan(5);
  });

  test('keeps no more than the last minute', () => {
    const clock = watch(card(), beats(1001, 300_000));
    expect(clock.offsets.length).toBeLessThan(500);
    expect(clock.offsets[0]?.x).toBeGreaterThan(239_000);
  });

  test('is not moved by readings that come late', () => {
    const of = card();
    const readings = beats(1001, 60_000).map((monoMs, at) => {
      // One in five waited between the two clocks, up to a tenth of a second.
      return { ...read(of, monoMs), monoMs: at % 5 === 0 ? monoMs + ((at * 37) % 100) : monoMs };
    });
    const clock = readings.reduce(addReading, unknownAudioClock);
    expect(Math.abs(errorMs(clock, of, 60_500))).toBeLessThan(3);
    expect(clock.offsets[0]?.x).toBeLessThan(3000);
  });
});

describe('a clock that stands', () => {
  const of = standing(card(), 10_000, 4000);
  const until = (monoMs: number) => watch(of, beats(1001, monoMs));

  test('is noticed after half a second and three readings, not before', () => {
    expect(until(10_400).isStalled).toBe(false);
    expect(until(10_900).isStalled).toBe(true);
  });

  test('is not one where the page was blocked and has read nothing', () => {
    const blocked = watch(of, [10_700, 10_720], watch(of, beats(1001, 9900)));
    expect(blocked.isStalled).toBe(false);
  });

  test('is not one of which two readings say so: the second may be a stale one after a blocked page', () => {
    const two = watch(of, [10_100, 10_700], watch(of, beats(1001, 9900)));
    expect(two.isStalled).toBe(false);
    expect(watch(of, [10_750], two).isStalled).toBe(true);
  });

  test('is not one that stood while nothing was read, as in a short freeze', () => {
    const frozen = standing(card(), 10_000, 2000);
    let clock = watch(frozen, beats(1001, 9990));
    for (const monoMs of beats(12_010, 13_000, 30)) {
      clock = watch(frozen, [monoMs], clock);
      expect(clock.isStalled).toBe(false);
    }
  });

  test('still stands after a gap without readings, until it is seen to move', () => {
    const gap = watch(of, [13_300], until(11_000));
    expect(gap.isStalled).toBe(true);
    expect(watch(of, [14_100, 14_400], gap).isStalled).toBe(false);
  });

  test('is found again within a step at its first move, and within 3 ms after a second', () => {
    const moved = until(14_400);
    expect(moved.isStalled).toBe(false);
    expect(Math.abs(errorMs(moved, of, 14_400))).toBeLessThan(45);
    expect(Math.abs(errorMs(until(15_200), of, 15_200))).toBeLessThan(10);
  });

  test('crawls: at a tenth of its speed for two seconds counts as standing', () => {
    const crawling: Card = {
      stepSeconds: 0.01,
      seconds: (monoMs) => Math.min(monoMs, 10_000 + (monoMs - 10_000) / 10) / 1000,
    };
    expect(watch(crawling, beats(1001, 11_000)).isStalled).toBe(false);
    expect(watch(crawling, beats(1001, 12_700)).isStalled).toBe(true);
    expect(watch(crawling, beats(1001, 15_000)).isStalled).toBe(true);
    const slow: Card = { stepSeconds: 0.01, seconds: (monoMs) => (monoMs * 0.9) / 1000 };
    expect(watch(slow, beats(1001, 12_700)).isStalled).toBe(false);
  });
});

describe('a jump', () => {
  test.each([60, 250, 3200])(
    'of %i ms, too short or too hidden to be seen as a stall, is found in a second',
    (lengthMs) => {
      const of = standing(card(), 30_000, lengthMs);
      const before = watch(of, beats(1001, 29_900));
      const after = watch(of, beats(30_000 + lengthMs + 5, 31_000 + lengthMs, 60), before);
      expect(Math.abs(errorMs(after, of, 31_000 + lengthMs))).toBeLessThan(5);
    },
  );

  test.each([
    { lengthMs: 25, stepMs: 42.7, withinMs: 5000 },
    { lengthMs: 10, stepMs: 10, withinMs: 2000 },
    { lengthMs: 12, stepMs: 42.7, withinMs: 9000 },
    { lengthMs: 5, stepMs: 10, withinMs: 5000 },
  ])('of $lengthMs ms, in steps of $stepMs ms, is found within $withinMs ms', ({ lengthMs, stepMs, withinMs }) => {
    const of = standing(card(20, stepMs / 1000), 40_000, lengthMs);
    const clock = attend(of, beats(1001, 40_000 + withinMs));
    expect(clock.offsets[0]?.x).toBeGreaterThan(39_400);
    expect(Math.abs(errorMs(clock, of, 40_000 + withinMs))).toBeLessThan(5);
  });

  test('of a dropped buffer is found soon after the start too', () => {
    const of = standing(card(20, 0.01), 8000, 10);
    const clock = attend(of, beats(1001, 10_000));
    expect(Math.abs(errorMs(clock, of, 10_000))).toBeLessThan(3);
  });

  test.each([8, 17, 34])('of %i ms right after another is found within four seconds', (lengthMs) => {
    const of = standing(standing(card(20), 30_000, 900), 31_700, lengthMs);
    const clock = attend(of, beats(1001, 35_900));
    expect(Math.abs(errorMs(clock, of, 35_900))).toBeLessThan(6);
  });

  test('ahead is found at once', () => {
    const plain = card();
    const of: Card = { ...plain, seconds: (monoMs) => plain.seconds(monoMs) + (monoMs > 60_000 ? 0.3 : 0) };
    const clock = watch(of, beats(1001, 62_000));
    expect(Math.abs(errorMs(clock, of, 62_000))).toBeLessThan(4);
    expect(Math.abs(errorMs(clock, of, 75_000))).toBeLessThan(5);
  });

  test('keeps the slope that was learnt', () => {
    const of = standing(card(400), 90_000, 3000);
    const clock = watch(of, beats(1001, 97_000));
    expect(clock.line?.slope).toBeCloseTo(-400e-6, 4);
  });

  test('shorter than a step is believed only once readings close together bear it out, or none came for three seconds', () => {
    const of = standing(card(20, 0.01), 40_000, 10);
    const before = attend(of, beats(1001, 39_900));
    const doubted = watch(of, beats(40_050, 41_300), before);
    expect(doubted.doubtedFromMs).not.toBeNull();
    expect(wantsReadings(doubted)).toBe(true);
    expect(doubted.offsets[0]?.x).toBeLessThan(2000);
    expect(attend(of, beats(41_400, 41_600), doubted).offsets[0]?.x).toBeGreaterThan(39_400);
    expect(watch(of, beats(41_400, 46_000), doubted).offsets[0]?.x).toBeGreaterThan(39_400);
  });

  test('is doubted from its first reading on, so that more are taken', () => {
    const of = standing(card(), 30_000, 900);
    const before = watch(of, beats(1001, 29_990));
    expect(wantsReadings(before)).toBe(false);
    expect(wantsReadings(watch(of, [30_960], before))).toBe(true);
  });

  test.each([-500, 500])('is not what %i ppm look like before the slope is known', (skewPpm) => {
    const clock = watch(card(skewPpm, 0.0029), beats(1001, 30_000));
    expect(clock.offsets[0]?.x).toBeLessThan(2000);
    expect(clock.line?.slope).toBeCloseTo(-skewPpm * 1e-6, 4);
  });

  test('that the page knows of itself leaves only the slope', () => {
    const of = card(300);
    const clock = restarted(watch(of, beats(1001, 60_000)));
    expect(audioTimeFor(clock, 60_000)).toBeNull();
    expect(isSettled(clock)).toBe(false);
    expect(clock.line?.slope).toBeCloseTo(-300e-6, 4);
  });

  test('is not seen where there is none, over a quarter of an hour of any card, any steps and late timers (property)', () => {
    const phone = fc.record({
      skewPpm: fc.integer({ min: -500, max: 500 }),
      stepMs: fc.constantFrom(2.9, 5.8, 10, 11.6, 21.3, 42.7),
      lateness: fc.array(fc.integer({ min: 0, max: 40 }), { minLength: 7, maxLength: 40 }),
    });
    fc.assert(
      fc.property(phone, ({ skewPpm, stepMs, lateness }) => {
        const of = card(skewPpm, stepMs / 1000);
        let clock = unknownAudioClock;
        let worst = 0;
        for (let at = 0; at * 250 < 900_000; at += 1) {
          const monoMs = 1001 + at * 250 + (lateness[at % lateness.length] ?? 0);
          clock = attend(of, [monoMs, monoMs + (EXTRA[at % EXTRA.length] ?? 0)], clock, 1251 + at * 250);
          if (at > 40 && at % 5 === 0) worst = Math.max(worst, Math.abs(errorMs(clock, of, monoMs + 500)));
        }
        // Even a hundred different distances leave a part of a long step unmet.
        return worst < 2 + stepMs / 6;
      }),
      { numRuns: 8, endOnFailure: true },
    );
  });
});
