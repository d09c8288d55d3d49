import type { FloorView } from '../../../src/class-run/hall-values.ts';

/** A shown floor line may be this far off before it is set anew: a hair's breadth of it, but a slept-through second is more. */
const DRIFT_MS = 100;

/** One floor line on screen. */
export type FloorMotion = {
  /** Brings it to a view of span `span`. Does nothing while it already runs as it should: no script moves it. */
  readonly show: (floor: FloorView, span: number | null) => void;
  readonly stop: () => void;
};

/** Parts of the whole that are left, 0 to 1. */
export function shareLeft({ leftMs, wholeMs }: FloorView): number {
  return Math.min(1, Math.max(0, leftMs / wholeMs));
}

/** How far off a running animation is from a view, in ms of class time. */
function driftMs(floor: FloorView, startedLeftMs: number, playedMs: number): number {
  return Math.abs(startedLeftMs - playedMs - floor.leftMs);
}

/**
 * Shortens an element toward its middle by an animation of its transform alone, which the compositor runs. `rate` is
 * class time per real time. Where elements cannot be animated it is set at each view.
 */
export function floorMotion(bar: HTMLElement, rate: number): FloorMotion {
  let running: { readonly animation: Animation; readonly span: number | null; readonly floor: FloorView } | null = null;

  const isGood = (floor: FloorView, span: number | null): boolean => {
    if (running === null || running.span !== span || running.floor.wholeMs !== floor.wholeMs) return false;
    const played = Number(running.animation.currentTime ?? 0) * rate;
    return driftMs(floor, running.floor.leftMs, played) <= DRIFT_MS * rate;
  };
  const stop = (): void => {
    running?.animation.cancel();
    running = null;
  };
  const still = (floor: FloorView): void => {
    stop();
    bar.style.transform = `scaleX(${shareLeft(floor)})`;
  };

  return {
    show: (floor, span) => {
      if (!floor.runs || typeof bar.animate !== 'function') {
        still(floor);
        return;
      }
      if (isGood(floor, span)) return;
      still(floor);
      const frames = [{ transform: `scaleX(${shareLeft(floor)})` }, { transform: 'scaleX(0)' }];
      const animation = bar.animate(frames, { duration: Math.max(1, floor.leftMs / rate), fill: 'forwards' });
      // Engines differ in whether a cancelled animation's promise counts as a fault that nobody caught.
      animation.finished.catch(() => undefined);
      running = { animation, span, floor };
    },
    stop,
  };
}
