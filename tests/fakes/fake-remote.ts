import type { Remote, RemoteAsk } from '../../src/ports/remote.ts';

export type FakeRemote = Remote & {
  /** A key is pressed; nobody hears it while the keys are not taken. */
  readonly key: (ask: RemoteAsk) => void;
  /** Title now shown, or null while the keys are let go. */
  readonly title: () => string | null;
};

/** A headset without a headset. */
export function fakeRemote(): FakeRemote {
  const hearers = new Set<{ readonly hear: (ask: RemoteAsk) => void }>();
  let title: string | null = null;
  return {
    take: (shown) => {
      title = shown;
    },
    letGo: () => {
      title = null;
    },
    listen: (hear) => {
      const one = { hear };
      hearers.add(one);
      return () => {
        hearers.delete(one);
      };
    },
    key: (ask) => {
      if (title !== null) for (const one of [...hearers]) one.hear(ask);
    },
    title: () => title,
  };
}
