import type { HallView } from '../../../src/class-run/hall-view.ts';

/** What ink stands on: light, or dark for changing. */
export type Field = 'light' | 'dark';

/** Changes of the whole field are at least this far apart: far below the three flashes a second of WCAG 2.3.1. */
export const LEAST_APART_MS = 1000;

/** Shorter work stays light to its end: it would be dark and light again in one breath. */
const LEAST_WORK_MS = 9000;

/** The field as it is shown, and the monotonic instant of its last change; null before the first. */
export type LatchState = { readonly shown: Field; readonly changedAtMs: number | null };

/** What a latch came to, and in how many ms to ask it again; null when it shows what is wanted. */
export type Latched = { readonly state: LatchState; readonly againInMs: number | null };

/** Lets a wanted field through, or says how long it has to wait. Whoever asks again asks with what is wanted then. */
export function latch(state: LatchState, wanted: Field, nowMs: number): Latched {
  if (wanted === state.shown) return { state, againInMs: null };
  const waitMs = state.changedAtMs === null ? 0 : state.changedAtMs + LEAST_APART_MS - nowMs;
  if (waitMs > 0) return { state, againInMs: waitMs };
  return { state: { shown: wanted, changedAtMs: nowMs }, againInMs: null };
}

/** The field that a view asks for. */
export function wantedField({ field, kind, floor }: Pick<HallView, 'field' | 'kind' | 'floor'>): Field {
  return kind === 'work' && floor.wholeMs < LEAST_WORK_MS ? 'light' : field;
}
