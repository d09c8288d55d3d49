import { computed, type ReadonlySignal } from '@preact/signals';
import { useMemo } from 'preact/hooks';

/**
 * A part of a signal that stays the same object while its values do, so that a view redrawn every second redraws only
 * what changed. For plain data: compared by its JSON text.
 */
function steady<From, Part>(from: ReadonlySignal<From>, pick: (value: From) => Part): ReadonlySignal<Part> {
  let last: { readonly text: string; readonly part: Part } | null = null;
  return computed(() => {
    const part = pick(from.value);
    const text = JSON.stringify(part);
    if (last?.text !== text) last = { text, part };
    return last.part;
  });
}

/** `steady` for as long as a component lives; `pick` must be the same function every time. */
export function useSteady<From, Part>(from: ReadonlySignal<From>, pick: (value: From) => Part): Part {
  return useMemo(() => steady(from, pick), [from, pick]).value;
}
