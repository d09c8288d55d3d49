import { fetchClip } from '../../../app/platform/sound/clip-addresses.ts';
import { SOUND_KINDS } from '../../../app/platform/sound/clips.ts';

/** What each of these buffers is, "sharp tick", told by its samples and not by who handed it over; "unknown" else. */
export async function clipNames(buffers: readonly AudioBuffer[]): Promise<ReadonlyMap<AudioBuffer, string>> {
  const names = new Map<AudioBuffer, string>();
  for (const sampleRate of new Set(buffers.map((buffer) => buffer.sampleRate))) {
    const known = await decodeAll(sampleRate);
    for (const buffer of buffers.filter((each) => each.sampleRate === sampleRate)) {
      names.set(buffer, known.find((each) => isSame(each.buffer, buffer))?.name ?? 'unknown');
    }
  }
  return names;
}

function decodeAll(sampleRate: number): Promise<{ name: string; buffer: AudioBuffer }[]> {
  const context = new OfflineAudioContext(1, 1, sampleRate);
  const pairs = (['sharp', 'soft'] as const).flatMap((style) => SOUND_KINDS.map((kind) => ({ style, kind })));
  return Promise.all(
    pairs.map(async ({ style, kind }) => {
      const buffer = await context.decodeAudioData(await fetchClip(kind, style));
      return { name: `${style} ${kind}`, buffer };
    }),
  );
}

function isSame(one: AudioBuffer, other: AudioBuffer): boolean {
  const samples = other.getChannelData(0);
  return one.length === other.length && one.getChannelData(0).every((sample, at) => sample === samples[at]);
}
