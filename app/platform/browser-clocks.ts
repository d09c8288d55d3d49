import type { Clocks } from '../../src/ports/clocks.ts';

/** The clocks of this page. Rounded by the browser to 0.1-1 ms against fingerprinting. */
export const browserClocks: Clocks = {
  monoMs: () => performance.now(),
  wallMs: () => Date.now(),
};
