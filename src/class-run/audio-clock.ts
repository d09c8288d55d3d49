import { type Line, lineAt, lineUnder, lowerLine, type Point } from './lower-line.ts';
import { endsInBurst, sinceJump } from './offset-jump.ts';

/** The audio clock, read first, and the page's monotonic clock, read right after it. */
export type AudioReading = { readonly audioSeconds: number; readonly monoMs: number };

/**
 * What is known of one audio clock against the page's monotonic clock. The offset between them, monoMs - audioSeconds x
 * 1000, can only be read too high: the audio clock is shown in steps of 10-42 ms and each reading comes late. So the
 * truth is the lower envelope of the offsets. A single pair of readings would be off by a step and drift by hundreds of
 * ms in an hour.
 */
export type AudioClock = {
  /** Offsets since the last jump, in ms by monoMs: all of the last 20 s, and the lowest of each second of the last minute. */
  readonly offsets: readonly Point[];
  /** Readings of the last seconds, to tell standing from running. While stalled: the last one at which it stood. */
  readonly recent: readonly AudioReading[];
  /** Null until the clock was seen to move. Kept without offsets after a jump, for its slope. */
  readonly line: Line | null;
  readonly isStalled: boolean;
  /** Since when a jump shorter than a step is suspected, by monoMs. */
  readonly doubtedFromMs: number | null;
};

const WINDOW_MS = 60_000;
const WHOLE_MS = 20_000;
const THIN_MS = 1000;
/** A slope needs this long; before, the offset is taken as level, or sloping as last known, as far as crystals allow. */
const SLOPE_FROM_MS = 20_000;
/** Enough to meet the edge of a step; fewer forget a wrong one sooner. Other jumps often follow the first. */
const LEVEL_READINGS = 32;
/** Crystals differ by tens of ppm, sound cards of phones by up to some hundreds. */
const LIKELY_SLOPE = 500e-6;
const MAX_SLOPE = 1000e-6;
const STALL_MS = 500;
const CRAWL_MS = 2000;
const RECENT_MS = 2600;
/** Long enough to tell a clock that runs again from one that crawls. */
const RECOVER_MS = 150;
/** Without a reading for this long nothing is known of the time between: the page was blocked or frozen. */
const BLIND_MS = 1600;
const SETTLED_FROM = 12;
const FRESH_FROM = 24;
const FRESH_MS = 6000;
/** Before the slope is known, readings far apart could miss the edge of every step: some close together come this often. */
const BURST_EVERY_MS = 2000;
const DOUBT_MS = 60;
const STANDING_MS = 100;

/** Nothing known yet: a new context, whose clock has nothing to do with the last one's. */
export const unknownAudioClock: AudioClock = {
  offsets: [],
  recent: [],
  line: null,
  isStalled: false,
  doubtedFromMs: null,
};

/**
 * Takes in one reading; readings come in the order they were taken. Notices a clock that stands while the page's runs
 * on (over 0.5 s, three readings), or crawls (under half speed for 2 s), and a jump of the offset after a stall, a
 * freeze or a dropped buffer: what was read before the jump is forgotten, the slope is kept.
 */
export function addReading(clock: AudioClock, reading: AudioReading): AudioClock {
  if (clock.isStalled) return recovering(clock, reading);
  const before = clock.recent[clock.recent.length - 1];
  const recent = recentWith(clock.recent, reading);
  if (stands(recent) || crawls(recent)) return { ...clock, recent: [reading], isStalled: true };
  // The first reading says only where the clock stood, for a new context may not run yet. One within the same step of
  // the clock says nothing new, only later.
  const runs = before !== undefined && reading.audioSeconds > before.audioSeconds;
  return runs ? withOffset({ ...clock, recent }, reading) : { ...clock, recent };
}

/** Drops all readings and keeps the slope: for when the page knows that the clocks parted, as after a freeze. */
export function restarted(clock: AudioClock): AudioClock {
  return { ...unknownAudioClock, line: clock.line };
}

/** Whether there were enough readings since the last jump to trust the offset to a few ms. */
export function isSettled(clock: AudioClock): boolean {
  return clock.offsets.length >= SETTLED_FROM;
}

/**
 * Whether a few readings close together would help: little is known, the page was blocked and read nothing for a while,
 * a jump is suspected, the clock stands longer than a step, or the latest offset is higher than a step explains, which is a jump or a reading
 * that came late.
 */
export function wantsReadings(clock: AudioClock): boolean {
  const newest = clock.offsets[clock.offsets.length - 1];
  const fresh = clock.offsets[clock.offsets.length - FRESH_FROM];
  if (newest === undefined || fresh === undefined || clock.line === null) return true;
  if (clock.doubtedFromMs !== null || lacksBurst(clock.offsets)) return true;
  const last = clock.recent[clock.recent.length - 1];
  if (last !== undefined && last.monoMs - newest.x > STANDING_MS) return true;
  return newest.x - fresh.x > FRESH_MS || newest.y - lineAt(clock.line, newest.x) > DOUBT_MS;
}

/** Audio time in seconds at which the page's clock shows `monoMs`, past or future; null while nothing is known. */
export function audioTimeFor(clock: AudioClock, monoMs: number): number | null {
  if (clock.line === null || clock.offsets.length === 0) return null;
  return (monoMs - lineAt(clock.line, monoMs)) / 1000;
}

/** Whether the slope is not known yet and the last readings close together were taken a while ago. */
function lacksBurst(offsets: readonly Point[]): boolean {
  const newestX = offsets[offsets.length - 1]?.x ?? 0;
  if (newestX - (offsets[0]?.x ?? newestX) >= SLOPE_FROM_MS) return false;
  for (let end = offsets.length; end > 0; end -= 1) {
    if (newestX - (offsets[end - 1]?.x ?? 0) > BURST_EVERY_MS) return true;
    if (endsInBurst(offsets, end)) return false;
  }
  return true;
}

function withOffset(clock: AudioClock, reading: AudioReading): AudioClock {
  const point = { x: reading.monoMs, y: reading.monoMs - reading.audioSeconds * 1000 };
  const all = [...thinned(clock.offsets, reading.monoMs), point];
  const { offsets, doubtedFromMs } = sinceJump(all, clock.line, clock.doubtedFromMs);
  return { ...clock, offsets, doubtedFromMs, line: fit(offsets, clock.line) };
}

/** Older offsets matter for the slope only, and there only the lowest do. */
function thinned(offsets: readonly Point[], nowMonoMs: number): readonly Point[] {
  const kept: Point[] = [];
  const secondOf = (point: Point | undefined) => Math.floor((point?.x ?? 0) / THIN_MS);
  for (const point of offsets) {
    if (point.x <= nowMonoMs - WINDOW_MS) continue;
    const last = kept[kept.length - 1];
    const isOld = point.x <= nowMonoMs - WHOLE_MS;
    if (isOld && last !== undefined && secondOf(last) === secondOf(point)) {
      if (point.y < last.y) kept[kept.length - 1] = point;
    } else kept.push(point);
  }
  return kept;
}

function fit(offsets: readonly Point[], before: Line | null): Line | null {
  const newest = offsets[offsets.length - 1];
  if (newest === undefined) return before;
  if (newest.x - (offsets[0]?.x ?? newest.x) >= SLOPE_FROM_MS) return lowerLine(offsets, MAX_SLOPE);
  const slope = before?.slope ?? 0;
  // An older offset says the less the longer the crystals may have drifted since.
  const aged = offsets.slice(-LEVEL_READINGS).map(({ x, y }) => ({ x, y: y + LIKELY_SLOPE * (newest.x - x) }));
  return lineUnder(aged, slope);
}

/** Stalled until it moved at half speed or more since it last stood. */
function recovering(clock: AudioClock, reading: AudioReading): AudioClock {
  const stood = clock.recent[0] ?? reading;
  const pageMs = reading.monoMs - stood.monoMs;
  const audioMs = (reading.audioSeconds - stood.audioSeconds) * 1000;
  if (audioMs > 0 && pageMs < RECOVER_MS) return clock;
  if (audioMs <= 0 || audioMs < pageMs / 2) return { ...clock, recent: [reading] };
  return withOffset({ ...restarted(clock), recent: [reading] }, reading);
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
