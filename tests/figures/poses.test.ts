import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ANKLE_HEIGHT, armDiscs, LENGTHS, legDiscs, RADII, solve } from '../../src/figures/body.ts';
import { drawPose } from '../../src/figures/draw.ts';
import type { Point } from '../../src/figures/outline.ts';
import { FIGURE_IDS, poseOf } from '../../src/figures/poses.ts';

/** What the first issue of moves may name. */
const WANTED = [
  ...['stand', 'march', 'kneeLift', 'squat', 'halfSquat', 'sitToChair', 'lunge', 'splitStand', 'hinge', 'press', 'row'],
  ...['bandRow', 'plankHigh', 'pressUpLow', 'kneePressUp', 'wallPress', 'plankLow', 'sidePlank', 'kneeSidePlank'],
  ...['allFours', 'birdDog', 'bridge', 'deadBug', 'lieBack', 'crunch', 'sitTwist', 'starJump', 'sideStep', 'jumpSquat'],
  ...['climber', 'armCircle', 'sideBend', 'calfStretch', 'thighStretch', 'hamstringStretch', 'hipFlexorStretch'],
  ...['childRest', 'chestStretch', 'buttockStretch', 'stepUp', 'ropeSkip'],
];

const apart = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);
const lowest = (discs: readonly (Point & { readonly r: number })[]): number =>
  Math.min(...discs.map(({ y, r }) => y - r));

/** How low each part of a posed body comes, in body units over the floor. */
function heights(figure: string) {
  const joints = solve(poseOf(figure));
  return {
    head: joints.head.y - RADII.head,
    chest: joints.chest.y - RADII.chest,
    seat: joints.seat.y - RADII.seat,
    nearArm: lowest(armDiscs(joints.nearArm)),
    farArm: lowest(armDiscs(joints.farArm)),
    nearLeg: lowest(legDiscs(joints.nearLeg)),
    farLeg: lowest(legDiscs(joints.farLeg)),
    nearFoot: lowest(legDiscs(joints.nearLeg).slice(-2)),
    farFoot: lowest(legDiscs(joints.farLeg).slice(-2)),
  };
}

/** Every figure named anywhere in the library's files. */
function figuresNamed(): string[] {
  const folder = new URL('../../assets/moves/', import.meta.url);
  const named: string[] = [];
  for (const file of readdirSync(folder).filter((name) => name.endsWith('.json'))) {
    JSON.parse(readFileSync(new URL(file, folder), 'utf8'), (key, value) => {
      if (key === 'figure') named.push(String(value));
      return value;
    });
  }
  return named;
}

describe('the poses', () => {
  it('cover every figure that moves may name', () => {
    expect(WANTED.filter((id) => !FIGURE_IDS.includes(id))).toEqual([]);
  });

  it('cover every figure that the library names', () => {
    const named = figuresNamed();
    expect(named.length).toBeGreaterThan(25);
    expect(named.filter((id) => !FIGURE_IDS.includes(id))).toEqual([]);
  });

  it('stand for an unknown id, also for one that every object knows', () => {
    expect(poseOf('no such figure')).toBe(poseOf('stand'));
    expect(poseOf('constructor')).toBe(poseOf('stand'));
  });

  it('are all told apart: no two are drawn alike', () => {
    const drawn = FIGURE_IDS.map((id) => JSON.stringify(drawPose(poseOf(id)).strokes));
    expect(new Set(drawn).size).toBe(FIGURE_IDS.length);
  });
});

describe.each([...FIGURE_IDS])('%s', (id) => {
  const pose = poseOf(id);
  const joints = solve(pose);

  it('keeps every bone its length', () => {
    for (const arm of [joints.nearArm, joints.farArm]) {
      expect(apart(arm.shoulder, arm.elbow)).toBeCloseTo(LENGTHS.upperArm, 6);
      expect(apart(arm.elbow, arm.hand)).toBeCloseTo(LENGTHS.forearm, 6);
    }
    for (const leg of [joints.nearLeg, joints.farLeg]) {
      expect(apart(leg.hip, leg.knee)).toBeCloseTo(LENGTHS.thigh, 6);
      expect(apart(leg.knee, leg.ankle)).toBeCloseTo(LENGTHS.shank, 6);
    }
    expect(apart(joints.seat, joints.waist) + apart(joints.waist, joints.chest)).toBeCloseTo(LENGTHS.trunk, 6);
    expect(apart(joints.chest, joints.head)).toBeCloseTo(LENGTHS.neck, 6);
  });

  it('reaches with hands and feet what it reaches for', () => {
    expect(apart(joints.nearArm.hand, pose.nearArm.hand)).toBeLessThan(0.5);
    expect(apart(joints.farArm.hand, pose.farArm.hand)).toBeLessThan(0.5);
    expect(apart(joints.nearLeg.ankle, pose.nearLeg.ankle)).toBeLessThan(0.3);
    expect(apart(joints.farLeg.ankle, pose.farLeg.ankle)).toBeLessThan(0.3);
  });

  it('has no part below the floor, and rests on it unless in flight', () => {
    const low = Math.min(...Object.values(heights(id)));
    expect(low).toBeGreaterThan(-0.3);
    if (pose.inFlight === true) expect(low).toBeGreaterThan(5);
    else expect(low).toBeLessThan(0.3);
  });

  it('is drawn within sane bounds, from the floor up', () => {
    const { box, strokes } = drawPose(pose);
    expect(Math.abs(box.maxY)).toBeLessThan(0.3);
    expect(-box.minY).toBeGreaterThan(14);
    expect(-box.minY).toBeLessThan(122);
    expect(box.maxX - box.minX).toBeGreaterThan(24);
    expect(box.maxX - box.minX).toBeLessThan(118);
    for (const { d } of strokes) expect(d).toMatch(/^M[-\d. MLAZ]+Z$/);
  });

  it('keeps the head clear of hands that would hide it', () => {
    for (const { hand } of [joints.nearArm, joints.farArm]) {
      expect(apart(hand, joints.head)).toBeGreaterThan(RADII.head + 1);
    }
  });
});

describe('what touches the floor', () => {
  const touching = (figure: string, part: keyof ReturnType<typeof heights>) =>
    expect(Math.abs(heights(figure)[part]), `${figure} ${part}`).toBeLessThan(0.3);

  it('is both soles, flat, in what is done standing on both feet', () => {
    const onSoles = ['stand', 'squat', 'halfSquat', 'sitToChair', 'hinge', 'press', 'row', 'bandRow', 'wallPress'];
    for (const figure of [...onSoles, 'starJump', 'sideStep', 'armCircle', 'sideBend', 'calfStretch', 'chestStretch']) {
      touching(figure, 'nearFoot');
      touching(figure, 'farFoot');
      for (const leg of [poseOf(figure).nearLeg, poseOf(figure).farLeg]) {
        expect(leg.pitch, figure).toBe(0);
        expect(leg.ankle.y, figure).toBe(ANKLE_HEIGHT);
      }
    }
  });

  it('is the supporting hand and the feet in planks and press-ups', () => {
    for (const figure of ['plankHigh', 'pressUpLow', 'plankLow', 'climber']) {
      touching(figure, 'nearArm');
      touching(figure, 'farFoot');
    }
    for (const figure of ['kneePressUp', 'allFours', 'birdDog', 'sidePlank', 'kneeSidePlank']) {
      touching(figure, 'nearArm');
    }
    for (const figure of ['kneePressUp', 'allFours', 'hipFlexorStretch', 'childRest']) touching(figure, 'nearLeg');
  });

  it('is the seat of whoever sits, and the seat and chest of whoever lies on the back', () => {
    for (const figure of ['sitTwist', 'sitTall', 'crunch']) touching(figure, 'seat');
    for (const figure of ['lieBack', 'deadBug', 'buttockStretch', 'kneeHug']) {
      touching(figure, 'seat');
      expect(heights(figure).chest, figure).toBeLessThan(0.3);
    }
    touching('bridge', 'chest');
    expect(heights('bridge').seat).toBeGreaterThan(10);
  });

  it('is nothing of a body that jumps', () => {
    const inFlight = FIGURE_IDS.filter((id) => poseOf(id).inFlight === true);
    expect(inFlight.toSorted()).toEqual(['jumpSquat', 'ropeSkip']);
  });
});
