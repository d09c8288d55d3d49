import type { BrowserContext, Page } from 'playwright-core';

/** What the hall root said, and when it was on the screen by the page's clock. */
export type Painted = {
  readonly status: string;
  readonly kind: string;
  readonly left: string;
  readonly digits: string;
  /** When the page came to say so. */
  readonly changedWallMs: number;
  /** Right after the frame that shows it was drawn; from the start of the navigation. */
  readonly paintedMonoMs: number;
};

declare global {
  interface Window {
    painted: Painted[];
    /** Time stamps of presses of a button, by the event's own clock, which is the page's. */
    pressedMs: number[];
  }
}

/** Makes every page of the context from now on note what is painted in its hall. */
export async function watchPaints(context: Pick<BrowserContext, 'addInitScript'>): Promise<void> {
  await context.addInitScript(watchInPage);
}

export function paintsOf(page: Page): Promise<Painted[]> {
  return page.evaluate(() => window.painted);
}

function watchInPage(): void {
  window.painted = [];
  window.pressedMs = [];
  let before = '';

  /** A frame's own callbacks come before it is drawn; a message posted in one is heard after. */
  const afterFrame = (done: () => void): void => {
    requestAnimationFrame(() => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = done;
      port2.postMessage(null);
    });
  };

  const look = (): void => {
    const root = document.querySelector<HTMLElement>('[data-hall]');
    if (root === null) return;
    const { status = '', kind = '', left = '' } = root.dataset;
    const digits = root.querySelector('[role=timer]')?.textContent ?? '';
    const text = [status, kind, left, digits].join('|');
    if (text === before) return;
    before = text;
    const changedWallMs = Date.now();
    afterFrame(() => {
      window.painted.push({ status, kind, left, digits, changedWallMs, paintedMonoMs: performance.now() });
    });
  };

  addEventListener('click', ({ timeStamp }) => void window.pressedMs.push(timeStamp), true);
  const options = { subtree: true, childList: true, attributes: true, characterData: true };
  new MutationObserver(look).observe(document, options);
}
