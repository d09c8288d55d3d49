/** As much of a window as is needed here. */
export type HistoryWindow = {
  readonly history: Pick<History, 'state' | 'go' | 'replaceState'>;
  readonly location: Pick<Location, 'href'>;
  readonly addEventListener: (type: 'popstate', hear: () => void) => void;
  readonly removeEventListener: (type: 'popstate', hear: () => void) => void;
};

/**
 * Keeps the window on the entry that a class runs in. A move through the history cannot be refused, only undone; so
 * that it can be, every entry carries its step, written over the entry itself. No entry is ever added: the browser
 * comes back by `go`, and an entry that was put in the place of the class's own becomes that again.
 * Returns how to stop.
 */
export function stayInClass(page: HistoryWindow, isLive: () => boolean): () => void {
  const { history, location } = page;
  let here = stepOf(history.state) ?? 0;
  let hereHref = location.href;
  let hasGoneBack = false;
  stamp();

  function stamp(): void {
    hereHref = location.href;
    const state: unknown = history.state;
    if (stepOf(state) !== here) history.replaceState({ ...(isRecord(state) ? state : {}), step: here }, '');
  }

  function settle(): void {
    here = stepOf(history.state) ?? here + 1;
    stamp();
  }

  function comeBack(): void {
    const landed = stepOf(history.state);
    if (landed === here) {
      hasGoneBack = false;
    } else if (landed !== null) {
      history.go(here - landed);
    } else if (hasGoneBack || location.href === hereHref) {
      // This entry stands where the class's own stood: going back from it led before the class, or it has its address.
      history.replaceState({ step: here }, '', hereHref);
      hasGoneBack = false;
    } else {
      hasGoneBack = true;
      history.go(-1);
    }
  }

  // A changed `#` fires this too. Hearing `hashchange` as well would come back twice from one move.
  const hear = (): void => (isLive() ? comeBack() : settle());
  page.addEventListener('popstate', hear);
  return () => page.removeEventListener('popstate', hear);
}

function stepOf(state: unknown): number | null {
  return isRecord(state) && typeof state['step'] === 'number' ? state['step'] : null;
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null;
}
