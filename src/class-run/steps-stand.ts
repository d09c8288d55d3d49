import { isWork, type Span } from '../running-order/span.ts';
import type { Edit, Happening } from './marks.ts';
import { countInInto, cutNow, cutTo, type Decision, endIfAll, hasTime, type Now, resized } from './now.ts';

/** The class stands from now; "someone's hurt" also takes over a pause that stands already. */
export function stepPause({ state, at }: Now, cause: 'asked' | 'hurt'): Decision {
  const standing = state.phase.kind === 'live' ? state.phase.standing : null;
  const isUpgrade = standing?.cause === 'asked' && cause === 'hurt';
  if (at.status !== 'running' && at.status !== 'waiting' && !isUpgrade) return { refused: 'notNow' };
  return { happened: [{ kind: 'paused', cause }] };
}

/** Goes on after a pause or an unanswered gap, or from a wait point, after a count-in where work follows. */
export function stepCarryOn(now: Now, countInMs: number): Decision {
  const { status } = now.at;
  if (status === 'waiting') return leaveWait(now, countInMs);
  if (status !== 'paused' && status !== 'asking') return { refused: 'notNow' };
  const edits = countInMs > 0 ? countInAgain(now, Math.round(countInMs)) : [];
  const counted: readonly Happening[] =
    edits.length > 0 ? [{ kind: 'changed', why: 'countIn', entryId: null, edits }] : [];
  return { happened: [{ kind: 'carriedOn' }, ...counted] };
}

function countInAgain({ state, at }: Now, countInMs: number): readonly Edit[] {
  const { span, intoMs, leftMs } = at;
  if (span === null || span.kind === 'wait') return [];
  if (!isWork(span)) return leftMs < countInMs ? resized(span, intoMs + countInMs, 'given') : [];
  const id = state.nextSpanId;
  const rest: Span = { ...span, id: id + 1, lengthMs: restMs(span, leftMs), doneMs: span.doneMs + intoMs };
  return [
    { do: 'resize', span: span.id, toMs: intoMs, account: 'given' },
    { do: 'insert', after: span.id, spans: [countInInto(span, id, countInMs), rest], account: 'given' },
  ];
}

/** Open work that has run past its plan still has something left to run. */
function restMs(span: Span, leftMs: number): number {
  return span.open ? Math.max(leftMs, 1000) : leftMs;
}

/** The present wait point ends now: kept shorter as skipped, longer as given. */
export function leaveWait(now: Now, countInMs: number): Decision {
  const { span, intoMs, index } = now.at;
  if (span === null) return { refused: 'notNow' };
  const follows = now.state.live.find((later, place) => place > index && hasTime(later));
  const edits = [...cutNow(span, intoMs, 'skipped'), ...countInAfter(now, span, follows, Math.round(countInMs))];
  return endIfAll(now, { kind: 'changed', why: 'wentOn', entryId: null, edits }, follows === undefined);
}

function countInAfter({ state }: Now, wait: Span, follows: Span | undefined, countInMs: number): readonly Edit[] {
  if (countInMs <= 0 || follows === undefined || !isWork(follows)) return [];
  const count = countInInto(follows, state.nextSpanId, countInMs);
  return [{ do: 'insert', after: wait.id, spans: [count], account: 'given' }];
}

/** Ends the class now; all that was to come is skipped. */
export function stepFinishEarly(now: Now): Decision {
  const edits = cutTo(now, now.state.live.length, 'skipped');
  const changed: readonly Happening[] =
    edits.length > 0 ? [{ kind: 'changed', why: 'finishEarly', entryId: null, edits }] : [];
  return { happened: [...changed, { kind: 'finished' }] };
}

/** Ends the class without counting it as done; nothing is resized. */
export function stepAbandon(): Decision {
  return { happened: [{ kind: 'abandoned' }] };
}
