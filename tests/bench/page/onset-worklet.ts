// Runs on the audio thread, so it hears what is played however busy the page is.
declare const currentFrame: number;
declare function registerProcessor(name: string, processor: unknown): void;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}

/** What the processor tells: where the audio clock stands, and where a sound began. Frames of its context. */
export type HeardFrame = { readonly atFrame: number } | { readonly onsetFrame: number };

/** -50 dBFS: below the first samples of every cue, above nothing but silence on a bus of cues. */
const LOUD = 0.003;
/** Longer than any silence inside a cue, shorter than that between two. */
const QUIET_FRAMES = 6000;
/** The clock is told every third quantum: often enough to meet the end of each burst in which a device renders. */
const TELL_EVERY = 3;

class Onsets extends AudioWorkletProcessor {
  quietFrames = QUIET_FRAMES;
  quanta = 0;
  out: MessagePort = this.port;

  constructor() {
    super();
    this.port.onmessage = ({ data }: MessageEvent<MessagePort>) => {
      this.out = data;
    };
  }

  process([input]: Float32Array[][]): boolean {
    const samples = input?.[0];
    if (samples === undefined) this.quietFrames += 128;
    else this.listen(samples);
    if (this.quanta % TELL_EVERY === 0) this.tell({ atFrame: currentFrame });
    this.quanta += 1;
    return true;
  }

  listen(samples: Float32Array): void {
    for (const [at, sample] of samples.entries()) {
      if (Math.abs(sample) < LOUD) {
        this.quietFrames += 1;
        continue;
      }
      if (this.quietFrames >= QUIET_FRAMES) this.tell({ onsetFrame: currentFrame + at });
      this.quietFrames = 0;
    }
  }

  tell(heard: HeardFrame): void {
    this.out.postMessage(heard);
  }
}

registerProcessor('onsets', Onsets);
