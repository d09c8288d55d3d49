import { describe, expect, it } from 'vitest';
import { drawPose } from '../../src/figures/draw.ts';
import { casingAt, frameOf, scaleIn } from '../../src/figures/frame.ts';
import { FIGURE_IDS, poseOf } from '../../src/figures/poses.ts';

const frame = (figure: string) => frameOf(drawPose(poseOf(figure)));

describe('the frame of a figure', () => {
  it('ends at the floor, so that soles stand on the edge', () => {
    for (const id of FIGURE_IDS) expect(frame(id).y + frame(id).height, id).toBeCloseTo(0, 6);
  });

  it('holds all of every drawing', () => {
    for (const id of FIGURE_IDS) {
      const { box } = drawPose(poseOf(id));
      expect(frame(id).x, id).toBe(box.minX);
      expect(frame(id).x + frame(id).width, id).toBeCloseTo(box.maxX, 6);
      expect(frame(id).y, id).toBeLessThanOrEqual(box.minY);
    }
  });

  it('never draws a low body more than one and a half times as large as one standing', () => {
    const standing = scaleIn(frame('stand'), 300, 300);
    for (const id of FIGURE_IDS) expect(scaleIn(frame(id), 300, 300), id).toBeLessThan(1.5 * standing);
  });
});

describe('the casing', () => {
  it('is at least 10 px in the hall, whichever figure fills the 300 px box', () => {
    for (const id of FIGURE_IDS) {
      const scale = scaleIn(frame(id), 300, 300);
      expect(casingAt(scale) * scale, id).toBeGreaterThanOrEqual(10);
    }
  });

  it('stays thinner than a limb where a figure is small', () => {
    expect(casingAt(0.5)).toBeLessThan(5);
    expect(casingAt(0)).toBeLessThan(5);
  });
});
