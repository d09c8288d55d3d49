import type { PageEvent, PageLife } from '../../src/ports/page-life.ts';
import { hearers } from './hearers.ts';

/** As much of the browser's document and window as is listened to. */
export type PageParts = {
  readonly document: Pick<Document, 'visibilityState' | 'addEventListener'>;
  readonly window: Pick<Window, 'addEventListener'>;
};

/**
 * The page's life from the browser's own events. Which of them comes first after a sleep differs (Chromium: resume,
 * focus, then visibilitychange), so several are told: whoever hears one looks at the clock, and may do so twice.
 */
export function browserPageLife({ document, window }: PageParts): PageLife {
  const { tell, listen } = hearers<PageEvent>();
  const isVisible = () => document.visibilityState === 'visible';

  document.addEventListener('visibilitychange', () => tell(isVisible() ? 'visible' : 'hidden'));
  document.addEventListener('freeze', () => tell('frozen'));
  document.addEventListener('resume', () => tell('woke'));
  window.addEventListener('pageshow', () => tell('woke'));
  window.addEventListener('focus', () => tell('focused'));
  window.addEventListener('pagehide', () => tell('leaving'));

  return { isVisible, listen };
}

/** The page can be seen or used again: whatever the system took meanwhile may be asked for. */
export function isBack(event: PageEvent): boolean {
  return event === 'visible' || event === 'woke' || event === 'focused';
}
