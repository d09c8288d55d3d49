import type { HistoryWindow } from '../../app/screens/stay-in-class.ts';

type Entry = { readonly href: string; readonly state: unknown };

/**
 * A window's history as browsers keep it: a traversal waits for `settle`, a new address cuts off what lay ahead, and
 * the same address again takes the place of the present entry.
 */
export function fakeHistoryWindow(href: string) {
  let entries: Entry[] = [{ href, state: null }];
  let at = 0;
  let pending: number[] = [];
  let hasLeft = false;
  const hearers = new Set<() => void>();
  const present = (): Entry => entries[at] ?? { href: 'outside', state: null };
  const tell = (): void => {
    for (const hear of [...hearers]) hear();
  };
  const replace = (entry: Entry): void => {
    entries = entries.map((one, index) => (index === at ? entry : one));
  };

  const page: HistoryWindow = {
    history: {
      get state() {
        return present().state;
      },
      go: (by = 0) => {
        pending.push(by);
      },
      replaceState: (state: unknown, _title: string, to?: string | URL | null) => {
        replace({ href: to === undefined || to === null ? present().href : String(to), state });
      },
    },
    location: {
      get href() {
        return present().href;
      },
    },
    addEventListener: (_type, hear) => {
      hearers.add(hear);
    },
    removeEventListener: (_type, hear) => {
      hearers.delete(hear);
    },
  };

  return {
    page,
    hrefs: (): readonly string[] => entries.map((entry) => entry.href),
    present: (): string => present().href,
    /** Whether a traversal led back beyond the first entry: to another page, or out of the app. */
    hasLeft: (): boolean => hasLeft,
    /** A link is followed, or an address typed. */
    follow: (to: string): void => {
      if (to === present().href) replace({ href: to, state: null });
      else {
        entries = [...entries.slice(0, at + 1), { href: to, state: null }];
        at += 1;
      }
      tell();
    },
    /** `location.replace`. */
    swap: (to: string): void => {
      replace({ href: to, state: null });
      tell();
    },
    /** Back and Forward, any number of entries at once. */
    travel: (by: number): void => {
      pending.push(by);
    },
    /** Carries out traversals until none is left; one that leads nowhere does nothing. */
    settle: (): void => {
      for (let turns = 0; pending.length > 0; turns += 1) {
        if (turns > 50) throw new Error('the history never comes to rest');
        const by = pending.shift() ?? 0;
        if (at + by < 0) hasLeft = true;
        if (by === 0 || entries[at + by] === undefined) continue;
        at += by;
        tell();
      }
      pending = [];
    },
  };
}
