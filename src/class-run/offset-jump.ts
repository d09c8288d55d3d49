import { type Line, lineAt, lowerLine, type Point } from './lower-line.ts';

/** The offsets lie above the line as wide as the steps of the audio clock: at least and at most this, in ms. */
const LEAST_SPREAD_MS = 6;
const MOST_SPREAD_MS = 60;
const LOOKBACK_MS = 20_000;
/** Fewer say too little of how wide they lie: the widest is taken. */
const SPREAD_FROM = 40;
/** So many of them lie lower than this share of the width; late readings are among the rest. */
const USUAL = 0.85;
/** A line known this long that is undercut by more than so much was wrong from there on: the audio clock leapt ahead. */
const FALL_MS = 5;
const FALL_FROM_MS = 20_000;
const MAX_SLOPE = 1000e-6;
const RUN_LOOKBACK_MS = 10_000;
const RISE_MS = 2;
const LEAST_RUN = 3;
const LEAST_RUN_MS = 60;
/** Higher than any step reaches. */
const BEYOND = 1.1;
const LEAST_BEYOND = 3;
const LEAST_BEYOND_SHARE = 1 / 8;
/** A run of high offsets is a jump when chance brings it less often than e^-14, about once in a million readings. */
const SURPRISE = 14;
/** So many offsets with no longer gap between them met every part of a step: what they all say is no chance. */
const BURST = 6;
const BURST_GAP_MS = 100;
/** Where timers are held back no burst comes: what a run of high offsets said this long, it says truly. */
const LONG_DOUBT_MS = 3000;

/** What a jump left of the offsets, and since when, by the newest of them, a jump is suspected: readings close together tell. */
export type SinceJump = { readonly offsets: readonly Point[]; readonly doubtedFromMs: number | null };

/**
 * The offsets from the last jump on; all of them where there was none. `line` was fitted before the newest came in.
 * Offsets are measured too high by up to a step of the audio clock, so a jump up only shows in several of them: at once
 * when it is longer than a step, within some seconds when it is shorter. A beat between timers and steps can look like
 * such a short one, so that is only suspected until readings close together bear it out.
 */
export function sinceJump(offsets: readonly Point[], line: Line | null, doubtedFromMs: number | null): SinceJump {
  const newest = offsets[offsets.length - 1];
  const oldest = offsets[0];
  const all = { offsets, doubtedFromMs: null };
  if (newest === undefined || oldest === undefined || line === null || offsets.length < 2) return all;
  const rise = newest.y - lineAt(line, newest.x);
  if (rise < -FALL_MS && newest.x - oldest.x >= FALL_FROM_MS) return { offsets: [newest], doubtedFromMs: null };
  const long = highRun(offsets, line);
  const jump = long < LEAST_RUN ? null : jumpIn(offsets.slice(-long), offsets.slice(0, -long), line);
  if (jump === null) return all;
  const fromMs = doubtedFromMs ?? newest.x;
  const isSure = jump.height > MOST_SPREAD_MS || newest.x - fromMs > LONG_DOUBT_MS;
  if (!isSure && !endsInBurst(offsets.slice(-jump.run))) return { offsets, doubtedFromMs: fromMs };
  // The oldest of them may have been read while the clock still stood, and would be too low for the time after.
  return { offsets: offsets.slice(1 - jump.run), doubtedFromMs: null };
}

/** Whether the newest of the first `count` were read so close together that the lowest of them is near the truth. */
export function endsInBurst(offsets: readonly Point[], count = offsets.length): boolean {
  const burst = offsets.slice(Math.max(0, count - BURST), count);
  return burst.length === BURST && burst.every(({ x }, at) => x - (burst[at - 1]?.x ?? x) <= BURST_GAP_MS);
}

/** How many of the newest offsets lie clearly above the line, without a break; never all of them. */
function highRun(offsets: readonly Point[], line: Line): number {
  const newestX = offsets[offsets.length - 1]?.x ?? 0;
  const isHigh = (point: Point | undefined) =>
    point !== undefined && point.x >= newestX - RUN_LOOKBACK_MS && point.y - lineAt(line, point.x) > RISE_MS;
  let run = 0;
  while (run < offsets.length - 1 && isHigh(offsets[offsets.length - 1 - run])) run += 1;
  return run;
}

/** How many of the newest offsets lie behind it, and the least height of them over the line before, in ms. */
type Jump = { readonly run: number; readonly height: number };

/**
 * How many of the newest in `high` show a jump against what was `before`, and by how much, or null: some lie beyond any step, and all above
 * a height that they would, being spread evenly, exceed with the chance (1 - height / spread)^run only. A slow beat
 * between timers and steps makes long runs too, but nothing beyond a step.
 */
function jumpIn(high: readonly Point[], before: readonly Point[], line: Line): Jump | null {
  const usual = usualSpread(before) ?? { line, spread: MOST_SPREAD_MS };
  const newestX = high[high.length - 1]?.x ?? 0;
  let least = Number.POSITIVE_INFINITY;
  let beyond = 0;
  for (let run = 1; run <= high.length; run += 1) {
    const point = high[high.length - run];
    if (point === undefined) return null;
    const height = point.y - lineAt(usual.line, point.x);
    least = Math.min(least, height);
    if (height > BEYOND * usual.spread) beyond += 1;
    if (run < LEAST_RUN || newestX - point.x < LEAST_RUN_MS) continue;
    if (isSurprising(run, beyond, least / usual.spread)) return { run, height: least };
  }
  return null;
}

function isSurprising(run: number, beyond: number, leastShare: number): boolean {
  const surprise = -run * Math.log(1 - Math.min(Math.max(0, leastShare), 0.999));
  return beyond >= Math.max(LEAST_BEYOND, run * LEAST_BEYOND_SHARE) && surprise > SURPRISE;
}

/** The line under the last offsets alone, whose slope may not be known otherwise, and how wide they lie above it, in ms. */
function usualSpread(offsets: readonly Point[]): { readonly line: Line; readonly spread: number } | null {
  const fromX = (offsets[offsets.length - 1]?.x ?? 0) - LOOKBACK_MS;
  const late = offsets.filter(({ x }) => x > fromX);
  const line = lowerLine(late, MAX_SLOPE);
  if (line === null || late.length < SPREAD_FROM) return null;
  const heights = late.map(({ x, y }) => y - lineAt(line, x)).sort((a, b) => a - b);
  const usual = heights[Math.floor(heights.length * USUAL)] ?? 0;
  return { line, spread: Math.min(MOST_SPREAD_MS, Math.max(LEAST_SPREAD_MS, usual / USUAL)) };
}
