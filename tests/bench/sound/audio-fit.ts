import type { Heard } from '../page/sound-page.tsx';

/** A quantum is rendered before its frames can be heard: the clock stands behind it when the audio thread tells of it. */
const QUANTUM_FRAMES = 128;
const WINDOW_SECONDS = 1;
/** A step of the clock against the page's in a second that no crystal makes. */
const JUMP_MS = 3;

/** How far the audio clock was behind the page's when it was told, ms. Too high by as much as the telling came late. */
function offsetMs({ sampleRate }: Heard, [monoMs, frame]: readonly [number, number]): number {
  return monoMs - ((frame + QUANTUM_FRAMES) / sampleRate) * 1000;
}

/**
 * The page's ms at which this tap's audio clock stood at `frame`, by a fit of the bench's own: the lowest of what the
 * audio thread told within a second on either side. A device renders in bursts and each telling comes late, so the truth
 * is the lowest. Of the two sides the higher one counts: where the clock jumped near by, the other side's belongs to the
 * time beyond the jump. NaN where nothing was told.
 */
export function monoAtFrame(tap: Heard, frame: number): number {
  const window = WINDOW_SECONDS * tap.sampleRate;
  const lowestIn = (from: number, to: number) =>
    Math.min(...tap.clock.filter(([, at]) => at >= from && at <= to).map((told) => offsetMs(tap, told)));
  const sides = [lowestIn(frame - window, frame), lowestIn(frame, frame + window)].filter(Number.isFinite);
  return sides.length === 0 ? Number.NaN : (frame / tap.sampleRate) * 1000 + Math.max(...sides);
}

/** A jump of the audio clock against the page's, and between which instants it was seen. */
export type Jump = { readonly byMs: number; readonly fromMonoMs: number; readonly toMonoMs: number };

/** Jumps of the audio clock from second to second. A device that gets no time leaves out a buffer, and says nothing. */
export function jumpsOf(tap: Heard): readonly Jump[] {
  const lowest = new Map<number, { readonly offsetMs: number; readonly monoMs: number }>();
  for (const told of tap.clock) {
    const second = Math.floor(told[1] / tap.sampleRate);
    const here = { offsetMs: offsetMs(tap, told), monoMs: told[0] };
    if (here.offsetMs < (lowest.get(second)?.offsetMs ?? Number.POSITIVE_INFINITY)) lowest.set(second, here);
  }
  const seconds = [...lowest.values()];
  return seconds.slice(1).flatMap((now, at) => {
    const before = seconds[at] ?? now;
    const byMs = now.offsetMs - before.offsetMs;
    return Math.abs(byMs) > JUMP_MS ? [{ byMs, fromMonoMs: before.monoMs, toMonoMs: now.monoMs }] : [];
  });
}
