import type { ClassState } from '../../src/class-run/class-state.ts';
import type { Cue } from '../../src/class-run/cue.ts';
import type { MoveLibrary } from '../../src/moves/move.ts';
import { agree, holds } from './agree.ts';
import type { Machine } from './machine.ts';

/** Sounds closer than this run together, so what was left sooner has no start of its own. */
const LEAST_GAP_MS = 300;

/** Windows that join hear each cue of the whole once, in order; nothing after an open span; no change without a sound. */
export function checkCues(machine: Machine, state: ClassState, library: MoveLibrary, cuts: readonly number[]): void {
  const whole = machine.cuesBetween(state, library, -1, state.endMs);
  const joined: Cue[] = [];
  const edges = [-1, ...cuts.filter((cut) => cut > -1 && cut < state.endMs).toSorted((a, b) => a - b), state.endMs];
  for (const [at, from] of edges.entries()) {
    const to = edges[at + 1];
    if (to !== undefined) joined.push(...machine.cuesBetween(state, library, from, to));
  }
  agree('cue windows join without loss or repeat', joined, whole);
  agree('nothing is heard after the end', machine.cuesBetween(state, library, state.endMs, state.endMs + 60_000), []);
  checkWhole(state, whole);
}

function checkWhole(state: ClassState, whole: readonly Cue[]): void {
  const keys = new Set(whole.map((cue) => cue.key));
  holds('no cue stands in a class twice', keys.size === whole.length);
  for (const [at, cue] of whole.entries()) {
    const before = whole[at - 1];
    holds('cues are in order of their instants', before === undefined || before.dueRunMs <= cue.dueRunMs);
    holds('cues are due on whole milliseconds', Number.isSafeInteger(cue.dueRunMs));
    const span = state.live.find((one) => one.id === cue.span);
    holds('a silent block is silent', span !== undefined && span.cueStyle === cue.style);
  }
  const soundsMs = whole.filter((cue) => cue.kind !== 'name' && cue.kind !== 'tick').map((cue) => cue.dueRunMs);
  const knownMs = state.firstOpen === -1 ? state.endMs : (state.startsMs[state.firstOpen] ?? 0);
  for (const [at, span] of state.live.entries()) {
    const startMs = state.startsMs[at] ?? 0;
    if (span.kind !== 'work' || span.lengthMs < LEAST_GAP_MS || span.cueStyle === 'silent' || startMs >= knownMs)
      continue;
    const isHeard = soundsMs.some((dueMs) => Math.abs(dueMs - startMs) < LEAST_GAP_MS);
    holds(`nobody on the floor misses the start of span ${span.id}`, isHeard);
  }
}
