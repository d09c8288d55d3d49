import { Howler } from 'howler/dist/howler.core.min.js';
import { clips } from '../../../../app/platform/sound/clips.ts';
import { webAudioCueLine } from '../../../../app/platform/sound/cue-line.ts';
import { howlerContext } from '../../../../app/platform/sound/howler-context.ts';
import type { SoundKind } from '../../../../src/class-run/cue.ts';
import { type FakeAudioOptions, fakeAudio } from '../../../fakes/fake-audio-context.ts';
import { fakeClocks } from '../../../fakes/fake-clocks.ts';
import { fakePageLife } from '../../../fakes/fake-page-life.ts';
import { memoryLog } from '../../../fakes/memory-log.ts';

/** A phone has one Howler, which outlives a test. */
function forgetHowler(): void {
  Object.assign(Howler, { ctx: null, masterGain: null });
}

/** The real cue line on a phone whose sound is driven by hand. `load` gives a recording's bytes: its name, for the fake to read. */
export function phoneWithSound(
  options: FakeAudioOptions & { readonly load?: (name: string) => Promise<ArrayBuffer> } = {},
) {
  forgetHowler();
  const clocks = fakeClocks();
  const audio = fakeAudio(clocks, options);
  const pageLife = fakePageLife();
  const log = memoryLog();
  const bytesOf = async (name: string) => new TextEncoder().encode(name).buffer as ArrayBuffer;
  const sounds = clips({ load: (kind, style) => (options.load ?? bytesOf)(`${style}/${kind}`), log });
  const session = { type: 'auto' };
  const context = howlerContext({ makeContext: audio.makeContext, audioSession: session, log });
  const line = webAudioCueLine({ sound: context, clips: sounds, ...clocks, pageLife, log });

  return {
    line,
    clocks,
    audio,
    pageLife,
    log,
    session,
    context,
    heard: () =>
      audio.heard().map(({ label, atMonoMs, lastedMs }) => {
        const [style = '', kind = ''] = label.split('/');
        return { kind: kind as SoundKind, style, atMonoMs, isCut: lastedMs < 299 };
      }),
    /** Time passes, tended four times a second. */
    pass: async (ms: number) => {
      for (let left = ms; left > 0; left -= 250) {
        line.tend();
        await clocks.advanceSettling(Math.min(250, left));
      }
    },
  };
}
