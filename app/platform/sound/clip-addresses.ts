import type { SoundKind } from '../../../src/class-run/cue.ts';
import type { CueStyle } from '../../../src/plan/plan.ts';

const ADDRESSES = import.meta.glob<string>('../../../assets/sounds/*/*.wav', {
  query: '?url',
  import: 'default',
  eager: true,
});

/** Where a cue's recording lies in this build. Throws where the file is not there. */
export function clipAddress(kind: SoundKind, style: Exclude<CueStyle, 'silent'>): string {
  const address = ADDRESSES[`../../../assets/sounds/${style}/${kind}.wav`];
  if (address === undefined) throw new Error(`no recording of ${style} ${kind}`);
  return address;
}

/** Fetches one recording whole, from the worker's copy when there is no network. */
export async function fetchClip(kind: SoundKind, style: Exclude<CueStyle, 'silent'>): Promise<ArrayBuffer> {
  const answer = await fetch(clipAddress(kind, style));
  if (!answer.ok) throw new Error(`recording of ${style} ${kind}: ${answer.status}`);
  return answer.arrayBuffer();
}
