import { describe, expect, it } from 'vitest';
import { drawPose } from '../../src/figures/draw.ts';
import { FIGURE_IDS, poseOf } from '../../src/figures/poses.ts';

const tones = (figure: string, isOneSided: boolean) =>
  drawPose(poseOf(figure), isOneSided).strokes.map(({ tone }) => tone);

describe('drawing a pose', () => {
  it('draws far limbs grey and before the near ones', () => {
    expect(tones('lunge', false)).toEqual(['far', 'far', 'near', 'near', 'near', 'near']);
  });

  it('leaves only the working limb ink when one side works', () => {
    // Back to front: far arm, far leg, trunk, head, near leg, near arm.
    expect(tones('lunge', true)).toEqual(['far', 'far', 'near', 'near', 'near', 'far']);
  });

  it('draws one outline of a body seen from the front, and takes the grey limbs out of it', () => {
    expect(tones('starJump', false)).toEqual(['near', 'near']);
    expect(tones('sideBend', true)).toEqual(['far', 'far', 'far', 'near', 'near']);
  });

  it('changes nothing for a pose without sides', () => {
    for (const id of FIGURE_IDS.filter((figure) => poseOf(figure).working === undefined)) {
      expect(drawPose(poseOf(id), true), id).toEqual(drawPose(poseOf(id), false));
    }
  });

  it('keeps a limb that works in ink for every pose with sides', () => {
    for (const id of FIGURE_IDS.filter((figure) => poseOf(figure).working !== undefined)) {
      expect(drawPose(poseOf(id), true).strokes, id).not.toEqual(drawPose(poseOf(id), false).strokes);
      expect(poseOf(id).working?.length, id).toBeGreaterThan(0);
    }
  });

  it('parts the body from what lies behind it, but no sole from the ground under it', () => {
    const { strokes } = drawPose(poseOf('stepUp'));
    expect(strokes.map(({ isCased }) => isCased)).toEqual([true, true, true, true, true, true, false]);
  });

  it('faces left: the toes of a lunge are left of its trailing foot', () => {
    const { box } = drawPose(poseOf('lunge'));
    expect(-box.minX).toBeGreaterThan(23);
    expect(box.minX).toBeLessThan(0);
  });

  it('knows who is down on the floor from who stands, squats or kneels tall', () => {
    const low = FIGURE_IDS.filter((id) => drawPose(poseOf(id)).lies);
    for (const id of ['lieBack', 'plankHigh', 'allFours', 'sitTall', 'childRest', 'sidePlank', 'crunch']) {
      expect(low, id).toContain(id);
    }
    for (const id of ['squat', 'lunge', 'hipFlexorStretch', 'sitToChair', 'row', 'stand'])
      expect(low, id).not.toContain(id);
  });
});
