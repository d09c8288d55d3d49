import type { QueuedSound, StartSound } from '../../../src/class-run/cue-queue.ts';

type Queued = QueuedSound & { readonly source: AudioBufferSourceNode | null };

/** The sources that wait or sound in one context. */
export type NodeQueue = {
  readonly queued: () => readonly QueuedSound[];
  readonly start: (sound: StartSound, buffer: AudioBuffer) => void;
  readonly cancel: (key: string) => void;
  /** Calls off all that starts after this audio time. */
  readonly cancelAfter: (seconds: number) => void;
  readonly playNow: (buffer: AudioBuffer) => void;
  /** Ends and calls off everything. What has begun stays in the queue as such, so that it does not begin again. */
  readonly silence: () => void;
  /** Takes over what began in another context. */
  readonly remember: (begun: readonly QueuedSound[]) => void;
  /** Forgets what was due before this instant of the page's clock; it may ring on. */
  readonly forgetDueBefore: (monoMs: number) => void;
};

/** The clock of a context is shown in steps of up to this: what starts within one may have begun. */
const STEP_SECONDS = 0.045;

/** A start between two samples is rounded up to the later one: then a cue is the same samples wherever it falls. */
function wholeFrame(seconds: number, sampleRate: number): number {
  return Math.ceil(seconds * sampleRate - 1e-4) / sampleRate;
}

export function nodeQueue(context: AudioContext, bus: AudioNode): NodeQueue {
  const byKey = new Map<string, Queued>();
  const sounding = new Set<AudioBufferSourceNode>();

  const play = (buffer: AudioBuffer, whenSeconds: number): AudioBufferSourceNode => {
    const source = context.createBufferSource();
    source.buffer = buffer;
    source.connect(bus);
    source.onended = () => {
      sounding.delete(source);
      source.disconnect();
    };
    source.start(whenSeconds);
    sounding.add(source);
    return source;
  };

  const end = (source: AudioBufferSourceNode) => {
    sounding.delete(source);
    source.onended = null;
    source.stop();
    source.disconnect();
  };

  const cancel = (key: string) => {
    const queued = byKey.get(key);
    byKey.delete(key);
    if (queued?.source != null) end(queued.source);
  };

  return {
    queued: () => [...byKey.values()],
    start: (sound, buffer) => {
      const whenSeconds = wholeFrame(sound.whenSeconds, context.sampleRate);
      const source = play(buffer, whenSeconds);
      byKey.set(sound.key, { key: sound.key, dueMonoMs: sound.dueMonoMs, whenSeconds, source });
    },
    cancel,
    cancelAfter: (seconds) => {
      for (const queued of [...byKey.values()]) if (queued.whenSeconds > seconds) cancel(queued.key);
    },
    playNow: (buffer) => {
      play(buffer, 0);
    },
    silence: () => {
      for (const queued of [...byKey.values()]) {
        if (queued.whenSeconds > context.currentTime + STEP_SECONDS) byKey.delete(queued.key);
        else byKey.set(queued.key, asBegun(queued));
      }
      for (const source of [...sounding]) end(source);
    },
    remember: (begun) => {
      for (const each of begun) byKey.set(each.key, asBegun(each));
    },
    forgetDueBefore: (monoMs) => {
      for (const queued of [...byKey.values()]) if (queued.dueMonoMs < monoMs) byKey.delete(queued.key);
    },
  };
}

/** Before any time that another clock may show. */
function asBegun({ key, dueMonoMs }: QueuedSound): Queued {
  return { key, dueMonoMs, whenSeconds: Number.NEGATIVE_INFINITY, source: null };
}
