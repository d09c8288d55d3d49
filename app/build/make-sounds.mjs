// Renders the cues and the quiet loop to assets/sounds: 16-bit mono WAV, so that every browser decodes them to the
// sample (MP3 comes out 25-50 ms late in some). Run by hand after a change: `node app/build/make-sounds.mjs`.
import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** @typedef {{ lastsMs: number, hertz: number, thenMs?: number }} Note a tone, then silence */
/** @typedef {{ attackMs: number, releaseMs: number, fall: number, peak: number }} Style */

export const SAMPLE_RATE = 48_000;
const QUIET_RATE = 8000;

/**
 * What each cue is, told apart by rhythm and by pitch: a count is even and level, going up rises, going down falls, the
 * other side swings between two tones. All tones lie in 500-2500 Hz (the band ISO 7731 asks of signals, from memory).
 *
 * @type {Record<string, Note[]>}
 */
const SHARP = {
  tick: [{ lastsMs: 80, hertz: 1000 }],
  start: [{ lastsMs: 320, hertz: 1500 }],
  halfway: run([60, 60], [700, 700], 60),
  otherSide: run([55, 55, 55, 55], [1200, 800, 1200, 800], 20),
  up: run([50, 50, 140], [660, 990, 1480], 20),
  down: run([140, 50, 50], [1480, 990, 660], 20),
  change: run([50, 150], [1250, 940], 35),
  headsUp: run([25, 25, 25, 25, 25, 25], [1320, 1320, 1320, 1320, 1320, 1320], 20),
  finish: run([80, 80, 80, 250], [1047, 1319, 1568, 2093], 30),
};

/**
 * The same shapes, lower, shorter and rounder, for warm-up and stretch.
 *
 * @type {Record<string, Note[]>}
 */
const SOFT = {
  tick: [{ lastsMs: 45, hertz: 800 }],
  start: [{ lastsMs: 210, hertz: 1200 }],
  halfway: run([50, 50], [600, 600], 50),
  otherSide: run([40, 40, 40, 40], [960, 640, 960, 640], 15),
  up: run([40, 40, 90], [560, 790, 1120], 15),
  down: run([90, 40, 40], [1120, 790, 560], 15),
  change: run([40, 100], [1000, 750], 25),
  headsUp: run([18, 18, 18, 18, 18, 18], [1050, 1050, 1050, 1050, 1050, 1050], 14),
  finish: run([50, 50, 50, 110], [784, 988, 1175, 1568], 15),
};

/** @type {Record<string, Style>} `fall`: how much of the level a note loses over its length */
const STYLES = {
  sharp: { attackMs: 0.3, releaseMs: 6, fall: 0.35, peak: 10 ** (-1.5 / 20) },
  soft: { attackMs: 7, releaseMs: 14, fall: 0.7, peak: 10 ** (-7 / 20) },
};

/** A tone and its overtones that still lie in the band: a bare sine is hard to hear through music. */
const OVERTONES = [1, 0.4, 0.2];
const HIGHEST_HERTZ = 2500;

/**
 * @param {number[]} lengthsMs
 * @param {number[]} pitches
 * @param {number} gapMs
 * @returns {Note[]}
 */
function run(lengthsMs, pitches, gapMs) {
  return lengthsMs.map((lastsMs, at) => {
    const isLast = at === lengthsMs.length - 1;
    return { lastsMs, hertz: pitches[at] ?? 0, ...(isLast ? {} : { thenMs: gapMs }) };
  });
}

/**
 * The first sample is already part of the sound: each tone begins at its crest.
 *
 * @param {Note} note
 * @param {Style} style
 * @returns {number[]}
 */
function tone({ lastsMs, hertz }, { attackMs, releaseMs, fall }) {
  const count = Math.round((lastsMs / 1000) * SAMPLE_RATE);
  const attack = (attackMs / 1000) * SAMPLE_RATE;
  const release = Math.min(count / 2, (releaseMs / 1000) * SAMPLE_RATE);
  const parts = OVERTONES.map((level, at) => ({ level, hertz: hertz * (at + 1) })).filter(
    (part) => part.hertz <= HIGHEST_HERTZ,
  );
  const crest = parts.reduce((sum, part) => sum + part.level, 0);
  return Array.from({ length: count }, (_, at) => {
    const rise = Math.min(1, (at + 1) / attack);
    const left = Math.min(1, (count - 1 - at) / release);
    const level = rise * (1 - (fall * at) / count) * (0.5 - 0.5 * Math.cos(Math.PI * left));
    const wave = parts.reduce(
      (sum, part) => sum + part.level * Math.cos((2 * Math.PI * part.hertz * at) / SAMPLE_RATE),
      0,
    );
    return (level * wave) / crest;
  });
}

/** @returns {string[]} */
export function soundKinds() {
  return Object.keys(SHARP);
}

/**
 * Samples of one cue, -1 to 1.
 *
 * @param {string} kind
 * @param {string} styleName
 * @returns {number[]}
 */
export function renderCue(kind, styleName) {
  const style = STYLES[styleName];
  const notes = (styleName === 'soft' ? SOFT : SHARP)[kind];
  if (style === undefined || notes === undefined) throw new Error(`no cue ${styleName} ${kind}`);
  const samples = notes.flatMap((note) => [
    ...tone(note, style),
    ...Array.from({ length: Math.round(((note.thenMs ?? 0) / 1000) * SAMPLE_RATE) }, () => 0),
  ]);
  const highest = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  return samples.map((sample) => (sample * style.peak) / highest);
}

/**
 * Six seconds at -60 dBFS, 40 Hz: media keys go only to what plays longer than five, and zeros count as silence. Whole
 * cycles, so that the loop has no seam.
 *
 * @returns {number[]}
 */
export function renderQuiet() {
  return Array.from(
    { length: QUIET_RATE * 6 },
    (_, at) => 0.001 * Math.sin((2 * Math.PI * 40 * (at + 0.5)) / QUIET_RATE),
  );
}

/**
 * A WAV file (Multimedia Programming Interface and Data Specifications 1.0, RIFF, from memory).
 *
 * @param {number[]} samples
 * @param {number} sampleRate
 */
export function encodeWav(samples, sampleRate) {
  const bytes = Buffer.alloc(44 + samples.length * 2);
  bytes.write('RIFF', 0, 'latin1');
  bytes.writeUInt32LE(36 + samples.length * 2, 4);
  bytes.write('WAVEfmt ', 8, 'latin1');
  bytes.writeUInt32LE(16, 16);
  bytes.writeUInt16LE(1, 20);
  bytes.writeUInt16LE(1, 22);
  bytes.writeUInt32LE(sampleRate, 24);
  bytes.writeUInt32LE(sampleRate * 2, 28);
  bytes.writeUInt16LE(2, 32);
  bytes.writeUInt16LE(16, 34);
  bytes.write('data', 36, 'latin1');
  bytes.writeUInt32LE(samples.length * 2, 40);
  samples.forEach((sample, at) => {
    bytes.writeInt16LE(Math.round(sample * 32767), 44 + at * 2);
  });
  return bytes;
}

function writeAll() {
  const folder = fileURLToPath(new URL('../../assets/sounds/', import.meta.url));
  for (const style of Object.keys(STYLES)) {
    mkdirSync(folder + style, { recursive: true });
    for (const kind of soundKinds()) {
      writeFileSync(`${folder}${style}/${kind}.wav`, encodeWav(renderCue(kind, style), SAMPLE_RATE));
    }
  }
  writeFileSync(`${folder}quiet.wav`, encodeWav(renderQuiet(), QUIET_RATE));
}

if (process.argv[1] === fileURLToPath(import.meta.url)) writeAll();
