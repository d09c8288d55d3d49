import type { MoveLibrary } from '../moves/move.ts';
import { isWork, type Span } from '../running-order/span.ts';
import type { ClassState } from './class-state.ts';
import { comingWork, followerOf, isOtherSide, needsEarlyWord, turnAfter } from './coming.ts';
import type { Cue, CueKind } from './cue.ts';
import { LEAST_GAP_MS, withoutCollisions } from './cue-priority.ts';
import { hasTime } from './now.ts';

const COUNT_MS = 3000;
const NAME_BEFORE_MS = 8000;
const NAME_DONE_MS = 4000;
const OTHER_SIDE_BEFORE_MS = 5000;
const HEADS_UP_MS = 8000;
const HEADS_UP_EARLY_MS = 15_000;
const HALFWAY_FROM_MS = 45_000;
/** A name that is due with a sound comes this much later. */
const AFTER_SOUND_MS = 700;

/**
 * All cues due in (fromRunMs, toRunMs], in order of their instants. Windows that join lose and repeat nothing: a cue is
 * found from the live list alone. Nothing is cued beyond an open span, whose end is not known. Common practice for all
 * lead times.
 */
export function cuesBetween(
  state: ClassState,
  library: MoveLibrary,
  fromRunMs: number,
  toRunMs: number,
): readonly Cue[] {
  const found: Cue[] = [];
  for (const [index, span] of state.live.entries()) {
    const startMs = state.startsMs[index] ?? 0;
    if (startMs > toRunMs + LEAST_GAP_MS) break;
    if (startMs + span.lengthMs >= fromRunMs - LEAST_GAP_MS || span.open) found.push(...cuesOf(state, library, index));
    if (span.open) break;
  }
  const heard = withoutCollisions(found.sort((a, b) => a.dueRunMs - b.dueRunMs));
  return heard.filter((cue) => cue.dueRunMs > fromRunMs && cue.dueRunMs <= toRunMs);
}

type Place = { readonly state: ClassState; readonly library: MoveLibrary; readonly index: number; readonly span: Span };

/** Every cue that belongs to one live span: from its start to its end, both included. */
function cuesOf(state: ClassState, library: MoveLibrary, index: number): readonly Cue[] {
  const span = state.live[index];
  if (span === undefined || span.cueStyle === 'silent' || !hasTime(span)) return [];
  const place = { state, library, index, span };
  const begin = startCue(place);
  if (span.open) return begin;
  const heads = headsUp(place);
  return [...begin, ...heads, ...name(place, heads), ...halfway(place), ...ticks(place), ...endCue(place)];
}

function cueAt({ state, span, index }: Place, kind: CueKind, offsetMs: number, count = 0): Cue {
  const style = span.cueStyle === 'soft' ? 'soft' : 'sharp';
  const dueRunMs = (state.startsMs[index] ?? 0) + offsetMs;
  return { key: `${span.id}:${kind}:${count}`, kind, style, span: span.id, dueRunMs, says: null };
}

function startCue(place: Place): readonly Cue[] {
  const before = lastWithTime(place.state, place.index);
  if (!isWork(place.span) || (before !== undefined && isOtherSide(before, place.span))) return [];
  // What was left within the least gap (presses in a row) keeps no start: it would drown the start of where they led.
  return hasRoom(place.span) ? [cueAt(place, 'start', 0)] : [];
}

function hasRoom(span: Span): boolean {
  return span.open || span.lengthMs >= LEAST_GAP_MS;
}

function lastWithTime(state: ClassState, index: number): Span | undefined {
  for (let at = index - 1; at >= 0; at -= 1) {
    const span = state.live[at];
    if (span !== undefined && hasTime(span)) return span;
  }
  return undefined;
}

/** Three ticks into every end of work and into every start of work, as far as the span reaches back. */
function ticks(place: Place): readonly Cue[] {
  const { state, span, index } = place;
  const next = state.live[followerOf(state, index)];
  const counts = isWork(span) || (next !== undefined && isWork(next));
  if (span.cueStyle !== 'sharp' || !counts || isCutShort(span, next)) return [];
  return [3, 2, 1]
    .filter((count) => count * 1000 <= Math.min(span.lengthMs, COUNT_MS))
    .map((count) => cueAt(place, 'tick', span.lengthMs - count * 1000, count));
}

/** A piece of work that a pause ended: the same work goes on after a count-in, so nothing ends here. */
function isCutShort(span: Span, next: Span | undefined): boolean {
  return isWork(span) && next !== undefined && next.kind === 'countIn' && next.of === span.of;
}

/** What the end of a span says: the other side, up, down, something else comes, the class is done. */
function endCue(place: Place): readonly Cue[] {
  const kind = endKind(place);
  return kind === null ? [] : [cueAt(place, kind, place.span.lengthMs)];
}

function endKind({ state, library, span, index }: Place): CueKind | null {
  const next = state.live[followerOf(state, index)];
  if (next === undefined) return 'finish';
  if (!isWork(span) || isCutShort(span, next)) return null;
  if (isOtherSide(span, next)) return 'otherSide';
  if (isWork(next)) return null;
  return turnAfter(state, index, library) ?? 'change';
}

function halfway(place: Place): readonly Cue[] {
  const { span } = place;
  const wholeMs = span.doneMs + span.lengthMs;
  const atMs = wholeMs / 2 - span.doneMs;
  if (!isWork(span) || span.pair !== null || wholeMs < HALFWAY_FROM_MS || atMs <= 0) return [];
  return [cueAt(place, 'halfway', Math.round(atMs))];
}

/** Before a change that needs getting ready for; going straight in, up or down takes its place. */
function headsUp(place: Place): readonly Cue[] {
  const { state, library, span, index } = place;
  const next = state.live[followerOf(state, index)];
  if (!isWork(span) || next === undefined || isOtherSide(span, next) || isCutShort(span, next)) return [];
  const isEarly = needsEarlyWord(state, index, library);
  const turn = isWork(next) ? turnAfter(state, index, library) : null;
  if (!isEarly && turn === null) return [];
  const atMs = Math.max(span.lengthMs - (isEarly ? HEADS_UP_EARLY_MS : HEADS_UP_MS), 2000);
  return atMs > span.lengthMs - NAME_DONE_MS ? [] : [cueAt(place, turn ?? 'headsUp', atMs)];
}

/** The coming move's name, 8 s before its work where the way into it is that long, else 8 s before the present work ends. */
function name(place: Place, heads: readonly Cue[]): readonly Cue[] {
  const { state, span, index } = place;
  const next = followerOf(state, index);
  const follower = state.live[next];
  if (follower === undefined || isCutShort(span, follower) || span.kind === 'sideChange') return [];
  const spanIndex = isWork(follower) ? next : comingWork(state, next);
  const when = spanIndex === -1 ? null : nameTimes(place, follower, spanIndex);
  if (when === null) return [];
  const cue = cueAt(place, 'name', when.atMs);
  const isWithSound = heads.some((sound) => sound.dueRunMs === cue.dueRunMs);
  const dueRunMs = cue.dueRunMs + (isWithSound ? AFTER_SOUND_MS : 0);
  const doneByRunMs = (state.startsMs[index] ?? 0) + when.doneMs;
  return dueRunMs >= doneByRunMs ? [] : [{ ...cue, dueRunMs, says: { spanIndex, doneByRunMs } }];
}

/** When in this span the name is said and done, ms from its start; null when it is said elsewhere. */
function nameTimes(
  { state, span, index }: Place,
  follower: Span,
  spanIndex: number,
): { atMs: number; doneMs: number } | null {
  const isUnknown = state.firstOpen > index && state.firstOpen < spanIndex;
  const wayInMs = isUnknown ? 0 : (state.startsMs[spanIndex] ?? 0) - (state.startsMs[index] ?? 0) - span.lengthMs;
  if (!isWork(span)) {
    const atMs = span.lengthMs + wayInMs - NAME_BEFORE_MS;
    const isHere = !isUnknown && atMs >= 0 && atMs < span.lengthMs;
    return isHere ? { atMs, doneMs: atMs + NAME_BEFORE_MS - NAME_DONE_MS } : null;
  }
  if (wayInMs >= NAME_BEFORE_MS) return null;
  const [beforeMs, doneMs] = isOtherSide(span, follower)
    ? [OTHER_SIDE_BEFORE_MS, span.lengthMs - COUNT_MS]
    : [NAME_BEFORE_MS, span.lengthMs - NAME_DONE_MS];
  return { atMs: Math.max(span.lengthMs - beforeMs, 1000), doneMs };
}
