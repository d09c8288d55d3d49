import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { HallView } from '../../../src/class-run/hall-view.ts';
import type { Clocks, Timers } from '../../../src/ports/clocks.ts';
import { type Field, type LatchState, latch, wantedField } from './field.ts';

/** The one way in which the field of a hall changes. */
export type FieldLatch = { readonly field: ReadonlySignal<Field>; readonly stop: () => void };

/** Follows a view through the latch until stopped; the first field is shown at once. */
export function followField(
  view: ReadonlySignal<Pick<HallView, 'field' | 'kind' | 'floor'>>,
  clocks: Pick<Clocks, 'monoMs'>,
  timers: Timers,
): FieldLatch {
  let state: LatchState = { shown: wantedField(view.peek()), changedAtMs: null };
  let callOff: (() => void) | null = null;
  const field = signal<Field>(state.shown);

  const follow = (wanted: Field): void => {
    callOff?.();
    callOff = null;
    const latched = latch(state, wanted, clocks.monoMs());
    state = latched.state;
    field.value = state.shown;
    // A later word of the view calls this off above: only the last one counts when the time has come.
    if (latched.againInMs !== null) callOff = timers.after(latched.againInMs, () => follow(wanted));
  };

  const forget = effect(() => follow(wantedField(view.value)));
  return {
    field,
    stop: () => {
      forget();
      callOff?.();
    },
  };
}
