import type { HeardFrame } from './onset-worklet.ts';

// Stamps what the audio thread tells with the page's clock, on a thread that a busy or hidden page does not hold up.

/** What one tap heard: the page's ms and the frame at which the audio clock stood then, and the frames where sounds began. */
export type TapRecord = { readonly clock: [monoMs: number, frame: number][]; readonly onsets: number[] };

/** `pageOriginMs`: the page's performance.timeOrigin. */
export type StampAsk =
  | { readonly ask: 'listen'; readonly port: MessagePort; readonly pageOriginMs: number }
  | { readonly ask: 'report' };

const taps: TapRecord[] = [];

function listen(port: MessagePort, pageOriginMs: number): void {
  const tap: TapRecord = { clock: [], onsets: [] };
  taps.push(tap);
  const shiftMs = performance.timeOrigin - pageOriginMs;
  port.onmessage = ({ data }: MessageEvent<HeardFrame>) => {
    if ('onsetFrame' in data) tap.onsets.push(data.onsetFrame);
    else tap.clock.push([performance.now() + shiftMs, data.atFrame]);
  };
}

addEventListener('message', ({ data }: MessageEvent<StampAsk>) => {
  if (data.ask === 'listen') listen(data.port, data.pageOriginMs);
  else postMessage(taps);
});
