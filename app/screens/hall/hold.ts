import type { Timers } from '../../../src/ports/clocks.ts';

/** What ends a class is held for this long, so that no brush of a sleeve ends one. */
export const HOLD_MS = 1000;

/** A button that is held. `isHeld` is true from press to release or to the end of the time. */
export type Hold = { readonly press: () => void; readonly release: () => void; readonly isHeld: () => boolean };

/** `done` is called once a press has lasted; `short` when one was let go too soon; `change` when it begins or ends. */
export function holdFor(
  timers: Timers,
  hear: { readonly done: () => void; readonly short: () => void; readonly change: (isHeld: boolean) => void },
): Hold {
  let callOff: (() => void) | null = null;
  const end = (): void => {
    callOff?.();
    callOff = null;
    hear.change(false);
  };
  return {
    press: () => {
      // A second finger, or a key that repeats, begins nothing.
      if (callOff !== null) return;
      callOff = timers.after(HOLD_MS, () => {
        end();
        hear.done();
      });
      hear.change(true);
    },
    release: () => {
      if (callOff === null) return;
      end();
      hear.short();
    },
    isHeld: () => callOff !== null,
  };
}
