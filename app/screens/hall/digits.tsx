import { useComputed } from '@preact/signals';
import type { LiveClass } from '../../live/live-contract.ts';

/**
 * The time left. Every character has a place of its own, counted from the right, so that nothing jumps when another
 * one changes; where no time runs down there are no digits.
 */
export function Digits({ live }: { readonly live: Pick<LiveClass, 'view'> }) {
  const text = useComputed(() => live.view.value.digits);
  const isHollow = useComputed(() => live.view.value.hollow);
  const places = [...text.value];
  return (
    <div class={isHollow.value ? 'hall-digits hollow' : 'hall-digits'} role="timer" data-size={sizeOf(places.length)}>
      {places.map((character, index) => (
        <span key={places.length - index} class={character === ':' ? 'hall-colon' : 'hall-digit'}>
          {character}
        </span>
      ))}
    </div>
  );
}

function sizeOf(places: number): 'seconds' | 'minutes' | 'long' {
  if (places <= 2) return 'seconds';
  return places <= 4 ? 'minutes' : 'long';
}
