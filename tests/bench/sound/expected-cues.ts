import type { Cue } from '../../../src/class-run/cue.ts';
import { cuesBetween } from '../../../src/class-run/cues.ts';
import { readyState } from '../../../src/class-run/replay.ts';
import { libraryOf } from '../../../src/moves/library.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import { compile } from '../../../src/running-order/compile.ts';
import { benchMoves } from './bench-classes.ts';

/** Every sound of a plan's class when nobody touches it, by run clock; the names, which are spoken, left out. */
export function expectedCues(plan: Plan): readonly Cue[] {
  const library = libraryOf(benchMoves);
  const state = readyState(compile(plan, library));
  return cuesBetween(state, library, -1, state.endMs).filter(({ kind }) => kind !== 'name');
}

/** Length of that class. */
export function lengthMsOf(plan: Plan): number {
  return compile(plan, libraryOf(benchMoves)).plannedMs;
}
