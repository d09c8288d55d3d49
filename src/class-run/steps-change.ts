import type { EntryId } from '../plan/plan.ts';
import { isWork, type Span } from '../running-order/span.ts';
import type { Account, Edit, Happening, Why } from './marks.ts';
import {
  countInInto,
  cutNow,
  cutTo,
  type Decision,
  endIfAll,
  hasTime,
  isLeadIn,
  isOf,
  type Now,
  nextIndex,
  resized,
} from './now.ts';
import { finishAt } from './position.ts';
import { leaveWait } from './steps-stand.ts';

/** Nothing is added once the last three seconds of a span are being counted. */
const COUNT_MS = 3000;

function isFresh({ at }: Now, seen: number): boolean {
  return at.span?.id === seen;
}

function canChange({ at }: Now): boolean {
  return at.status === 'running' || at.status === 'waiting' || at.status === 'paused';
}

function changed(why: Why, edits: readonly Edit[], entryId: EntryId | null = null): Happening {
  return { kind: 'changed', why, entryId, edits };
}

/** From work to the way into the next move; from a lead-in straight to what it leads to. */
export function stepNext(now: Now, seen: number): Decision {
  const { state, at } = now;
  if (!canChange(now) || at.span === null) return { refused: 'notNow' };
  if (!isFresh(now, seen)) return { refused: 'movedOn' };
  if (at.span.kind === 'wait') return leaveWait(now, 0);
  const current = at.span;
  const target = isLeadIn(current)
    ? nextIndex(state, at.index, (span) => !isLeadIn(span))
    : nextIndex(state, at.index, (span) => !isOf(span, current));
  const edits = cutTo(now, target === -1 ? state.live.length : target, 'skipped');
  return endIfAll(now, changed('skip', edits), target === -1);
}

/** Runs the move before this one again, then this one, whole, from the running order. */
export function stepBack(now: Now, seen: number, countInMs: number): Decision {
  const { state, at } = now;
  if (!canChange(now) || at.span === null) return { refused: 'notNow' };
  if (!isFresh(now, seen)) return { refused: 'movedOn' };
  const copies = copiesFrom(now, at.span);
  const [first] = copies;
  if (first === undefined) return { refused: 'nothingBefore' };
  let id = state.nextSpanId;
  const count = countInMs > 0 ? [countInInto(first, id++, Math.round(countInMs))] : [];
  const spans = [...count, ...copies.map((span) => ({ ...span, id: id++ }))];
  const edits: readonly Edit[] = [
    ...cutTo(now, endOf(now, at.span), 'given'),
    { do: 'insert', after: at.span.id, spans, account: 'given' },
  ];
  return { happened: [changed('back', edits)] };
}

/** Index just after the live spans of the present occurrence, over what was cut to nothing; a span of no entry is one by itself. */
function endOf({ state, at }: Now, here: Span): number {
  if (here.entryId === null) return at.index + 1;
  const isPart = (span: Span) => isOf(span, here) || !hasTime(span);
  const end = state.live.findIndex((span, index) => index > at.index && !isPart(span));
  return end === -1 ? state.live.length : end;
}

/** The running order from the previous occurrence's first work to the end of the present one, without what was dropped. */
function copiesFrom({ state }: Now, here: Span): readonly Span[] {
  const { spans } = state.order;
  const mine =
    here.entryId === null ? spans.filter((span) => span.id === here.of) : spans.filter((span) => isOf(span, here));
  const isDropped = (span: Span) =>
    span.entryId !== null && span.kind !== 'breather' && state.dropped.includes(span.entryId);
  const usable = spans.filter((span) => isWork(span) && !isDropped(span));
  const before = usable.filter((span) => span.id < (mine[0]?.id ?? 0)).at(-1);
  const own = isLeadIn(here) ? undefined : usable.find((span) => isOf(span, here));
  const from = before ?? own;
  if (from === undefined) return [];
  const firstId = usable.find((span) => isOf(span, from))?.id ?? 0;
  return spans.slice(firstId, (mine.at(-1)?.id ?? 0) + 1).filter((span) => !isDropped(span));
}

/** Adds time to the present work, and to its other side where that is still to come. */
export function stepGive(now: Now, seen: number, byMs: number): Decision {
  const { state, at } = now;
  const isRunning = at.status === 'running' || at.status === 'paused';
  if (!isRunning || at.span === null) return { refused: 'notNow' };
  if (!isFresh(now, seen)) return { refused: 'movedOn' };
  const current = at.span;
  if (!isWork(current) || current.open || byMs <= 0) return { refused: 'notNow' };
  if (at.leftMs <= COUNT_MS) return { refused: 'begun' };
  const addMs = Math.round(byMs);
  const other = nextIndex(state, at.index, (span) => isWork(span) && span.of === current.pair);
  const others = [state.live[other]].filter((span) => span !== undefined);
  const longer = [current, ...others].flatMap((span) => resized(span, span.lengthMs + addMs, 'given'));
  return { happened: [changed('give', [...longer, ...slackEaten(now, current, addMs)])] };
}

/** On the minute the slack after the work is eaten first. */
function slackEaten({ state, at }: Now, current: Span, addMs: number): readonly Edit[] {
  const slack = state.live[nextIndex(state, at.index, (span) => isOf(span, current))];
  return slack?.gives === true ? resized(slack, Math.max(0, slack.lengthMs - addMs), 'given') : [];
}

/** Leaves an entry out from now on, in every round. Breathers stay as long as they are. */
export function stepDrop(now: Now, entryId: EntryId): Decision {
  const { state, at } = now;
  if (!canChange(now)) return { refused: 'notNow' };
  const edits = state.live.flatMap((span, index) => {
    if (index < at.index || span.entryId !== entryId || span.kind === 'breather') return [];
    return index === at.index ? cutNow(span, at.intoMs, 'skipped') : resized(span, 0, 'skipped');
  });
  if (edits.length === 0) return { refused: 'notFound' };
  const isCut = at.span?.entryId === entryId && at.span.kind !== 'breather';
  const goesOn = nextIndex(state, at.index, (span) => span.entryId !== entryId || span.kind === 'breather') !== -1;
  return endIfAll(now, changed('drop', edits, entryId), isCut && !goesOn);
}

/** Leaves out entries that have not begun, in the order given, until the class ends by `finishAtMs` on the class clock. */
export function stepTrim(now: Now, finishAtMs: number, order: readonly EntryId[]): Decision {
  if (!canChange(now)) return { refused: 'notNow' };
  let overMs = finishAt(now.state, now.atMs) - finishAtMs;
  const edits: Edit[] = [];
  for (const entryId of order) {
    if (overMs <= 0) break;
    for (const span of spansToCome(now, entryId)) {
      edits.push(...resized(span, 0, 'trimmed' satisfies Account));
      overMs -= span.lengthMs;
    }
  }
  return edits.length === 0 ? { refused: 'nothingToTrim' } : { happened: [changed('trim', edits)] };
}

/** An entry that has begun is finished on both sides; its later rounds can go. */
function spansToCome({ state, at }: Now, entryId: EntryId): readonly Span[] {
  const begun = at.span !== null && (isWork(at.span) || at.span.kind === 'sideChange') ? at.span : null;
  return state.live.filter((span, index) => {
    const isAhead = index > at.index && !(begun !== null && isOf(span, begun));
    return isAhead && hasTime(span) && span.entryId === entryId && span.kind !== 'breather';
  });
}
