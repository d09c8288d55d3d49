import type { Clips } from './clips.ts';
import type { SoundOut } from './howler-context.ts';
import { type NodeQueue, nodeQueue } from './node-queue.ts';

/** All that belongs to one context and goes with it. */
export type SoundSeat = {
  readonly context: AudioContext;
  /** Every cue and nothing else goes through here. */
  readonly bus: AudioNode;
  readonly queue: NodeQueue;
};

/** Loudspeakers over Bluetooth sleep in silence and cut the first half second of a cue; zeros do not keep them awake. */
const BED_HERTZ = 40;
/** About -52 dBFS: not heard, least of all from a phone. */
const BED_LEVEL = 0.0025;

/** Takes a seat in a context: a bus of our own, the bed that keeps loudspeakers awake, the recordings decoded. */
export function takeSeat({ context, out }: SoundOut, clips: Clips, onChange: () => void): SoundSeat {
  const bus = context.createGain();
  bus.connect(out);
  const level = context.createGain();
  level.gain.value = BED_LEVEL;
  level.connect(out);
  const bed = context.createOscillator();
  bed.frequency.value = BED_HERTZ;
  bed.connect(level);
  bed.start();
  clips.prepare(context);
  context.addEventListener('statechange', onChange);
  return { context, bus, queue: nodeQueue(context, bus) };
}
