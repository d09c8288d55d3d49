import type { ClassState } from '../../src/class-run/class-state.ts';
import type { Cue } from '../../src/class-run/cue.ts';
import { cuesBetween } from '../../src/class-run/cues.ts';
import { isOver, runAt } from '../../src/class-run/position.ts';
import type { MoveLibrary } from '../../src/moves/move.ts';
import type { WantedSound } from '../../src/ports/cue-line.ts';
import type { ClassClock } from './class-clock.ts';

/** Sound is queued at least this far ahead, so that a sleeping or busy page goes on sounding. */
export const HORIZON_MS = 4 * 60 * 1000;
/** A cue this late can still be told from the next one; later it is left out. */
const LATE_MS = 150;

/** True while the run clock runs: started, not standing, not over. */
export function runs(state: ClassState, atMs: number): boolean {
  return state.phase.kind === 'live' && state.phase.standing === null && !isOver(state, atMs);
}

/** The cues of the live class from just before now to the horizon, on the run clock; none while it stands. */
export function cuesAhead(state: ClassState, library: MoveLibrary, atMs: number): readonly Cue[] {
  if (!runs(state, atMs)) return [];
  const runMs = runAt(state, atMs);
  return cuesBetween(state, library, runMs - LATE_MS, runMs + horizonMs(state, runMs));
}

/** At least the present span and the change after it, and never under the horizon. */
function horizonMs(state: ClassState, runMs: number): number {
  const next = state.startsMs.find((startMs) => startMs > runMs) ?? state.endMs;
  return Math.max(HORIZON_MS, next - runMs + 10_000);
}

/** Cues as sounds wanted at instants of the page's clock. */
export function soundsOf(cues: readonly Cue[], state: ClassState, clock: ClassClock): readonly WantedSound[] {
  return cues.flatMap(({ key, kind, style, dueRunMs }) =>
    kind === 'name' ? [] : [{ key, kind, style, dueMonoMs: clock.monoAt(dueRunMs + state.pausedMs) }],
  );
}
