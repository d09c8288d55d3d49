import type { Cue, CueKind } from './cue.ts';

/** Two sounds closer than this run together: the less telling one is left out. */
export const LEAST_GAP_MS = 300;

/** Higher is heard. A name is spoken beside the sounds and never collides. */
const PRIORITY: Readonly<Record<Exclude<CueKind, 'name'>, number>> = {
  finish: 9,
  start: 8,
  otherSide: 7,
  up: 6,
  down: 6,
  change: 5,
  headsUp: 4,
  tick: 3,
  halfway: 2,
};

/** Leaves out each sound that has a more telling one within the least gap, whatever became of that one. `cues` in order of time. */
export function withoutCollisions(cues: readonly Cue[]): readonly Cue[] {
  return cues.filter((cue, index) => cue.kind === 'name' || !isDrownedBy(cues, index, cue));
}

function isDrownedBy(cues: readonly Cue[], index: number, cue: Cue): boolean {
  return cues.some((other, at) => {
    const isNear = Math.abs(other.dueRunMs - cue.dueRunMs) < LEAST_GAP_MS;
    return at !== index && isNear && outranks(other, at, cue, index);
  });
}

function outranks(other: Cue, otherAt: number, cue: Cue, cueAt: number): boolean {
  if (other.kind === 'name' || cue.kind === 'name') return false;
  const byRank = PRIORITY[other.kind] - PRIORITY[cue.kind];
  return byRank > 0 || (byRank === 0 && otherAt < cueAt);
}
