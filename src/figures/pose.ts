import type { Chain, Point } from './outline.ts';

/** An arm by its target. `bend` says to which side of the line from shoulder to hand the elbow goes: 1 left, -1 right. */
export type Arm = { readonly hand: Point; readonly bend: 1 | -1 };

/**
 * A leg by its target. `pitch` turns the foot, in degrees: 0 flat and pointing ahead, 90 on the toes, 180 pointing
 * back with the sole up. `bend` as for arms; 1 bends a knee the way knees go.
 */
export type Leg = { readonly ankle: Point; readonly pitch: number; readonly bend: 1 | -1 };

/** The four limbs. In a front view the near ones are those drawn at the left of an unmirrored figure. */
export type LimbName = 'nearArm' | 'farArm' | 'nearLeg' | 'farLeg';

/**
 * A thing in the picture: `scenery` stands grey behind the body; `held` is drawn in ink just under the near arm;
 * `underfoot` is grey ground, drawn last, so that no casing parts it from the sole on it.
 */
export type Prop = { readonly chains: readonly Chain[]; readonly layer: 'scenery' | 'held' | 'underfoot' };

/** A still pose in body units (see `Point`). Angles in degrees, growing forwards (clockwise when facing right). */
export type Pose = {
  readonly view: 'side' | 'front';
  readonly hip: Point;
  /** The trunk from hip to shoulder: 0 upright, 90 face down, -90 on the back. */
  readonly lean: number;
  /** How far the back rounds between hip and shoulder; below 0 it hollows. */
  readonly curl?: number;
  /** The head against the upper trunk; forwards above 0. */
  readonly nod?: number;
  /** Front view only: the line through the hips against level, as `lean` for the trunk. Absent: level. */
  readonly tilt?: number;
  readonly nearArm: Arm;
  readonly farArm: Arm;
  readonly nearLeg: Leg;
  readonly farLeg: Leg;
  readonly props?: readonly Prop[];
  /** The limbs that work when the move is done on one side. Absent: the pose has no sides. */
  readonly working?: readonly LimbName[];
  /** Near limbs drawn under trunk and head, where they would hide what tells the pose. */
  readonly tucked?: readonly LimbName[];
  /** No part touches the floor. */
  readonly inFlight?: boolean;
};
