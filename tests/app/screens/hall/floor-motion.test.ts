import { describe, expect, it } from 'vitest';
import { floorMotion, shareLeft } from '../../../../app/screens/hall/floor-motion.ts';

/** A bar whose animations are counted and whose play time is set by hand. */
function bar() {
  const animations: { readonly from: string; readonly durationMs: number; currentTime: number; isOff: boolean }[] = [];
  const element = document.createElement('div');
  element.animate = ((frames: Keyframe[], options: KeyframeAnimationOptions) => {
    const animation = {
      from: String(frames[0]?.['transform']),
      durationMs: Number(options.duration),
      currentTime: 0,
      isOff: false,
      finished: new Promise<Animation>(() => undefined),
      cancel: () => {
        animation.isOff = true;
      },
    };
    animations.push(animation);
    return animation as unknown as Animation;
  }) as HTMLElement['animate'];
  return { element, animations };
}
const runs = (leftMs: number, wholeMs = 30_000) => ({ leftMs, wholeMs, runs: true });

describe('the floor line', () => {
  it('is set going once a span and then left to the compositor', () => {
    const { element, animations } = bar();
    const motion = floorMotion(element, 1);
    motion.show(runs(24_000), 7);
    for (const second of [1, 2, 3]) {
      if (animations[0] !== undefined) animations[0].currentTime = second * 1000;
      motion.show(runs(24_000 - second * 1000), 7);
    }
    expect(animations).toHaveLength(1);
    expect(animations[0]).toMatchObject({ from: 'scaleX(0.8)', durationMs: 24_000 });
  });

  it('is set anew for another span', () => {
    const { element, animations } = bar();
    const motion = floorMotion(element, 1);
    motion.show(runs(24_000), 7);
    motion.show(runs(24_000), 8);
    expect(animations.map(({ isOff }) => isOff)).toEqual([true, false]);
  });

  it('is set anew when ten seconds were given or the phone slept', () => {
    const { element, animations } = bar();
    const motion = floorMotion(element, 1);
    motion.show(runs(24_000), 7);
    motion.show(runs(34_000, 40_000), 7);
    motion.show(runs(20_000, 40_000), 7);
    expect(animations).toHaveLength(3);
  });

  it('stands still where the class does', () => {
    const { element, animations } = bar();
    const motion = floorMotion(element, 1);
    motion.show(runs(24_000), 7);
    motion.show({ leftMs: 15_000, wholeMs: 30_000, runs: false }, 7);
    expect(animations[0]?.isOff).toBe(true);
    expect(element.style.transform).toBe('scaleX(0.5)');
  });

  it('goes faster in a rehearsal', () => {
    const { element, animations } = bar();
    floorMotion(element, 10).show(runs(24_000), 7);
    expect(animations[0]?.durationMs).toBe(2400);
  });

  it('is set at every view where nothing can be animated', () => {
    const element = document.createElement('div');
    Object.defineProperty(element, 'animate', { value: undefined });
    const motion = floorMotion(element, 1);
    motion.show(runs(15_000), 7);
    motion.show(runs(12_000), 7);
    expect(element.style.transform).toBe('scaleX(0.4)');
  });

  it('never shows more than the whole or less than nothing', () => {
    expect(shareLeft(runs(40_000))).toBe(1);
    expect(shareLeft(runs(-1))).toBe(0);
  });
});
