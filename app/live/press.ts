import type { Clocks, Timers } from '../../src/ports/clocks.ts';

/** Two presses of a clicker within this are one ask for the next move. */
const DOUBLE_PRESS_MS = 350;

/** Tells one press from two. A single press is given out after the wait, with the instant it was made at. */
export type Presses = { readonly press: () => void; readonly forget: () => void };

/** `once` hears a single press with its monotonic instant; `twice` a double one, at once. */
export function tellPresses(
  clocks: Clocks,
  timers: Timers,
  once: (monoMs: number) => void,
  twice: () => void,
): Presses {
  let cancel: (() => void) | null = null;
  const forget = () => {
    cancel?.();
    cancel = null;
  };
  return {
    forget,
    press: () => {
      if (cancel !== null) {
        forget();
        twice();
        return;
      }
      const pressedMonoMs = clocks.monoMs();
      cancel = timers.after(DOUBLE_PRESS_MS, () => {
        cancel = null;
        once(pressedMonoMs);
      });
    },
  };
}
