import { type Line, lineAt, lineUnder, lowerLine, type Point } from './lower-line.ts';

/** The audio clock, read first, and the page's monotonic clock, read right after it. */
export type AudioReading = { readonly audioSeconds: number; readonly monoMs: number };

/**
 * What is known of one audio clock against the page's monotonic clock. The offset between them, monoMs - audioSeconds x
 * 1000, can only be read too high: the audio clock is shown in steps of 10-42 ms and each reading comes late. So the
 * truth is the lower envelope of the offsets. A single pair of readings would be off by a step and drift by hundreds of
 * ms in an hour.
 */
export type AudioClock = {
  /** Offsets of the last minute, in ms by monoMs, since the last jump. One for each step of the audio clock. */
  readonly offsets: readonly Point[];
  /** Readings of the last seconds, to tell standing from running. */
  readonly recent: readonly AudioReading[];
  readonly line: Line | null;
  readonly isStalled: boolean;
};

/** The offsets lie about the line as wide as the steps of the audio clock: at least and at most this, in ms. */
const LEAST_SPREAD_MS = 4;
const MOST_SPREAD_MS = 60;
const WINDOW_MS = 60_000;
/** A slope needs this long; before, the offset is taken as level over the last seconds (or sloping as last known). */
const SLOPE_FROM_MS = 20_000;
const LEVEL_WINDOW_MS = 6000;
/** Crystals differ by tens of ppm, sound cards of phones by up to some hundreds. */
const MAX_SLOPE = 1000e-6;
const STALL_MS = 500;
const CRAWL_MS = 2000;
const RECENT_MS = 2600;
/** Without a reading for this long nothing is known of the time between: the page was blocked or frozen. */
const BLIND_MS = 1600;
const SETTLED_FROM = 12;
/** A settled line that is undercut by more than this was wrong from there on: the audio clock leapt ahead. */
const FALL_MS = 5;
const JUMP_LOOKBACK_MS = 10_000;
const RISE_MS = 2;
/** A run of high offsets is a jump when chance would bring it less often than e^-18, about once in 60 million runs. */
const JUMP_SURPRISE = 18;
const LEAST_JUMP_RUN_MS = 60;

/** Nothing known yet: a new context, whose clock has nothing to do with the last one's. */
export const unknownAudioClock: AudioClock = { offsets: [], recent: [], line: null, isStalled: false };

/**
 * Takes in one reading; readings come in the order they were taken. Notices a clock that stands while the page's runs
 * on (over 0.5 s, three readings), or crawls (under half speed for 2 s), and a jump of the offset after a stall, a
 * freeze or a dropped buffer: what was read before the jump is forgotten, the slope is kept.
 */
export function addReading(clock: AudioClock, reading: AudioReading): AudioClock {
  const before = clock.recent[clock.recent.length - 1];
  const runs = before === undefined || reading.audioSeconds > before.audioSeconds;
  if (clock.isStalled && runs) return withOffset(restarted(clock), reading);
  const recent = recentWith(clock.recent, reading);
  const known = { ...clock, recent, isStalled: clock.isStalled || stands(recent) || crawls(recent) };
  // A reading within the same step says nothing new, only later.
  return runs ? withOffset(known, reading) : known;
}

/** Drops all readings and keeps the slope: for when the page knows that the clocks parted, as after a freeze. */
export function restarted(clock: AudioClock): AudioClock {
  return { ...unknownAudioClock, line: clock.line };
}

/** Whether there were enough readings since the last jump to trust the offset to a few ms. */
export function isSettled(clock: AudioClock): boolean {
  return clock.offsets.length >= SETTLED_FROM;
}

/** Audio time in seconds at which the page's clock shows `monoMs`, past or future; null while nothing has been read. */
export function audioTimeFor(clock: AudioClock, monoMs: number): number | null {
  if (clock.line === null || clock.offsets.length === 0) return null;
  return (monoMs - lineAt(clock.line, monoMs)) / 1000;
}

function withOffset(clock: AudioClock, reading: AudioReading): AudioClock {
  const point = { x: reading.monoMs, y: reading.monoMs - reading.audioSeconds * 1000 };
  const recent = clock.recent.length === 0 ? [reading] : clock.recent;
  const kept = clock.offsets.filter((each) => each.x > reading.monoMs - WINDOW_MS);
  const offsets = sinceJump([...kept, point], clock.line);
  return { ...clock, recent, offsets, line: fit(offsets, clock.line) };
}

function fit(offsets: readonly Point[], before: Line | null): Line | null {
  const newest = offsets[offsets.length - 1];
  if (newest === undefined) return before;
  if (newest.x - (offsets[0]?.x ?? newest.x) >= SLOPE_FROM_MS) return lowerLine(offsets, MAX_SLOPE);
  const late = offsets.filter((each) => each.x > newest.x - LEVEL_WINDOW_MS);
  return lineUnder(late, before?.slope ?? 0);
}

/** The offsets from the last jump on: all of them where there was none. */
function sinceJump(offsets: readonly Point[], line: Line | null): readonly Point[] {
  const newest = offsets[offsets.length - 1];
  const oldest = offsets[0];
  if (newest === undefined || oldest === undefined || line === null || offsets.length < 2) return offsets;
  const rise = newest.y - lineAt(line, newest.x);
  if (rise < -FALL_MS && newest.x - oldest.x >= SLOPE_FROM_MS) return [newest];
  if (rise <= RISE_MS) return offsets;
  const run = surprisingRun(offsets, line, spreadAbout(offsets, line));
  return run === 0 ? offsets : offsets.slice(-run);
}

/**
 * Length of the newest run of offsets that all lie so high above the line that chance does not explain it, or 0. With
 * offsets spread evenly over `spread`, k of them all lie above m with the chance (1 - m / spread)^k.
 */
function surprisingRun(offsets: readonly Point[], line: Line, spread: number): number {
  const newest = offsets[offsets.length - 1];
  let least = Number.POSITIVE_INFINITY;
  for (let run = 1; newest !== undefined && run < offsets.length; run += 1) {
    const point = offsets[offsets.length - run];
    if (point === undefined || point.x < newest.x - JUMP_LOOKBACK_MS) return 0;
    least = Math.min(least, point.y - lineAt(line, point.x));
    if (least <= RISE_MS) return 0;
    const share = Math.min(least / spread, 1 - Number.EPSILON);
    const surprise = -run * Math.log(1 - share);
    if (run >= 3 && newest.x - point.x >= LEAST_JUMP_RUN_MS && surprise > JUMP_SURPRISE) return run;
  }
  return 0;
}

/** How far above the line offsets usually lie: four in five of them are below 0.8 of it. */
function spreadAbout(offsets: readonly Point[], line: Line): number {
  const heights = offsets.map((point) => point.y - lineAt(line, point.x)).sort((a, b) => a - b);
  if (heights.length < SETTLED_FROM) return MOST_SPREAD_MS;
  const high = (heights[Math.floor(heights.length * 0.8)] ?? 0) / 0.8;
  return Math.min(MOST_SPREAD_MS, Math.max(LEAST_SPREAD_MS, high));
}

function recentWith(recent: readonly AudioReading[], reading: AudioReading): readonly AudioReading[] {
  const newest = recent[recent.length - 1];
  if (newest !== undefined && reading.monoMs - newest.monoMs > BLIND_MS) return [reading];
  return [...recent.filter((each) => each.monoMs > reading.monoMs - RECENT_MS), reading];
}

/** Three readings of the same instant over more than half a second; two may be one stale one after a blocked page. */
function stands(recent: readonly AudioReading[]): boolean {
  const newest = recent[recent.length - 1];
  const same = recent.filter((each) => each.audioSeconds === newest?.audioSeconds);
  const oldest = same[0];
  return newest !== undefined && oldest !== undefined && same.length >= 3 && newest.monoMs - oldest.monoMs > STALL_MS;
}

function crawls(recent: readonly AudioReading[]): boolean {
  const oldest = recent[0];
  const newest = recent[recent.length - 1];
  if (oldest === undefined || newest === undefined || recent.length < 5) return false;
  const pageMs = newest.monoMs - oldest.monoMs;
  return pageMs >= CRAWL_MS && (newest.audioSeconds - oldest.audioSeconds) * 1000 < pageMs / 2;
}
