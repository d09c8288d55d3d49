import { expect, test } from 'vitest';
import { browserPageLife } from '../../../app/platform/page-life.ts';
import type { PageEvent } from '../../../src/ports/page-life.ts';
import { pageLifeContract } from '../../contracts/page-life.ts';

/** A document and a window that send the events of a browser, in Chromium's order. */
function browser() {
  const document = Object.assign(new EventTarget(), { visibilityState: 'visible' as DocumentVisibilityState });
  const window = new EventTarget();
  const see = (state: DocumentVisibilityState) => {
    document.visibilityState = state;
    document.dispatchEvent(new Event('visibilitychange'));
  };
  return {
    document,
    window,
    page: browserPageLife({ document, window } as unknown as Parameters<typeof browserPageLife>[0]),
    hide: () => see('hidden'),
    show: () => see('visible'),
    freeze: () => {
      see('hidden');
      document.dispatchEvent(new Event('freeze'));
    },
    thaw: () => {
      document.dispatchEvent(new Event('resume'));
      see('visible');
    },
    focus: () => window.dispatchEvent(new Event('focus')),
    leave: () => window.dispatchEvent(new Event('pagehide')),
  };
}

pageLifeContract('of the browser', () => {
  const world = browser();
  return { ...world, focus: () => void world.focus(), leave: () => void world.leave() };
});

test('a page that comes back from the browser cache has woken', () => {
  const { page, window } = browser();
  const told: PageEvent[] = [];
  page.listen((event) => told.push(event));
  window.dispatchEvent(new Event('pageshow'));
  expect(told).toEqual(['woke']);
});
