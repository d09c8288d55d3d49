import type { SoundKind } from '../../../src/class-run/cue.ts';
import type { CueStyle } from '../../../src/plan/plan.ts';

/** One note: [starts ms, lasts ms, Hz]. */
type Note = readonly [number, number, number];

/** Plainer than the recorded cues and told apart the same way. */
const NOTES: Readonly<Record<SoundKind, readonly Note[]>> = {
  tick: [[0, 70, 1000]],
  start: [[0, 300, 1500]],
  halfway: [
    [0, 60, 700],
    [120, 60, 700],
  ],
  otherSide: [
    [0, 50, 1200],
    [70, 50, 800],
    [140, 50, 1200],
    [210, 50, 800],
  ],
  up: [
    [0, 50, 660],
    [70, 50, 990],
    [140, 130, 1480],
  ],
  down: [
    [0, 130, 1480],
    [150, 50, 990],
    [220, 50, 660],
  ],
  change: [
    [0, 50, 1250],
    [85, 150, 940],
  ],
  headsUp: [
    [0, 25, 1320],
    [45, 25, 1320],
    [90, 25, 1320],
    [135, 25, 1320],
    [180, 25, 1320],
    [225, 25, 1320],
  ],
  finish: [
    [0, 80, 1047],
    [110, 80, 1319],
    [220, 80, 1568],
    [330, 300, 2093],
  ],
};

const LEVEL = { sharp: 0.8, soft: 0.3 };
const EDGE_MS = { sharp: 1, soft: 8 };

/** Samples of a plain cue, -1 to 1, for where the recorded one is missing or will not decode. */
export function standInSamples(
  kind: SoundKind,
  style: Exclude<CueStyle, 'silent'>,
  sampleRate: number,
): Float32Array<ArrayBuffer> {
  const notes = NOTES[kind];
  const endMs = Math.max(...notes.map(([fromMs, lastsMs]) => fromMs + lastsMs));
  const samples = new Float32Array(Math.ceil((endMs / 1000) * sampleRate));
  for (const [fromMs, lastsMs, hertz] of notes) {
    const from = Math.round((fromMs / 1000) * sampleRate);
    const count = Math.round((lastsMs / 1000) * sampleRate);
    const edge = (EDGE_MS[style] / 1000) * sampleRate;
    for (let at = 0; at < count && from + at < samples.length; at += 1) {
      const fade = Math.min(1, (at + 1) / edge, (count - at) / edge);
      samples[from + at] = LEVEL[style] * fade * Math.cos((2 * Math.PI * hertz * at) / sampleRate);
    }
  }
  return samples;
}
