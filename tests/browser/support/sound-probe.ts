import type { BrowserContext, Page } from 'playwright-core';

/** What became of the recordings, and what was really played. */
export type SoundProbe = {
  /** Recordings that were decoded, and such that would not decode. */
  decoded: number;
  failed: number;
  /** Everything longer than a click that was started on a page's audio clock. */
  readonly started: { readonly isRecording: boolean; readonly atSeconds: number; stoppedAtSeconds: number }[];
};

declare global {
  interface Window {
    soundProbe: SoundProbe;
  }
}

/** Pages of the context note what they decode and play; nothing is changed in what is heard. */
export async function probeSounds(context: Pick<BrowserContext, 'addInitScript'>): Promise<void> {
  await context.addInitScript(probeInPage);
}

export function readSoundProbe(page: Page): Promise<SoundProbe> {
  return page.evaluate(() => window.soundProbe);
}

/** What came to be heard: not called off before its time. */
export const heard = ({ started }: SoundProbe): SoundProbe['started'] =>
  started.filter(({ atSeconds, stoppedAtSeconds }) => stoppedAtSeconds > atSeconds);

function probeInPage(): void {
  const probe: SoundProbe = { decoded: 0, failed: 0, started: [] };
  const recordings = new WeakSet<AudioBuffer>();
  const noted = new WeakMap<AudioNode, SoundProbe['started'][number]>();
  /** Unlocking a context plays a sample of nothing. */
  const LEAST_SECONDS = 0.01;

  const decode = BaseAudioContext.prototype.decodeAudioData;
  BaseAudioContext.prototype.decodeAudioData = async function (...given) {
    try {
      const buffer = await decode.apply(this, given);
      recordings.add(buffer);
      probe.decoded += 1;
      return buffer;
    } catch (fault) {
      probe.failed += 1;
      throw fault;
    }
  };

  const start = AudioBufferSourceNode.prototype.start;
  AudioBufferSourceNode.prototype.start = function (when = 0, ...rest) {
    if (this.buffer !== null && this.buffer.duration > LEAST_SECONDS) {
      const atSeconds = Math.max(when, this.context.currentTime);
      const note = { isRecording: recordings.has(this.buffer), atSeconds, stoppedAtSeconds: 1e9 };
      noted.set(this, note);
      probe.started.push(note);
    }
    start.call(this, when, ...rest);
  };

  const stop = AudioScheduledSourceNode.prototype.stop;
  AudioScheduledSourceNode.prototype.stop = function (when = 0) {
    const note = noted.get(this);
    if (note !== undefined) note.stoppedAtSeconds = Math.max(when, this.context.currentTime);
    stop.call(this, when);
  };

  window.soundProbe = probe;
}
