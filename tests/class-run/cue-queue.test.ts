import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type DueSound, diff, type QueuedSound } from '../../src/class-run/cue-queue.ts';

const sound = (key: string, dueMonoMs: number): DueSound => ({ key, kind: 'tick', style: 'sharp', dueMonoMs });

/** The audio clock began when the page's showed this. */
const began = (monoMs: number) => (at: number) => (at - monoMs) / 1000;
const mapping = began(1000);

/** As it was handed over while `by` held. */
const queued = (key: string, dueMonoMs: number, by = mapping): QueuedSound => ({
  key,
  dueMonoMs,
  whenSeconds: by(dueMonoMs),
});

const keysOf = (change: ReturnType<typeof diff>) => ({
  cancel: change.cancel,
  start: change.start.map(({ key }) => key),
});
const NOTHING = { cancel: [], start: [] };

describe('what makes the queue fit the wanted sounds', () => {
  test('starts what is not queued, at its place on the audio clock', () => {
    expect(diff([sound('a', 11_000)], [], mapping, 5000)).toEqual({
      cancel: [],
      start: [{ ...sound('a', 11_000), whenSeconds: 10 }],
    });
  });

  test('leaves what is queued and still right', () => {
    expect(diff([sound('a', 11_000)], [queued('a', 11_000)], mapping, 5000)).toEqual(NOTHING);
  });

  test('calls off what is no longer wanted', () => {
    expect(keysOf(diff([], [queued('a', 11_000)], mapping, 5000))).toEqual({ cancel: ['a'], start: [] });
    expect(keysOf(diff([], [queued('a', 11_000)], mapping, 10_990))).toEqual({ cancel: ['a'], start: [] });
  });

  test('lets ring what has begun, listed or not', () => {
    expect(diff([], [queued('a', 11_000)], mapping, 11_001)).toEqual(NOTHING);
    expect(diff([sound('a', 11_000)], [queued('a', 11_000)], mapping, 11_001)).toEqual(NOTHING);
    expect(diff([sound('a', 11_000)], [queued('a', 11_000)], mapping, 11_140)).toEqual(NOTHING);
  });

  test('never cuts one at its very instant because the mapping is a few ms off', () => {
    // Queued 4 ms later than the clock is now known to ask for, and no longer listed because its instant has come.
    expect(diff([], [queued('a', 11_000, began(996))], mapping, 11_001)).toEqual(NOTHING);
  });

  test('moves what is due at another time', () => {
    expect(diff([sound('a', 16_000)], [queued('a', 11_000)], mapping, 5000)).toEqual({
      cancel: ['a'],
      start: [{ ...sound('a', 16_000), whenSeconds: 15 }],
    });
  });

  test.each([
    { byMs: 1.9, moves: false },
    { byMs: 2.1, moves: true },
    { byMs: -2.1, moves: true },
  ])('a mapping that moved by $byMs ms: moved $moves', ({ byMs, moves }) => {
    const change = diff([sound('a', 11_000)], [queued('a', 11_000)], began(1000 + byMs), 5000);
    expect(keysOf(change)).toEqual(moves ? { cancel: ['a'], start: ['a'] } : NOTHING);
  });

  test.each([
    { inMs: 99, moves: false },
    { inMs: 101, moves: true },
  ])('leaves alone what starts within 100 ms: in $inMs ms, moved $moves', ({ inMs, moves }) => {
    const change = diff([sound('a', 11_000)], [queued('a', 11_000, began(980))], began(980 + 5), 11_000 - inMs + 5);
    expect(keysOf(change)).toEqual(moves ? { cancel: ['a'], start: ['a'] } : NOTHING);
  });

  test('moves even what starts soon when it would be more than 150 ms off', () => {
    const change = diff([sound('a', 14_000)], [queued('a', 11_000)], mapping, 10_950);
    expect(keysOf(change)).toEqual({ cancel: ['a'], start: ['a'] });
  });

  test('plays at once what is up to 150 ms late and drops what is later', () => {
    expect(diff([sound('a', 11_000)], [], mapping, 11_150).start).toEqual([
      { ...sound('a', 11_000), whenSeconds: 10.15 },
    ]);
    expect(diff([sound('a', 11_000)], [], mapping, 11_151)).toEqual(NOTHING);
  });

  test('calls off what waits in a clock that fell behind until it is too late', () => {
    // The audio clock stood for 3 s: what was queued for 11000 would now sound at 14000.
    const change = diff([sound('a', 11_000)], [queued('a', 11_000)], began(4000), 11_500);
    expect(keysOf(change)).toEqual({ cancel: ['a'], start: [] });
  });

  test('plays again what has sounded when its instant is put off, as by going back', () => {
    const change = diff([sound('a', 13_000)], [queued('a', 11_000)], mapping, 11_400);
    expect(keysOf(change)).toEqual({ cancel: [], start: ['a'] });
  });

  test('does not double what has begun when the audio clock leaps', () => {
    expect(diff([sound('a', 11_000)], [queued('a', 11_000)], began(700), 11_020)).toEqual(NOTHING);
  });

  test('asks for no time before the audio clock began', () => {
    const early = diff([sound('a', 990)], [], mapping, 995);
    expect(early.start.map(({ whenSeconds }) => whenSeconds)).toEqual([0]);
  });

  test('takes the first of two wanted under one key', () => {
    expect(
      diff([sound('a', 11_000), sound('a', 12_000)], [], mapping, 5000).start.map((each) => each.dueMonoMs),
    ).toEqual([11_000]);
  });

  test('however looks, drift and wishes fall, all is heard once, in time or not at all (property)', () => {
    const world = fc.record({
      dues: fc.uniqueArray(fc.integer({ min: 2000, max: 20_000 }), { minLength: 1, maxLength: 30 }),
      looks: fc.array(fc.integer({ min: 1, max: 900 }), { minLength: 30, maxLength: 60 }),
      wobbleMs: fc.array(fc.integer({ min: -8, max: 8 }), { minLength: 5, maxLength: 9 }),
      lists: fc.constantFrom('ahead', 'all'),
    });
    fc.assert(
      fc.property(world, ({ dues, looks, wobbleMs, lists }) => {
        const heard = new Map<string, number[]>();
        let queue = new Map<string, QueuedSound>();
        let nowMs = 1500;
        const pass = (untilMs: number) => {
          for (const each of queue.values()) {
            const atMs = each.whenSeconds * 1000 + 1000;
            if (atMs > nowMs && atMs <= untilMs) heard.set(each.key, [...(heard.get(each.key) ?? []), atMs]);
          }
          nowMs = untilMs;
        };
        for (const [at, ms] of [...looks, ...looks].entries()) {
          const wanted = dues.filter((due) => lists === 'all' || due > nowMs).map((due) => sound(String(due), due));
          const known = began(1000 + (wobbleMs[at % wobbleMs.length] ?? 0));
          const change = diff(wanted, [...queue.values()], known, nowMs);
          const gone = new Set(change.cancel);
          queue = new Map([...queue].filter(([key]) => !gone.has(key)));
          for (const each of change.start)
            queue.set(each.key, { ...each, whenSeconds: Math.max(each.whenSeconds, (nowMs - 999.9) / 1000) });
          pass(nowMs + ms);
        }
        return dues.every((due) => {
          const times = heard.get(String(due)) ?? [];
          if (due > nowMs - 200) return true;
          return times.length === 1 && Math.abs((times[0] ?? 0) - due) <= 17;
        });
      }),
      { numRuns: 300 },
    );
  });
});
