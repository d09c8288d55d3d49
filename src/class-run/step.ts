import type { ClassState, Step } from './class-state.ts';
import type { Happening, Intent, Mark } from './marks.ts';
import type { Decision } from './now.ts';
import { isOver, positionAt } from './position.ts';
import { replayOn } from './replay.ts';
import { stepBack, stepDrop, stepGive, stepNext, stepTrim } from './steps-change.ts';
import { stepAbandon, stepCarryOn, stepFinishEarly, stepPause } from './steps-stand.ts';

/**
 * Applies one intent. Never throws for anything a person can do; an instant before the last mark is lifted to it. The
 * end is written down as soon as it is noticed, also when the intent itself comes too late and is refused.
 */
export function step(state: ClassState, intent: Intent): Step {
  const atMs = Math.max(Math.round(intent.atMs), state.lastMs);
  if (isOver(state, atMs)) {
    const ended = write(state, intent, finishAtMs(state), [{ kind: 'finished' }]);
    return { ...ended, refused: intent.kind === 'look' ? null : 'notNow' };
  }
  const decision = decide(state, intent, atMs);
  if ('refused' in decision) return { state, marks: [], refused: decision.refused };
  const first = write(state, intent, markAt(state, intent, atMs), decision.happened);
  if (!isOver(first.state, atMs)) return first;
  const last = write(first.state, intent, finishAtMs(first.state), [{ kind: 'finished' }]);
  return { state: last.state, marks: [...first.marks, ...last.marks], refused: null };
}

/** The class clock begins at Start. A class that ran on past its end unseen finished on time, not when somebody said so. */
function markAt(state: ClassState, intent: Intent, atMs: number): number {
  if (intent.kind === 'start') return 0;
  return intent.kind === 'ranOn' && state.firstOpen === -1 ? Math.min(atMs, finishAtMs(state)) : atMs;
}

function finishAtMs(state: ClassState): number {
  return Math.max(state.lastMs, state.endMs + state.pausedMs);
}

function decide(state: ClassState, intent: Intent, atMs: number): Decision {
  const { kind } = state.phase;
  if (intent.kind === 'look') return { happened: [] };
  if (kind === 'ready' && intent.kind === 'start') return { happened: [{ kind: 'started' }] };
  if (kind === 'ready' && intent.kind === 'abandon') return stepAbandon();
  if (kind !== 'live') return { refused: 'notNow' };
  return decideLive(state, intent, atMs);
}

function decideLive(state: ClassState, intent: Intent, atMs: number): Decision {
  const now = { state, atMs, at: positionAt(state, atMs) };
  switch (intent.kind) {
    case 'pause':
      return stepPause(now, intent.cause);
    case 'carryOn':
      return stepCarryOn(now, intent.countInMs);
    case 'nextMove':
      return stepNext(now, intent.span);
    case 'goBackOne':
      return stepBack(now, intent.span, intent.countInMs);
    case 'give':
      return stepGive(now, intent.span, intent.byMs);
    case 'drop':
      return stepDrop(now, intent.entryId);
    case 'trimTo':
      return stepTrim(now, intent.finishAtMs, intent.order);
    case 'finishEarly':
      return stepFinishEarly(now);
    case 'abandon':
      return stepAbandon();
    case 'show':
      return show(state, intent);
    default:
      return decideClock(state, intent, atMs, now.at.status);
  }
}

function show(state: ClassState, intent: Extract<Intent, { kind: 'show' }>): Decision {
  if ((state.shown[intent.entryId] ?? 0) === intent.level) return { happened: [] };
  return { happened: [{ kind: 'showed', entryId: intent.entryId, level: intent.level }] };
}

/** What the clock rule found, and the answers to what it would not decide. */
function decideClock(state: ClassState, intent: Intent, atMs: number, status: string): Decision {
  switch (intent.kind) {
    case 'noteAway':
      return { happened: [{ kind: 'away', byMs: intent.byMs }] };
    case 'noteWallMoved':
      return { happened: [{ kind: 'wallMoved', byMs: intent.byMs }] };
    case 'askAboutGap':
      return isTimed(state, status, atMs)
        ? { happened: [{ kind: 'asked', gapMs: intent.gapMs }] }
        : { refused: 'notNow' };
    case 'ranOn':
      return status === 'asking' ? { happened: [{ kind: 'ranOn' }] } : { refused: 'notNow' };
    case 'goBackToStop':
      return goBackToStop(state, intent.stoppedAtMs, atMs, status);
    default:
      return { refused: 'notNow' };
  }
}

/** The class moves by its clock: at a gate it stands anyway, and a gap changes nothing. */
function isTimed(state: ClassState, status: string, atMs: number): boolean {
  return status === 'running' || (status === 'waiting' && positionAt(state, atMs).span?.open === false);
}

function goBackToStop(state: ClassState, stoppedAtMs: number, atMs: number, status: string): Decision {
  const isOpen = status === 'running' || status === 'waiting';
  if (!isOpen || stoppedAtMs < state.lastEditMs || stoppedAtMs > atMs) return { refused: 'notNow' };
  return { happened: [{ kind: 'stood', byMs: Math.round(atMs - stoppedAtMs) }] };
}

function write(state: ClassState, intent: Intent, atMs: number, happened: readonly Happening[]): Step {
  const marks: Mark[] = happened.map((what, index) => ({
    seq: state.nextSeq + index,
    atMs,
    seen: intent.seen,
    ...what,
  }));
  const replayed = replayOn(state, marks);
  // The rules only write what replay takes; anything else is a fault in them and must not be kept.
  if (!replayed.ok)
    throw new Error(`step: ${intent.kind} wrote a mark that replay refuses (${marks[replayed.seq]?.kind})`);
  return { state: replayed.state, marks, refused: null };
}
