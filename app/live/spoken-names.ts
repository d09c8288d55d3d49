import type { ClassState } from '../../src/class-run/class-state.ts';
import type { Cue } from '../../src/class-run/cue.ts';
import { figureOf, levelOf } from '../../src/class-run/hall-figures.ts';
import type { FigureView } from '../../src/class-run/hall-values.ts';
import { runAt } from '../../src/class-run/position.ts';
import type { MoveLibrary } from '../../src/moves/move.ts';

/** A name this late is not begun any more; it would run into the count. */
const LATEST_MS = 2000;

/** Remembers up to which run instant names were said, so that each is said once in a page life. */
export type SpokenNames = {
  /** The moves whose names are due since the last call. */
  readonly due: (state: ClassState, cues: readonly Cue[], atMs: number) => readonly FigureView[];
};

/** Names by the cue times of the machine; a jump of the run clock back (go back to where it stopped) says them again. */
export function spokenNames(library: MoveLibrary): SpokenNames {
  let saidUntilMs = 0;
  return {
    due: (state, cues, atMs) => {
      const runMs = runAt(state, atMs);
      const fromMs = Math.max(Math.min(saidUntilMs, runMs), runMs - LATEST_MS);
      saidUntilMs = runMs;
      return cues.flatMap(({ says, dueRunMs }) => {
        const isDue = says !== null && dueRunMs > fromMs && dueRunMs <= runMs && runMs < says.doneByRunMs;
        const span = isDue ? state.live[says.spanIndex] : undefined;
        const figure = figureOf(span, library, levelOf(state, span));
        return figure === null ? [] : [figure];
      });
    },
  };
}
