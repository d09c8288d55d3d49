import type { EntryId } from '../plan/plan.ts';
import type { RunningOrder } from '../running-order/span.ts';
import type { ClassState, Phase, Standing } from './class-state.ts';
import { applyEdit, bookedMs, draftOf, type LiveDraft, layOut } from './live-list.ts';
import type { Happening, Level, Mark } from './marks.ts';

/** A class before Start: the running order as planned, nothing booked. */
export function readyState(order: RunningOrder): ClassState {
  const books = { plannedMs: order.plannedMs, givenMs: 0, skippedMs: 0, trimmedMs: 0 };
  return {
    order,
    live: order.spans,
    ...layOut(order.spans),
    pausedMs: 0,
    phase: { kind: 'ready' },
    books,
    dropped: [],
    shown: {},
    nextSeq: 0,
    nextSpanId: order.spans.length,
    lastMs: 0,
    lastEditMs: 0,
  };
}

export type Replayed =
  | { readonly ok: true; readonly state: ClassState }
  | { readonly ok: false; readonly reason: 'bentMark'; readonly seq: number };

/**
 * The state after `marks`, from the running order alone: arithmetic that knows no policy. A mark that cannot have
 * happened is refused as `bentMark` with its place in the list; nothing is thrown.
 */
export function replay(order: RunningOrder, marks: readonly Mark[]): Replayed {
  return replayOn(readyState(order), marks);
}

/** Goes on from `state`, which stays as it is. Errors as in `replay`. */
export function replayOn(state: ClassState, marks: readonly Mark[]): Replayed {
  const run = openRun(state);
  for (const [index, mark] of marks.entries()) {
    if (!take(run, mark)) return { ok: false, reason: 'bentMark', seq: index };
  }
  return { ok: true, state: closeRun(run) };
}

type Run = LiveDraft & {
  state: ClassState;
  phase: Phase;
  pausedMs: number;
  dropped: EntryId[];
  shown: Record<EntryId, Level>;
  seq: number;
  lastMs: number;
  lastEditMs: number;
  isEdited: boolean;
};

function openRun(state: ClassState): Run {
  const { phase, pausedMs, nextSeq: seq, lastMs, lastEditMs } = state;
  const dropped = [...state.dropped];
  return {
    ...draftOf(state),
    state,
    phase,
    pausedMs,
    dropped,
    shown: { ...state.shown },
    seq,
    lastMs,
    lastEditMs,
    isEdited: false,
  };
}

function closeRun(run: Run): ClassState {
  const { state, phase, pausedMs, books, dropped, shown, seq, nextSpanId, lastMs, lastEditMs } = run;
  const list = run.isEdited ? { live: run.live, ...layOut(run.live) } : {};
  return { ...state, ...list, phase, pausedMs, books, dropped, shown, nextSeq: seq, nextSpanId, lastMs, lastEditMs };
}

function take(run: Run, mark: Mark): boolean {
  if (mark.seq !== run.seq || !Number.isSafeInteger(mark.atMs) || mark.atMs < run.lastMs) return false;
  if (!happen(run, mark, mark.atMs)) return false;
  run.seq += 1;
  run.lastMs = mark.atMs;
  return true;
}

function happen(run: Run, what: Happening, atMs: number): boolean {
  const { phase } = run;
  if (what.kind === 'abandoned' && phase.kind === 'ready') return enter(run, { kind: 'abandoned', atMs }, atMs);
  if (phase.kind === 'ready')
    return what.kind === 'started' && atMs === 0 && enter(run, { kind: 'live', standing: null }, atMs);
  if (phase.kind !== 'live') return false;
  return happenLive(run, what, atMs, phase.standing);
}

function happenLive(run: Run, what: Happening, atMs: number, standing: Standing | null): boolean {
  switch (what.kind) {
    case 'paused':
      return pause(run, what.cause, atMs, standing);
    case 'asked':
      return standing === null && Number.isFinite(what.gapMs) && stand(run, { sinceMs: atMs, cause: 'gap' }, atMs);
    case 'carriedOn':
      return standing !== null && goOn(run, atMs - standing.sinceMs, atMs);
    case 'ranOn':
      return standing?.cause === 'gap' && goOn(run, 0, atMs);
    case 'stood':
      return standing === null && isSpell(what.byMs, atMs - run.lastEditMs) && goOn(run, what.byMs, atMs);
    case 'changed':
      return change(run, what, atMs);
    case 'showed':
      run.shown[what.entryId] = what.level;
      return true;
    case 'away':
    case 'wallMoved':
      return Number.isFinite(what.byMs);
    case 'finished':
    case 'abandoned':
      return end(run, what.kind, atMs, standing);
    default:
      return false;
  }
}

function pause(run: Run, cause: 'asked' | 'hurt', atMs: number, standing: Standing | null): boolean {
  if (standing === null) return stand(run, { sinceMs: atMs, cause }, atMs);
  return cause === 'hurt' && standing.cause === 'asked' && stand(run, { ...standing, cause }, atMs);
}

function stand(run: Run, standing: Standing, atMs: number): boolean {
  return enter(run, { kind: 'live', standing }, atMs);
}

function goOn(run: Run, stoodMs: number, atMs: number): boolean {
  run.pausedMs += stoodMs;
  return enter(run, { kind: 'live', standing: null }, atMs);
}

/** A class finished when its last span did, even if that was noticed later; abandoned it is when somebody says so. */
function end(run: Run, kind: 'finished' | 'abandoned', atMs: number, standing: Standing | null): boolean {
  if (standing !== null) run.pausedMs += atMs - standing.sinceMs;
  const endedAtMs = kind === 'finished' ? Math.min(atMs, bookedMs(run.books) + run.pausedMs) : atMs;
  return enter(run, { kind, atMs: endedAtMs }, atMs);
}

function change(run: Run, what: Extract<Happening, { kind: 'changed' }>, atMs: number): boolean {
  if (!what.edits.every((edit) => applyEdit(run, edit))) return false;
  if (what.entryId !== null) run.dropped.push(what.entryId);
  run.isEdited = true;
  run.lastEditMs = atMs;
  return true;
}

function enter(run: Run, phase: Phase, atMs: number): boolean {
  run.phase = phase;
  run.lastEditMs = atMs;
  return true;
}

function isSpell(byMs: number, atMostMs: number): boolean {
  return Number.isSafeInteger(byMs) && byMs >= 0 && byMs <= atMostMs;
}
