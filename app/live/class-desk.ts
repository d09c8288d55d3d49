import type { ClassState } from '../../src/class-run/class-state.ts';
import type { Asked, Mark, Refusal } from '../../src/class-run/marks.ts';
import { step } from '../../src/class-run/step.ts';
import type { Clocks } from '../../src/ports/clocks.ts';
import type { ClassClock } from './class-clock.ts';
import type { Keeper } from './live-contract.ts';

/** The state of one class and the only way to change it. */
export type ClassDesk = {
  readonly state: () => ClassState;
  /** True from Start to the end. */
  readonly isLive: () => boolean;
  readonly isStanding: () => boolean;
  /** Class time now, never before what was last shown. */
  readonly nowMs: () => number;
  /** What is shown from now on is of `atMs`: no later ask is dated before it. */
  readonly noteLook: (atMs: number) => void;
  /** Steps the machine and hands its marks to the keeper; gives back why nothing changed, or null. */
  readonly intend: (asked: Asked, atMs: number) => Refusal | null;
};

export function classDesk(first: ClassState, clock: ClassClock, clocks: Clocks, keeper: Keeper): ClassDesk {
  let state = first;
  let lastLookMs = first.lastMs;

  const keep = (marks: readonly Mark[]): void => {
    if (marks.some((mark) => mark.kind === 'started')) keeper.begin({ startedWallMs: clocks.wallMs() });
    if (marks.length > 0) keeper.add(marks);
    const { phase } = state;
    if (phase.kind === 'finished' || phase.kind === 'abandoned') keeper.end(phase.kind, clocks.wallMs());
  };

  return {
    state: () => state,
    isLive: () => state.phase.kind === 'live',
    isStanding: () => state.phase.kind === 'live' && state.phase.standing !== null,
    nowMs: () => (state.phase.kind === 'live' ? Math.max(clock.nowMs(), lastLookMs) : state.lastMs),
    noteLook: (atMs) => {
      lastLookMs = Math.max(lastLookMs, atMs);
    },
    intend: (asked, atMs) => {
      const seen = { monoMs: clocks.monoMs(), wallMs: clocks.wallMs(), life: keeper.life() };
      const done = step(state, { ...asked, atMs: Math.max(atMs, lastLookMs), seen });
      if (done.marks.length === 0) return done.refused;
      state = done.state;
      if (asked.kind === 'start') clock.set(0);
      keep(done.marks);
      return done.refused;
    },
  };
}
