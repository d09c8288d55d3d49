import type { SoundKind } from '../../../src/class-run/cue.ts';
import type { CueStyle } from '../../../src/plan/plan.ts';
import type { Log } from '../../../src/ports/log.ts';
import { standInSamples } from './stand-ins.ts';

type Style = Exclude<CueStyle, 'silent'>;

export const SOUND_KINDS: readonly SoundKind[] = [
  'tick',
  'start',
  'halfway',
  'otherSide',
  'up',
  'down',
  'change',
  'headsUp',
  'finish',
];
const STYLES: readonly Style[] = ['sharp', 'soft'];

export type ClipsNeeds = {
  /** Gives the bytes of one recording; rejects where it cannot. */
  readonly load: (kind: SoundKind, style: Style) => Promise<ArrayBuffer>;
  readonly log: Log;
};

export type Clips = {
  /** Begins to fetch and decode all recordings for this context; harmless when repeated. */
  readonly prepare: (context: AudioContext) => void;
  /** The recording, or a plain stand-in while it is not there or will not decode: never nothing. */
  readonly bufferOf: (context: AudioContext, kind: SoundKind, style: Style) => AudioBuffer;
  /** Grows by one when recordings took the place of stand-ins: what is queued should be queued anew. */
  readonly edition: () => number;
};

/**
 * The cues' sounds, decoded by the context itself and kept, because Howler's decoded buffers cannot be reached. A buffer
 * plays in any context of its sample rate, so another context of the same rate needs no decoding.
 */
export function clips({ load, log }: ClipsNeeds): Clips {
  const buffers = new Map<string, AudioBuffer>();
  const standIns = new Map<string, AudioBuffer>();
  const prepared = new Set<number>();
  let bytes: Promise<ReadonlyMap<string, ArrayBuffer>> | null = null;
  let edition = 0;

  const loadAll = async (): Promise<ReadonlyMap<string, ArrayBuffer>> => {
    const loaded = new Map<string, ArrayBuffer>();
    const loadOne = async (kind: SoundKind, style: Style) => {
      try {
        loaded.set(`${style}/${kind}`, await load(kind, style));
      } catch (error) {
        log.note(`sound: ${style} ${kind} did not load, a plain one stands in`, error);
      }
    };
    await Promise.all(STYLES.flatMap((style) => SOUND_KINDS.map((kind) => loadOne(kind, style))));
    return loaded;
  };

  const decodeAll = async (context: AudioContext): Promise<void> => {
    bytes ??= loadAll();
    for (const [name, each] of await bytes) {
      try {
        // Decoding takes the bytes away: a copy, for the next sample rate.
        buffers.set(`${context.sampleRate} ${name}`, await context.decodeAudioData(each.slice(0)));
      } catch (error) {
        log.note(`sound: ${name} did not decode, a plain one stands in`, error);
      }
    }
    edition += 1;
    // A context that was left in the middle decodes no more: the next one tries again.
    if (context.state === 'closed') prepared.delete(context.sampleRate);
  };

  const standIn = (context: AudioContext, kind: SoundKind, style: Style, name: string): AudioBuffer => {
    const made = standIns.get(name);
    if (made !== undefined) return made;
    const samples = standInSamples(kind, style, context.sampleRate);
    const buffer = context.createBuffer(1, samples.length, context.sampleRate);
    buffer.copyToChannel(samples, 0);
    standIns.set(name, buffer);
    return buffer;
  };

  return {
    prepare: (context) => {
      if (prepared.has(context.sampleRate)) return;
      prepared.add(context.sampleRate);
      decodeAll(context).catch((error) => log.note('sound: recordings failed', error));
    },
    bufferOf: (context, kind, style) => {
      const name = `${context.sampleRate} ${style}/${kind}`;
      return buffers.get(name) ?? standIn(context, kind, style, name);
    },
    edition: () => edition,
  };
}
