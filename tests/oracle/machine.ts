import { cuesBetween } from '../../src/class-run/cues.ts';
import { finishAt, positionAt } from '../../src/class-run/position.ts';
import { replay } from '../../src/class-run/replay.ts';
import { step } from '../../src/class-run/step.ts';
import { compile } from '../../src/running-order/compile.ts';

/** All of the machine that a walk looks at. A mutant is one of these with one fault in it. */
export type Machine = {
  readonly compile: typeof compile;
  readonly step: typeof step;
  readonly replay: typeof replay;
  readonly positionAt: typeof positionAt;
  readonly finishAt: typeof finishAt;
  readonly cuesBetween: typeof cuesBetween;
};

/** The machine as it is shipped. */
export const realMachine: Machine = { compile, step, replay, positionAt, finishAt, cuesBetween };
