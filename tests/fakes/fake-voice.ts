import type { Clocks } from '../../src/ports/clocks.ts';
import type { Voice, VoiceFact } from '../../src/ports/voice.ts';

export type FakeVoice = Voice & {
  /** What was said, in order, with its instant. */
  readonly said: () => readonly { readonly line: string; readonly atMonoMs: number }[];
  readonly hushes: () => number;
  readonly become: (fact: VoiceFact) => void;
};

/** A voice that speaks into memory; `ok` at first. */
export function fakeVoice(clocks: Clocks): FakeVoice {
  const hearers = new Set<{ readonly hear: (fact: VoiceFact) => void }>();
  const said: { readonly line: string; readonly atMonoMs: number }[] = [];
  let hushes = 0;
  let fact: VoiceFact = 'ok';
  return {
    say: (line) => {
      if (fact !== 'absent') said.push({ line, atMonoMs: clocks.monoMs() });
    },
    hush: () => {
      hushes += 1;
    },
    fact: () => fact,
    listen: (hear) => {
      const one = { hear };
      hearers.add(one);
      return () => {
        hearers.delete(one);
      };
    },
    said: () => [...said],
    hushes: () => hushes,
    become: (now) => {
      if (now === fact) return;
      fact = now;
      for (const one of [...hearers]) one.hear(now);
    },
  };
}
