import { effect, useComputed } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { LiveClass } from '../../live/live-contract.ts';
import { floorMotion, shareLeft } from './floor-motion.ts';

/** The time left as the floor: it shortens toward its middle, and stands hollow while the class does. */
export function FloorLine({ live }: { readonly live: Pick<LiveClass, 'view' | 'rate'> }) {
  const bar = useRef<HTMLDivElement>(null);
  const isStill = useComputed(() => live.view.value.hollow && !live.view.value.floor.runs);
  const share = useComputed(() => (isStill.value ? shareLeft(live.view.value.floor) : 1));
  const isShown = useComputed(() => live.view.value.spanId !== null && !live.view.value.gate);

  useEffect(() => {
    if (bar.current === null || isStill.value || !isShown.value) return;
    const motion = floorMotion(bar.current, live.rate);
    const forget = effect(() => motion.show(live.view.value.floor, live.view.value.spanId));
    return () => {
      forget();
      motion.stop();
    };
  }, [live, isStill.value, isShown.value]);

  if (!isShown.value) return null;
  // Two elements, not one in two moods: what moves one leaves its transform on it.
  if (isStill.value) return <div key="still" class="floor-left hollow" style={{ width: `${100 * share.value}%` }} />;
  return <div key="runs" class="floor-left" ref={bar} />;
}
