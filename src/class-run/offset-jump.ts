import { type Line, lineAt, type Point } from './lower-line.ts';

/** The offsets lie above the line as wide as the steps of the audio clock: at least and at most this, in ms. */
const LEAST_SPREAD_MS = 4;
const MOST_SPREAD_MS = 60;
/** What has been seen for less than this says too little of how wide they lie, and nothing of the slope. */
const SPREAD_FROM_MS = 20_000;
/** A line known this long that is undercut by more than so much was wrong from there on: the audio clock leapt ahead. */
const FALL_MS = 5;
const FALL_FROM_MS = 20_000;
const RUN_LOOKBACK_MS = 10_000;
const RISE_MS = 2;
const LEAST_RUN = 3;
const LEAST_RUN_MS = 60;
/** A run of high offsets is a jump when chance brings it less often than e^-18, about once in 60 million readings. */
const SURPRISE = 18;
const COVERED = 0.8;
const BEYOND = 1.1;

/**
 * The offsets from the last jump on; all of them where there was none. `line` was fitted before the newest came in.
 * Offsets are measured too high by up to a step of the audio clock, so a jump up only shows in several of them.
 */
export function sinceJump(offsets: readonly Point[], line: Line | null): readonly Point[] {
  const newest = offsets[offsets.length - 1];
  const oldest = offsets[0];
  if (newest === undefined || oldest === undefined || line === null || offsets.length < 2) return offsets;
  const rise = newest.y - lineAt(line, newest.x);
  if (rise < -FALL_MS && newest.x - oldest.x >= FALL_FROM_MS) return [newest];
  if (rise <= RISE_MS) return offsets;
  const run = surprisingRun(offsets, line);
  // The oldest of them may have been read while the clock still stood, and would be too low for the time after.
  return run === 0 ? offsets : offsets.slice(1 - run);
}

/** Length of the newest run of offsets that all lie so high above the line that chance does not explain it, or 0. */
function surprisingRun(offsets: readonly Point[], line: Line): number {
  const newest = offsets[offsets.length - 1];
  const spreads = spreadsUpTo(offsets, line);
  let least = Number.POSITIVE_INFINITY;
  let most = 0;
  for (let run = 1; newest !== undefined && run < offsets.length; run += 1) {
    const point = offsets[offsets.length - run];
    if (point === undefined || point.x < newest.x - RUN_LOOKBACK_MS) return 0;
    const height = point.y - lineAt(line, point.x);
    least = Math.min(least, height);
    most = Math.max(most, height);
    if (least <= RISE_MS) return 0;
    const isLong = run >= LEAST_RUN && newest.x - point.x >= LEAST_RUN_MS;
    const spread = spreads[offsets.length - run - 1] ?? MOST_SPREAD_MS;
    if (isLong && isJump(run, least, most, spread)) return run;
  }
  return 0;
}

/**
 * Beyond anything seen before; or, with offsets spread evenly, `run` of them all above `least` with the chance
 * (1 - least / spread)^run. That only counts for readings that met nearly every phase of a step, else a slow beat
 * between timers and steps would pass for a jump.
 */
function isJump(run: number, least: number, most: number, spread: number): boolean {
  if (least > BEYOND * spread) return true;
  const share = Math.min(least / spread, 1 - Number.EPSILON);
  return most - least >= COVERED * spread && -run * Math.log(1 - share) > SURPRISE;
}

/** For each offset the height of the highest up to there. Readings that came late count as the widest step there is. */
function spreadsUpTo(offsets: readonly Point[], line: Line): readonly number[] {
  const firstX = offsets[0]?.x ?? 0;
  let highest = LEAST_SPREAD_MS;
  return offsets.map((point) => {
    highest = Math.min(MOST_SPREAD_MS, Math.max(highest, point.y - lineAt(line, point.x)));
    return point.x - firstX < SPREAD_FROM_MS ? MOST_SPREAD_MS : highest;
  });
}
