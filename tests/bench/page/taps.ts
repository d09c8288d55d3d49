import type { HeardFrame } from './onset-worklet.ts';
import workletAddress from './onset-worklet.ts?worker&url';
import type { StampAsk, TapRecord } from './stamp-worker.ts';

/** Listens on the audio thread to single nodes of any number of contexts. */
export type Taps = {
  /** Begins to hear all that goes through this node. Taps are numbered in the order of these calls. */
  readonly tap: (node: AudioNode) => void;
  /** True when every tap so far hears. */
  readonly areOpen: () => boolean;
  /** What each tap heard so far. */
  readonly report: () => Promise<readonly TapRecord[]>;
};

const NODE_OPTIONS = { numberOfInputs: 1, numberOfOutputs: 0 };

/** `pageOriginMs`: the timeOrigin of the page by whose clock everything is stamped. */
export function openTaps(pageOriginMs: number): Taps {
  const worker = new Worker(new URL('./stamp-worker.ts', import.meta.url), { type: 'module' });
  let opening = 0;
  const ask = (what: StampAsk, transfer: Transferable[] = []) => worker.postMessage(what, transfer);
  return {
    tap: (node) => {
      const { port1, port2 } = new MessageChannel();
      ask({ ask: 'listen', port: port1, pageOriginMs }, [port1]);
      opening += 1;
      void node.context.audioWorklet.addModule(workletAddress).then(() => {
        const onsets = new AudioWorkletNode(node.context, 'onsets', NODE_OPTIONS);
        onsets.port.postMessage(port2, [port2]);
        node.connect(onsets);
        opening -= 1;
      });
    },
    areOpen: () => opening === 0,
    report: () =>
      new Promise((settle) => {
        worker.onmessage = ({ data }: MessageEvent<readonly TapRecord[]>) => settle(data);
        ask({ ask: 'report' });
      }),
  };
}

/** The frame at which the same detector finds this sound when it starts at frame 0 of a context that is rendered offline. */
export async function onsetOffset(buffer: AudioBuffer): Promise<number> {
  const context = new OfflineAudioContext(1, buffer.length + 1024, buffer.sampleRate);
  await context.audioWorklet.addModule(workletAddress);
  const onsets = new AudioWorkletNode(context, 'onsets', NODE_OPTIONS);
  const first = new Promise<number>((found) => {
    onsets.port.onmessage = ({ data }: MessageEvent<HeardFrame>) => {
      if ('onsetFrame' in data) found(data.onsetFrame);
    };
  });
  const source = new AudioBufferSourceNode(context, { buffer });
  source.connect(onsets);
  source.start(0);
  await context.startRendering();
  return first;
}
