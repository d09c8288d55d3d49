import { type BrowserContext, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { inject } from 'vitest';
import { startServer } from '../../../app/build/serve.mjs';

/** A screen in CSS px. */
export type ScreenSize = { readonly width: number; readonly height: number };

export const UPRIGHT: ScreenSize = { width: 390, height: 844 };
export const ON_ITS_SIDE: ScreenSize = { width: 844, height: 390 };
export const TABLET: ScreenSize = { width: 768, height: 1024 };
export const PROJECTOR: ScreenSize = { width: 1280, height: 800 };

/** "844x390". */
export const sizeName = ({ width, height }: ScreenSize): string => `${width}x${height}`;

/** One Chromium over the built app whose pages can have any size and are always seen: for looking, not for freezing. */
export type Screens = {
  readonly url: string;
  /** Somebody else's phone: nothing of the other contexts is kept in it. */
  readonly newContext: (options?: BrowserContextOptions) => Promise<BrowserContext>;
  readonly end: () => Promise<void>;
};

export async function openScreens(): Promise<Screens> {
  const args = ['--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage'];
  const browser = await chromium.launch({ executablePath: inject('chromium'), args });
  const server = await startServer({ root: inject('builtApp'), port: 0 });
  return {
    url: server.url,
    newContext: (options = {}) => browser.newContext(options),
    end: async () => {
      await browser.close();
      await server.close();
    },
  };
}

/** Gives the page another size and waits until it is drawn so, with every change of colour at its end. */
export async function resize(page: Page, size: ScreenSize): Promise<void> {
  await page.setViewportSize(size);
  await untilSettled(page);
}

/** Waits until the fonts are there and no colour is on its way any more. What moves by an animation goes on moving. */
export async function untilSettled(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await document.fonts.ready;
    const turning = document.getAnimations().filter((one) => one instanceof CSSTransition);
    await Promise.allSettled(turning.map(({ finished }) => finished));
  });
}
