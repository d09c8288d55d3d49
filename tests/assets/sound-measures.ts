/** A sound file as numbers. */
export type Wav = { readonly sampleRate: number; readonly channels: number; readonly bits: number; readonly samples: Float64Array };

/** A stretch in which something sounds. */
export type Phase = { readonly fromMs: number; readonly lastsMs: number };

/** Reads a plain PCM file whose chunks are `fmt ` and `data`, in that order. */
export function readWav(bytes: Buffer): Wav {
  const name = (at: number) => bytes.toString('latin1', at, at + 4);
  if (name(0) !== 'RIFF' || name(8) !== 'WAVE' || name(12) !== 'fmt ' || name(36) !== 'data') {
    throw new Error('not a plain WAV file');
  }
  const length = bytes.readUInt32LE(40) / 2;
  if (44 + length * 2 !== bytes.length) throw new Error('the data chunk does not fill the file');
  return {
    sampleRate: bytes.readUInt32LE(24),
    channels: bytes.readUInt16LE(22),
    bits: bytes.readUInt16LE(34),
    samples: Float64Array.from({ length }, (_, at) => bytes.readInt16LE(44 + at * 2) / 32768),
  };
}

export function peakOf(samples: Float64Array): number {
  return samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
}

/** Power of each frequency up to half the rate, by a radix-2 transform of the whole sound padded with zeros. */
function powerSpectrum({ samples, sampleRate }: Pick<Wav, 'samples' | 'sampleRate'>) {
  const size = 2 ** Math.ceil(Math.log2(samples.length));
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  for (let at = 0; at < samples.length; at += 1) re[reversed(at, size)] = samples[at] ?? 0;
  for (let half = 1; half < size; half *= 2) butterflies(re, im, half);
  const power = Float64Array.from({ length: size / 2 }, (_, bin) => (re[bin] ?? 0) ** 2 + (im[bin] ?? 0) ** 2);
  return { power, hertzOf: (bin: number) => (bin * sampleRate) / size };
}

function reversed(index: number, size: number): number {
  let left = index;
  let out = 0;
  for (let bit = 1; bit < size; bit *= 2) {
    out = out * 2 + (left & 1);
    left >>= 1;
  }
  return out;
}

function butterflies(re: Float64Array, im: Float64Array, half: number): void {
  for (let from = 0; from < re.length; from += half * 2) {
    for (let at = 0; at < half; at += 1) {
      const angle = (-Math.PI * at) / half;
      const low = from + at;
      const high = low + half;
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      const [hr, hi] = [re[high] ?? 0, im[high] ?? 0];
      const [tr, ti] = [hr * c - hi * s, hr * s + hi * c];
      const [lr, li] = [re[low] ?? 0, im[low] ?? 0];
      re[low] = lr + tr;
      im[low] = li + ti;
      re[high] = lr - tr;
      im[high] = li - ti;
    }
  }
}

/** Share of all energy that lies between two frequencies, 0 to 1. */
export function bandShare(wav: Pick<Wav, 'samples' | 'sampleRate'>, fromHertz: number, toHertz: number): number {
  const { power, hertzOf } = powerSpectrum(wav);
  let all = 0;
  let inside = 0;
  for (const [bin, each] of power.entries()) {
    all += each;
    if (hertzOf(bin) >= fromHertz && hertzOf(bin) <= toHertz) inside += each;
  }
  return inside / all;
}

const FRAME_MS = 2.5;

/** Stretches louder than a tenth of the loudest, joined over breaks of less than `shortestGapMs`. */
export function phasesOf({ samples, sampleRate }: Pick<Wav, 'samples' | 'sampleRate'>, shortestGapMs = 8): readonly Phase[] {
  const frame = Math.round((FRAME_MS / 1000) * sampleRate);
  const levels = Array.from({ length: Math.ceil(samples.length / frame) }, (_, at) =>
    peakOf(samples.subarray(at * frame, (at + 1) * frame)),
  );
  const floor = Math.max(...levels) / 10;
  const phases: Phase[] = [];
  for (const [at, level] of levels.entries()) {
    if (level < floor) continue;
    const fromMs = at * FRAME_MS;
    const before = phases[phases.length - 1];
    if (before !== undefined && fromMs - (before.fromMs + before.lastsMs) < shortestGapMs) {
      phases[phases.length - 1] = { fromMs: before.fromMs, lastsMs: fromMs + FRAME_MS - before.fromMs };
    } else phases.push({ fromMs, lastsMs: FRAME_MS });
  }
  return phases;
}

/** Power at one frequency (Goertzel, American Mathematical Monthly 65, 1958). */
function goertzel(samples: Float64Array, sampleRate: number, hertz: number): number {
  const turn = 2 * Math.cos((2 * Math.PI * hertz) / sampleRate);
  let [one, two] = [0, 0];
  for (const sample of samples) [one, two] = [sample + turn * one - two, one];
  return one * one + two * two - turn * one * two;
}

/** The strongest frequency of each phase, in Hz, to 10 Hz. */
export function pitchTrack(wav: Pick<Wav, 'samples' | 'sampleRate'>): readonly number[] {
  return phasesOf(wav).map(({ fromMs, lastsMs }) => {
    const from = Math.round((fromMs / 1000) * wav.sampleRate);
    const part = wav.samples.subarray(from, from + Math.round((lastsMs / 1000) * wav.sampleRate));
    let best = { hertz: 0, power: -1 };
    for (let hertz = 200; hertz <= 4000; hertz += 10) {
      const power = goertzel(part, wav.sampleRate, hertz);
      if (power > best.power) best = { hertz, power };
    }
    return best.hertz;
  });
}

/** Ms until the sound first reaches 5% of its own peak. */
export function onsetMs({ samples, sampleRate }: Pick<Wav, 'samples' | 'sampleRate'>): number {
  const floor = peakOf(samples) / 20;
  return (samples.findIndex((sample) => Math.abs(sample) >= floor) / sampleRate) * 1000;
}

/**
 * The evacuation signal's rhythm anywhere in the phases: three of 0.5 s, each followed by 0.5 s of silence, the third by
 * 1.5 s. ISO 8201; Ontario Building Code A-3.2.4.18.(2): on 0.5 s +- 10%, off 0.5 s +- 10%, pause 1.5 s +- 10%.
 */
export function soundsLikeEvacuation(phases: readonly Phase[]): boolean {
  const isHalf = (ms: number) => ms >= 450 && ms <= 550;
  return phases.some((first, at) => {
    const three = [first, phases[at + 1], phases[at + 2]];
    return three.every((phase, nth) => {
      if (phase === undefined || !isHalf(phase.lastsMs)) return false;
      const next = three[nth + 1];
      return nth === 2 || (next !== undefined && isHalf(next.fromMs - phase.fromMs - phase.lastsMs));
    });
  });
}

/**
 * A medical alarm's burst (IEC 60601-1-8, from memory, used only to keep away from it): 3, 5 or 10 pulses of one length
 * between 75 and 250 ms.
 */
export function soundsLikeMedicalAlarm(phases: readonly Phase[]): boolean {
  const lengths = phases.map((phase) => phase.lastsMs);
  const isEven = Math.max(...lengths) - Math.min(...lengths) <= 0.1 * Math.max(...lengths);
  const isPulse = lengths.every((ms) => ms >= 75 && ms <= 250);
  return [3, 5, 10].includes(phases.length) && isEven && isPulse;
}
