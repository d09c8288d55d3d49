import { readdirSync, readFileSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { encodeWav, renderCue, renderQuiet, SAMPLE_RATE, soundKinds } from '../../app/build/make-sounds.mjs';
import { SOUND_KINDS } from '../../app/platform/sound/clips.ts';
import { standInSamples } from '../../app/platform/sound/stand-ins.ts';
import type { SoundKind } from '../../src/class-run/cue.ts';
import {
  bandShare,
  onsetMs,
  type Phase,
  peakOf,
  phasesOf,
  pitchTrack,
  readWav,
  soundsLikeEvacuation,
  soundsLikeMedicalAlarm,
  type Wav,
} from './sound-measures.ts';

const folder = fileURLToPath(new URL('../../assets/sounds/', import.meta.url));
const STYLES = ['sharp', 'soft'] as const;

const load = (style: string, kind: string): Wav => readWav(readFileSync(`${folder}${style}/${kind}.wav`));
const all = STYLES.flatMap((style) => SOUND_KINDS.map((kind) => ({ style, kind, wav: load(style, kind) })));
const decibels = (level: number) => 20 * Math.log10(level);

/** Same number of sounds of nearly the same lengths. */
const hasSameRhythm = (a: readonly Phase[], b: readonly Phase[]) =>
  a.length === b.length &&
  a.every(({ lastsMs }, at) => Math.abs(lastsMs - (b[at]?.lastsMs ?? 0)) < Math.max(15, 0.3 * lastsMs));

/** Same number of tones, none more than two semitones apart. */
const hasSameTune = (a: readonly number[], b: readonly number[]) =>
  a.length === b.length && a.every((hertz, at) => Math.abs(12 * Math.log2(hertz / (b[at] ?? 1))) < 2);

describe('the recorded cues', () => {
  test('are all there in both styles and are what the script renders', () => {
    expect(soundKinds()).toEqual([...SOUND_KINDS]);
    for (const style of STYLES) {
      expect(readdirSync(folder + style).sort()).toEqual(SOUND_KINDS.map((kind) => `${kind}.wav`).sort());
    }
    for (const { style, kind, wav } of all) {
      const rendered = readWav(encodeWav(renderCue(kind, style), SAMPLE_RATE)).samples;
      expect(wav.samples.length, `${style} ${kind}`).toBe(rendered.length);
      const apart = rendered.reduce((most, sample, at) => Math.max(most, Math.abs(sample - (wav.samples[at] ?? 9))), 0);
      // One step of 16 bits, for another machine's cosine.
      expect(apart, `${style} ${kind}`).toBeLessThanOrEqual(1.01 / 32768);
    }
  });

  test('are 16-bit mono at 48 kHz and together at most 400 kB', () => {
    for (const { wav } of all) expect([wav.bits, wav.channels, wav.sampleRate]).toEqual([16, 1, 48_000]);
    const bytes = all.reduce((sum, { style, kind }) => sum + statSync(`${folder}${style}/${kind}.wav`).size, 0);
    expect(bytes).toBeLessThanOrEqual(400_000);
  });

  test.each(all)('$style $kind peaks at -1 dBFS at most and is not faint', ({ style, wav }) => {
    const peak = decibels(peakOf(wav.samples));
    expect(peak).toBeLessThanOrEqual(-1);
    expect(peak).toBeGreaterThan(style === 'sharp' ? -3 : -9);
  });

  // 500-2500 Hz for the main energy: ISO 7731:2003, from memory; bands up to 2.5 kHz for older ears: from memory too.
  test.each(all)('$style $kind has nine tenths of its energy between 500 and 2500 Hz', ({ wav }) => {
    expect(bandShare(wav, 500, 2500)).toBeGreaterThan(0.9);
  });

  test.each(all)('$style $kind begins within 2 ms and ends in silence', ({ style, wav }) => {
    expect(onsetMs(wav)).toBeLessThan(style === 'sharp' ? 0.2 : 2);
    expect(peakOf(wav.samples.subarray(-24))).toBeLessThan(0.02);
  });

  test('sound gentler when soft: they swell where the sharp ones strike', () => {
    const firstMs = (wav: Wav) => peakOf(wav.samples.subarray(0, 96)) / peakOf(wav.samples);
    for (const kind of SOUND_KINDS) {
      expect(firstMs(load('sharp', kind)), kind).toBeGreaterThan(0.8);
      expect(firstMs(load('soft', kind)), kind).toBeLessThan(0.4);
    }
  });

  test.each(STYLES)('differ from each other both in rhythm and in pitch (%s)', (style) => {
    for (const [at, one] of SOUND_KINDS.entries()) {
      for (const other of SOUND_KINDS.slice(at + 1)) {
        const [a, b] = [load(style, one), load(style, other)];
        expect(hasSameRhythm(phasesOf(a), phasesOf(b)), `rhythm of ${one} and ${other}`).toBe(false);
        expect(hasSameTune(pitchTrack(a), pitchTrack(b)), `pitch of ${one} and ${other}`).toBe(false);
      }
    }
  });

  test.each(STYLES)('say what they mean: up rises, down falls, other side swings (%s)', (style) => {
    const steps = (kind: SoundKind) => {
      const tune = pitchTrack(load(style, kind));
      return tune.slice(1).map((hertz, at) => Math.sign(hertz - (tune[at] ?? 0)));
    };
    expect(steps('up')).toEqual([1, 1]);
    expect(steps('down')).toEqual([-1, -1]);
    expect(steps('otherSide')).toEqual([-1, 1, -1]);
    expect(steps('halfway')).toEqual([0]);
  });

  test.each(STYLES)('count with short low ticks into a long high start (%s)', (style) => {
    const [tick, start] = [load(style, 'tick'), load(style, 'start')];
    expect(phasesOf(start)[0]?.lastsMs).toBeGreaterThan(3 * (phasesOf(tick)[0]?.lastsMs ?? 0));
    expect(pitchTrack(start)[0]).toBeGreaterThan(1.3 * (pitchTrack(tick)[0] ?? 0));
  });
});

describe('what nobody may take for an alarm', () => {
  const beeps = (...phases: readonly (readonly [number, number])[]) =>
    phases.map(([fromMs, lastsMs]) => ({ fromMs, lastsMs }));

  test('the measures know the alarms themselves', () => {
    expect(soundsLikeEvacuation(beeps([0, 500], [1000, 500], [2000, 500]))).toBe(true);
    expect(soundsLikeEvacuation(beeps([0, 80], [700, 460], [1160 + 520, 540], [2740, 500]))).toBe(true);
    expect(soundsLikeMedicalAlarm(beeps([0, 200], [400, 200], [800, 200]))).toBe(true);
  });

  test.each(all)('$style $kind is neither the evacuation signal nor a medical alarm', ({ wav }) => {
    const phases = phasesOf(wav);
    expect(soundsLikeEvacuation(phases)).toBe(false);
    expect(soundsLikeMedicalAlarm(phases)).toBe(false);
    expect(Math.max(...phases.map((phase) => phase.lastsMs))).toBeLessThan(450);
  });

  test('nor is a count: three ticks and a start, a second apart', () => {
    const count = (['tick', 'tick', 'tick', 'start'] as const).flatMap((kind, second) =>
      phasesOf(load('sharp', kind)).map((phase) => ({ ...phase, fromMs: phase.fromMs + 1000 * second })),
    );
    expect(count).toHaveLength(4);
    expect(soundsLikeEvacuation(count)).toBe(false);
  });
});

describe('the stand-ins for recordings that are missing', () => {
  test.each(SOUND_KINDS)('%s has the rhythm and the tune of its recording and is as safe for ears', (kind) => {
    const samples = Float64Array.from(standInSamples(kind, 'sharp', 48_000));
    const wav = { samples, sampleRate: 48_000 };
    const recorded = load('sharp', kind);
    expect(hasSameRhythm(phasesOf(wav), phasesOf(recorded))).toBe(true);
    expect(hasSameTune(pitchTrack(wav), pitchTrack(recorded))).toBe(true);
    expect(decibels(peakOf(samples))).toBeLessThanOrEqual(-1);
    expect(onsetMs(wav)).toBeLessThan(0.2);
  });
});

describe('the quiet loop for headset keys', () => {
  const quiet = readWav(readFileSync(`${folder}quiet.wav`));

  test('plays for more than 5 s, cannot be heard and is not silence', () => {
    expect(quiet.samples.length / quiet.sampleRate).toBeGreaterThan(5);
    expect(decibels(peakOf(quiet.samples))).toBeLessThan(-50);
    const tenth = quiet.sampleRate / 10;
    for (let from = 0; from < quiet.samples.length; from += tenth) {
      expect(peakOf(quiet.samples.subarray(from, from + tenth))).toBeGreaterThan(0);
    }
  });

  test('loops without a seam and is what the script renders', () => {
    const last = quiet.samples.length - 1;
    expect(Math.abs((quiet.samples[last] ?? 1) - (quiet.samples[0] ?? 0))).toBeLessThan(2e-4);
    expect(readWav(encodeWav(renderQuiet(), quiet.sampleRate)).samples).toEqual(quiet.samples);
  });
});
