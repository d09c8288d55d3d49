import { Howler } from 'howler/dist/howler.core.min.js';
import { test } from 'vitest';
import type { WantedSound } from '../../../src/ports/cue-line.ts';
import { phoneWithSound } from '../../app/platform/sound/phone-with-sound.ts';
import { noteFigure } from '../figure-lines.ts';
import { rounded, worstOf } from '../numbers.ts';

const LIMIT_MS = 10;
const HOUR_MS = 3_600_000;
const EVERY_MS = 1900;
const SETTLED_MS = 2000;
/** Filled up every minute, four minutes ahead, as a class does it. */
const REFILL_MS = 60_000;
const AHEAD_MS = 240_000;
/** 42.7 ms at 48 kHz. */
const STEP_FRAMES = 2048;
const LATENESS_MS = [0, 13, 40, 7, 22];

type Hour = {
  readonly skewPpm: number;
  readonly stall: readonly [fromMs: number, toMs: number];
  readonly renewMs: number;
};

const HOURS: readonly Hour[] = [
  { skewPpm: 500, stall: [600_000, 603_000], renewMs: 2_400_000 },
  { skewPpm: -500, stall: [900_000, 909_000], renewMs: 1_900_000 },
  { skewPpm: 0, stall: [1_700_000, 1_700_700], renewMs: 3_400_000 },
];

/** What happens to the sound, and when. */
function events({ stall, renewMs }: Hour, phone: ReturnType<typeof phoneWithSound>) {
  const renew = () => {
    const context = phone.audio.makeContext();
    const volume = context.createGain();
    volume.connect(context.destination);
    Object.assign(Howler, { ctx: context, masterGain: volume });
  };
  return [
    { atMs: stall[0], happen: () => phone.audio.stall('time') },
    { atMs: stall[1], happen: phone.audio.unstall },
    { atMs: renewMs, happen: renew },
  ].sort((one, other) => one.atMs - other.atMs);
}

function isCalm({ stall, renewMs }: Hour, atMs: number): boolean {
  const isNear = (fromMs: number, toMs: number) => atMs > fromMs - 300 && atMs < toMs + SETTLED_MS;
  return !isNear(stall[0], stall[1]) && !isNear(renewMs, renewMs);
}

/** The app's cue line for an hour on a fake sound card; how far each cue in calm is from its instant, NaN where it was not heard once. */
async function runHour(hour: Hour): Promise<readonly number[]> {
  const phone = phoneWithSound({ skewPpm: hour.skewPpm, stepFrames: STEP_FRAMES });
  const { clocks } = phone.clocks;
  phone.audio.touch(phone.line.unlock);
  await phone.pass(2000);
  const startMs = clocks.monoMs();
  const dues: WantedSound[] = [];
  for (let at = 500; at < HOUR_MS; at += EVERY_MS) {
    dues.push({ key: String(at), kind: 'tick', style: 'sharp', dueMonoMs: startMs + at });
  }
  const waiting = events(hour, phone);
  let filledMs = Number.NEGATIVE_INFINITY;
  for (let look = 0; clocks.monoMs() - startMs < HOUR_MS; look += 1) {
    const nowMs = clocks.monoMs() - startMs;
    if (nowMs - filledMs >= REFILL_MS) {
      filledMs = nowMs;
      phone.line.want(dues.filter(({ key }) => Number(key) > nowMs && Number(key) < nowMs + AHEAD_MS));
    }
    phone.line.tend();
    const nextMs = nowMs + 250 + (LATENESS_MS[look % LATENESS_MS.length] ?? 0);
    for (let next = waiting[0]; next !== undefined && next.atMs <= nextMs; next = waiting[0]) {
      phone.clocks.advance(Math.max(0, startMs + next.atMs - clocks.monoMs()));
      next.happen();
      waiting.shift();
    }
    phone.clocks.advance(Math.max(0, startMs + nextMs - clocks.monoMs()));
  }
  const heard = phone.heard().map(({ atMonoMs }) => atMonoMs);
  return dues
    .filter(({ key }) => isCalm(hour, Number(key)))
    .map(({ dueMonoMs }) => {
      const near = heard.filter((at) => Math.abs(at - dueMonoMs) < EVERY_MS / 2);
      return near.length === 1 ? Math.abs((near[0] ?? Number.NaN) - dueMonoMs) : Number.NaN;
    });
}

test('hour', async ({ task }) => {
  for (const hour of HOURS) {
    const offMs = await runHour(hour);
    const [fromMs, toMs] = hour.stall;
    noteFigure(task, {
      figure: 'audio against class clock over an hour, fake port',
      where: `${hour.skewPpm} ppm, steps of 42.7 ms, a stall of ${(toMs - fromMs) / 1000} s, a new context`,
      value: worstOf(offMs),
      limit: LIMIT_MS,
      unit: 'ms',
      measured: `${rounded(worstOf(offMs))} ms worst of ${offMs.length} cues`,
    });
  }
});
