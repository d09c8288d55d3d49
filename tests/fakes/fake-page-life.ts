import type { PageEvent, PageLife } from '../../src/ports/page-life.ts';

export type FakePageLife = PageLife & {
  readonly hide: () => void;
  readonly show: () => void;
  /** Hidden first where it was not, as browsers do. */
  readonly freeze: () => void;
  /** Out of a freeze: `woke`, then `visible`. */
  readonly thaw: () => void;
  readonly focus: () => void;
  readonly leave: () => void;
};

/** A page's life moved by hand; visible at first. */
export function fakePageLife(): FakePageLife {
  const hearers = new Set<{ readonly hear: (event: PageEvent) => void }>();
  let isVisible = true;
  const tell = (event: PageEvent) => {
    for (const one of [...hearers]) one.hear(event);
  };
  const see = (visible: boolean) => {
    if (visible === isVisible) return;
    isVisible = visible;
    tell(visible ? 'visible' : 'hidden');
  };
  return {
    isVisible: () => isVisible,
    listen: (hear) => {
      const one = { hear };
      hearers.add(one);
      return () => {
        hearers.delete(one);
      };
    },
    hide: () => see(false),
    show: () => see(true),
    freeze: () => {
      see(false);
      tell('frozen');
    },
    thaw: () => {
      tell('woke');
      see(true);
    },
    focus: () => tell('focused'),
    leave: () => tell('leaving'),
  };
}
