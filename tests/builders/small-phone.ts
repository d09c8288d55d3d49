import type { LivePorts } from '../../app/live/live-class.ts';
import { type FakeClocks, fakeClocks } from '../fakes/fake-clocks.ts';
import { type FakePageLife, fakePageLife } from '../fakes/fake-page-life.ts';
import { type FakeRemote, fakeRemote } from '../fakes/fake-remote.ts';
import { type FakeVoice, fakeVoice } from '../fakes/fake-voice.ts';
import { type FakeWakeLock, fakeWakeLock } from '../fakes/fake-wake-lock.ts';
import { type MemoryCueLine, memoryCueLine } from '../fakes/memory-cue-line.ts';

/** A phone of doubles, all on the same fake clocks. */
export type SmallPhone = {
  readonly time: FakeClocks;
  readonly page: FakePageLife;
  readonly cueLine: MemoryCueLine;
  readonly voice: FakeVoice;
  readonly wakeLock: FakeWakeLock;
  readonly remote: FakeRemote;
  readonly ports: LivePorts;
};

/** Everything works on it until a test says otherwise. */
export function smallPhone(time: FakeClocks = fakeClocks()): SmallPhone {
  const page = fakePageLife();
  const cueLine = memoryCueLine(time);
  const voice = fakeVoice(time.clocks);
  const wakeLock = fakeWakeLock(page);
  const remote = fakeRemote();
  const { clocks, timers } = time;
  const ports = {
    clocks,
    timers,
    pageLife: page,
    cueLine,
    voice,
    wakeLock,
    remote,
    hiddenTicker: () => () => undefined,
  };
  return { time, page, cueLine, voice, wakeLock, remote, ports };
}
