import type { Disc, Point } from './outline.ts';
import type { Arm, Leg, Pose } from './pose.ts';

/**
 * Lengths in body units. Chosen by eye so that a figure is told from across a hall: limbs and head are
 * stouter than a person's, so these are not measurements of anyone.
 */
export const LENGTHS = { thigh: 24, shank: 24, upperArm: 17, forearm: 18, trunk: 27, neck: 13, foot: 9.5 } as const;

/** Radii in body units where the parts meet; between two of them a part tapers evenly. */
export const RADII = {
  head: 7.6,
  chest: 7.4,
  waist: 6.6,
  seat: 7.2,
  shoulder: 4.4,
  elbow: 3.9,
  hand: 3.5,
  hip: 6.4,
  knee: 5,
  ankle: 3.9,
  heel: 3.5,
  toe: 2.9,
} as const;

/** Height of the ankle's middle above a flat sole, in body units. */
export const ANKLE_HEIGHT = 5.6;

/** Half the width between the two shoulders, and between the two hips, of a body seen from the front. */
const HALF_SHOULDERS = 8.6;
const HALF_HIPS = 4.6;
/** A foot seen from the front, turned out a little, is this much of its length. */
const FOOT_FROM_FRONT = 0.5;

/** An arm with its joints in place. */
export type ArmJoints = { readonly shoulder: Point; readonly elbow: Point; readonly hand: Point };

/** A leg with its joints in place; heel and toe are the middles of the foot's two rounds. */
export type LegJoints = {
  readonly hip: Point;
  readonly knee: Point;
  readonly ankle: Point;
  readonly heel: Point;
  readonly toe: Point;
};

/** Every joint of a posed body, in body units. */
export type Joints = {
  readonly head: Point;
  readonly chest: Point;
  readonly waist: Point;
  readonly seat: Point;
  readonly nearArm: ArmJoints;
  readonly farArm: ArmJoints;
  readonly nearLeg: LegJoints;
  readonly farLeg: LegJoints;
};

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** From a point, `length` along a direction that is upright at 0 degrees and grows forwards. */
function away(from: Point, length: number, degrees: number): Point {
  return { x: from.x + length * Math.sin(radians(degrees)), y: from.y + length * Math.cos(radians(degrees)) };
}

/**
 * Middle and end joint of a two-bone limb that reaches from `root` for `target`. Both bones keep their length: a
 * target too far off (or too close) is missed along the straight line to it. `bend` 1 puts the middle joint left of
 * the line, -1 right.
 */
export function reach(root: Point, target: Point, upper: number, lower: number, bend: 1 | -1): [Point, Point] {
  const dx = target.x - root.x;
  const dy = target.y - root.y;
  const wanted = Math.hypot(dx, dy);
  const length = Math.min(Math.max(wanted, Math.abs(upper - lower)), upper + lower);
  // So near that rounding would turn or stretch the direction, straight down is as good as any.
  const [ux, uy] = wanted < 1e-9 ? [0, -1] : [dx / wanted, dy / wanted];
  const along = length === 0 ? 0 : (upper ** 2 - lower ** 2 + length ** 2) / (2 * length);
  const aside = bend * Math.sqrt(Math.max(upper ** 2 - along ** 2, 0));
  const middle = { x: root.x + ux * along - uy * aside, y: root.y + uy * along + ux * aside };
  return [middle, { x: root.x + ux * length, y: root.y + uy * length }];
}

function armJoints(shoulder: Point, arm: Arm): ArmJoints {
  const [elbow, hand] = reach(shoulder, arm.hand, LENGTHS.upperArm, LENGTHS.forearm, arm.bend);
  return { shoulder, elbow, hand };
}

/** `ahead` is 1 where the toes point forwards, -1 where they point back, a part of it where they point at us. */
function legJoints(hip: Point, leg: Leg, ahead: number): LegJoints {
  const [knee, ankle] = reach(hip, leg.ankle, LENGTHS.thigh, LENGTHS.shank, leg.bend);
  const turned = (x: number, y: number): Point => {
    const [cos, sin] = [Math.cos(radians(leg.pitch)), Math.sin(radians(leg.pitch))];
    return { x: ankle.x + Math.sign(ahead) * (x * cos + y * sin), y: ankle.y - x * sin + y * cos };
  };
  const heel = turned(-1 * Math.abs(ahead), RADII.heel - ANKLE_HEIGHT);
  const toe = turned((LENGTHS.foot - 1) * Math.abs(ahead), RADII.toe - ANKLE_HEIGHT);
  return { hip, knee, ankle, heel, toe };
}

/** Places every joint of a pose. Bones keep their lengths whatever the targets; see `reach` for targets too far off. */
export function solve(pose: Pose): Joints {
  const curl = pose.curl ?? 0;
  const waist = away(pose.hip, LENGTHS.trunk / 2, pose.lean - curl / 2);
  const chest = away(waist, LENGTHS.trunk / 2, pose.lean + curl / 2);
  const head = away(chest, LENGTHS.neck, pose.lean + curl / 2 + (pose.nod ?? 0));
  const isFront = pose.view === 'front';
  const across = (half: number) => (isFront ? away(chest, half, pose.lean + curl / 2 + 90) : chest);
  const pelvis = (half: number) => (isFront ? away(pose.hip, half, (pose.tilt ?? 0) + 90) : pose.hip);
  return {
    head,
    chest,
    waist,
    seat: pose.hip,
    nearArm: armJoints(across(HALF_SHOULDERS), pose.nearArm),
    farArm: armJoints(across(-HALF_SHOULDERS), pose.farArm),
    nearLeg: legJoints(pelvis(HALF_HIPS), pose.nearLeg, isFront ? FOOT_FROM_FRONT : 1),
    farLeg: legJoints(pelvis(-HALF_HIPS), pose.farLeg, isFront ? -FOOT_FROM_FRONT : 1),
  };
}

/** Rounds of an arm from shoulder to hand. */
export function armDiscs({ shoulder, elbow, hand }: ArmJoints): Disc[] {
  return [
    { ...shoulder, r: RADII.shoulder },
    { ...elbow, r: RADII.elbow },
    { ...hand, r: RADII.hand },
  ];
}

/** Rounds of a leg from hip to ankle, and on from the ankle those of the foot. */
export function legDiscs({ hip, knee, ankle, heel, toe }: LegJoints): Disc[] {
  const foot: Disc[] = [
    { ...heel, r: RADII.heel },
    { ...toe, r: RADII.toe },
  ];
  return [{ ...hip, r: RADII.hip }, { ...knee, r: RADII.knee }, { ...ankle, r: RADII.ankle }, ...foot];
}
