import fc from 'fast-check';
import { Howler } from 'howler/dist/howler.core.min.js';
import { expect, test } from 'vitest';
import type { WantedSound } from '../../../../src/ports/cue-line.ts';
import { phoneWithSound } from './phone-with-sound.ts';

const HOUR_MS = 3_600_000;
const SETTLING_MS = 2000;
/** Filled up every minute, four minutes ahead, as the class does it. */
const REFILL_MS = 60_000;
const AHEAD_MS = 240_000;

type Hour = {
  readonly skewPpm: number;
  readonly stepFrames: number;
  readonly everyMs: number;
  readonly lateness: readonly number[];
  readonly stallAtMs: number;
  readonly stallMs: number;
  readonly renewAtMs: number;
};

/** Nothing happens in it. */
const STEADY: Hour = {
  skewPpm: 0,
  stepFrames: 2048,
  everyMs: 2500,
  lateness: [0, 13, 40, 7, 22],
  stallAtMs: 1e9,
  stallMs: 0,
  renewAtMs: 1e9,
};

/** Instants at which sound was undisturbed for two seconds. */
const isCalm = ({ stallAtMs, stallMs, renewAtMs }: Hour, atMs: number): boolean => {
  const apart = (fromMs: number, toMs: number) => atMs < fromMs || atMs > toMs + SETTLING_MS;
  return apart(stallAtMs - 300, stallAtMs + stallMs) && apart(renewAtMs - 300, renewAtMs);
};

async function runHour(hour: Hour) {
  const phone = phoneWithSound({ skewPpm: hour.skewPpm, stepFrames: hour.stepFrames });
  phone.audio.touch(phone.line.unlock);
  await phone.pass(2000);
  const startMs = phone.clocks.clocks.monoMs();
  const dues: WantedSound[] = [];
  for (let at = 500; at < HOUR_MS; at += hour.everyMs) {
    dues.push({ key: String(at), kind: 'tick', style: 'sharp', dueMonoMs: startMs + at });
  }
  const events = [
    { atMs: hour.stallAtMs, happen: () => phone.audio.stall('time') },
    { atMs: hour.stallAtMs + hour.stallMs, happen: phone.audio.unstall },
    {
      atMs: hour.renewAtMs,
      // As Howler.unload() does it.
      happen: () => {
        Howler.ctx.close().catch(() => {});
        Howler.ctx = phone.audio.makeContext();
        Howler.masterGain = Howler.ctx.createGain();
        Howler.masterGain.connect(Howler.ctx.destination);
      },
    },
  ].sort((a, b) => a.atMs - b.atMs);
  let filledMs = Number.NEGATIVE_INFINITY;
  for (let at = 0; ; at += 1) {
    const nowMs = phone.clocks.clocks.monoMs() - startMs;
    if (nowMs > HOUR_MS) break;
    if (nowMs - filledMs >= REFILL_MS) {
      filledMs = nowMs;
      phone.line.want(
        dues.filter(({ dueMonoMs }) => dueMonoMs > startMs + nowMs && dueMonoMs < startMs + nowMs + AHEAD_MS),
      );
    }
    phone.line.tend();
    const next = nowMs + 250 + (hour.lateness[at % hour.lateness.length] ?? 0);
    while (events[0] !== undefined && events[0].atMs <= next) {
      phone.clocks.advance(Math.max(0, events[0].atMs + startMs - phone.clocks.clocks.monoMs()));
      events.shift()?.happen();
    }
    phone.clocks.advance(Math.max(0, next + startMs - phone.clocks.clocks.monoMs()));
  }
  const calm = dues.filter(({ dueMonoMs }) => isCalm(hour, dueMonoMs - startMs));
  const times = phone.heard().map(({ atMonoMs }) => atMonoMs);
  const errorsAt = ({ dueMonoMs }: WantedSound) =>
    times.map((atMonoMs) => atMonoMs - dueMonoMs).filter((error) => Math.abs(error) < hour.everyMs / 2);
  return { dues, calm, times, errorsAt, audio: phone.audio };
}

/** Hours that were wrong once, and the widest drifts. */
const FOUND: readonly Hour[] = [
  { ...STEADY, skewPpm: 500, stallAtMs: 600_000, stallMs: 3000, renewAtMs: 2_400_000 },
  { ...STEADY, skewPpm: -500, stallAtMs: 900_000, stallMs: 700, renewAtMs: 1_900_000 },
  { ...STEADY, stepFrames: 128, everyMs: 1900, lateness: [0, 4, 0, 2, 48, 1], stallAtMs: 935_570, stallMs: 300 },
  // Looks that beat with the steps: what they said for seconds was taken for a jump.
  { ...STEADY, everyMs: 2524, lateness: [46, 19, 34, 54, 40, 55, 10], stallAtMs: 255_439, stallMs: 8184 },
  // So early in a context that the slope is not known.
  {
    ...STEADY,
    skewPpm: -407,
    everyMs: 2719,
    lateness: [43, 28, 4, 1, 30, 29, 18, 29, 5, 56, 56],
    renewAtMs: 2_929_483,
  },
  // A new context while a cue of the old one, whose clock showed a step less, had just begun.
  {
    ...STEADY,
    skewPpm: -225,
    everyMs: 3895,
    lateness: [59, 30, 41, 5, 5, 36, 58, 27, 47, 49, 35, 24, 22, 59, 9, 40],
    stallAtMs: 100_011,
    stallMs: 7203,
    renewAtMs: 1_800_005,
  },
];

const hours = fc.record({
  skewPpm: fc.integer({ min: -500, max: 500 }),
  stepFrames: fc.constantFrom(128, 480, 1024, 2048),
  everyMs: fc.integer({ min: 1900, max: 7300 }),
  lateness: fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 5, maxLength: 30 }),
  stallAtMs: fc.integer({ min: 100_000, max: 1_700_000 }),
  stallMs: fc.integer({ min: 300, max: 9000 }),
  renewAtMs: fc.integer({ min: 1_800_000, max: 3_400_000 }),
});

test('over an hour of any sound card every cue comes once and within 10 ms, two seconds after a stall or a new context', async () => {
  await fc.assert(
    fc.asyncProperty(hours, async (hour) => {
      const { calm, times, dues, errorsAt } = await runHour(hour);
      expect(calm.length).toBeGreaterThan(dues.length - 10);
      for (const due of calm) {
        const errors = errorsAt(due);
        expect(errors, `cue at ${due.key}`).toHaveLength(1);
        expect(Math.abs(errors[0] ?? 99), `cue at ${due.key}`).toBeLessThanOrEqual(10);
      }
      // In between a cue may be lost, never doubled, nor late: but for a gap too short to be noticed, by its length.
      const mostLateMs = Math.max(150, hour.stallMs < 1000 ? hour.stallMs + 10 : 0);
      const owed = new Map(dues.map((due) => [due.key, errorsAt(due)]));
      for (const [key, errors] of owed) {
        expect(errors.length, `cue at ${key}`).toBeLessThanOrEqual(1);
        expect(Math.abs(errors[0] ?? 0), `cue at ${key}`).toBeLessThanOrEqual(mostLateMs);
      }
      expect(times.length).toBe([...owed.values()].flat().length);
    }),
    // An hour takes seconds to run: a failing one is reported as found, with its seed.
    { numRuns: 6, endOnFailure: true, examples: FOUND.map((hour): [Hour] => [hour]) },
  );
});

test('queues each cue only a few times over, however the two clocks drift', async () => {
  const { dues, audio } = await runHour({ ...STEADY, skewPpm: 80 });
  expect(audio.starts() / dues.length).toBeLessThan(40);
});
