import { expect } from 'vitest';
import type { ClassState, Status } from '../../src/class-run/class-state.ts';
import type { Asked, Refusal } from '../../src/class-run/marks.ts';
import { positionAt } from '../../src/class-run/position.ts';
import { readyState } from '../../src/class-run/replay.ts';
import { step } from '../../src/class-run/step.ts';
import type { Entry, Plan } from '../../src/plan/plan.ts';
import { compile } from '../../src/running-order/compile.ts';
import { aBlock, anEntry, aPlan, SMALL_LIBRARY } from './small-plan.ts';

export const SEEN = { monoMs: 0, wallMs: 0, life: 1 };
export const CARRY_ON: Asked = { kind: 'carryOn', countInMs: 0 };
export const PAUSE: Asked = { kind: 'pause', cause: 'asked' };
export const LOOK: Asked = { kind: 'look' };
export const FINISH: Asked = { kind: 'finishEarly' };
export const GAP: Asked = { kind: 'askAboutGap', gapMs: 900_000 };
export const RAN_ON: Asked = { kind: 'ranOn' };

/** What one intent does, asked at an instant in seconds of the class clock. */
export const press = (state: ClassState, seconds: number, asked: Asked) =>
  step(state, { ...asked, atMs: Math.round(seconds * 1000), seen: SEEN });

/** The marks of one intent as `what@second`; of a change, why. */
export const marks = (state: ClassState, seconds: number, asked: Asked): string[] =>
  press(state, seconds, asked).marks.map(
    (mark) => `${mark.kind === 'changed' ? mark.why : mark.kind}@${mark.atMs / 1000}`,
  );

/** Why an intent is refused; null when it is taken. */
export const refusal = (state: ClassState, seconds: number, asked: Asked): Refusal | null =>
  press(state, seconds, asked).refused;

/** The state after an intent that must be taken. */
export function taken(state: ClassState, seconds: number, asked: Asked): ClassState {
  const { state: next, refused } = press(state, seconds, asked);
  expect(refused).toBeNull();
  return next;
}

/** A class not begun. */
export const ready = (plan: Plan): ClassState => readyState(compile(plan, SMALL_LIBRARY));
/** A class begun at 0. */
export const started = (plan: Plan): ClassState => taken(ready(plan), 0, { kind: 'start' });

/** A class of one block, one round, that starts with work at once. */
export const classOf = (...entries: Entry[]): ClassState => started(aPlan([aBlock(entries)], { countInSeconds: 0 }));

export const statusAt = (state: ClassState, seconds: number): Status => positionAt(state, seconds * 1000).status;
const spanAt = (state: ClassState, seconds: number): number => positionAt(state, seconds * 1000).span?.id ?? -1;

/** What is current as `kind move side`, and the seconds left of it. */
export function sight(state: ClassState, seconds: number): string {
  const { span, leftMs } = positionAt(state, seconds * 1000);
  return span === null ? 'nothing' : `${nameOf(span)} ${leftMs / 1000}`;
}

/** The live list as `kind move seconds`; spans cut to nothing are left out. */
export const list = (state: ClassState): string[] =>
  state.live.filter((span) => span.lengthMs > 0).map((span) => `${nameOf(span)} ${span.lengthMs / 1000}`);

function nameOf({ kind, doing: [one] }: ClassState['live'][number]): string {
  const side = one === undefined || one.side === 'both' ? '' : ` ${one.side}`;
  return one === undefined ? kind : `${kind} ${one.moveId}${side}`;
}

/** A press on what is current at that second, as are the next two. */
export const next = (state: ClassState, seconds: number): Asked => ({ kind: 'nextMove', span: spanAt(state, seconds) });
export const back = (state: ClassState, seconds: number, countInMs = 0): Asked => ({
  kind: 'goBackOne',
  span: spanAt(state, seconds),
  countInMs,
});
export const tenMore = (state: ClassState, seconds: number): Asked => ({
  kind: 'give',
  span: spanAt(state, seconds),
  byMs: 10_000,
});
export const drop = (entryId: string): Asked => ({ kind: 'drop', entryId });
export const trim = (finishAtSeconds: number, ...order: string[]): Asked => ({
  kind: 'trimTo',
  finishAtMs: finishAtSeconds * 1000,
  order,
});

/** 30 s of a move with a changeover into it. */
export const changing = (id: string, seconds: number): Entry => anEntry(id, { changeoverSeconds: seconds });
/** Given, skipped and trimmed, in seconds. */
export const books = ({ books: { givenMs, skippedMs, trimmedMs } }: ClassState): readonly number[] =>
  [givenMs, skippedMs, trimmedMs].map((ms) => ms / 1000);
