import { armDiscs, type Joints, legDiscs, RADII, solve } from './body.ts';
import { type Box, boxOf, type Chain, type Disc, pathOf } from './outline.ts';
import type { LimbName, Pose, Prop } from './pose.ts';

/** `near` is the ink of the body, `prop` that of things, `far` the grey of limbs behind and of scenery. */
export type Tone = 'near' | 'far' | 'prop';

/** One filled outline, drawn over all before it; where `isCased`, with a rim of the field round it that parts them. */
export type Stroke = { readonly d: string; readonly tone: Tone; readonly isCased: boolean };

/** A drawing in drawn units (100 is a standing body, the floor at y 0, y down), back to front. */
export type Drawing = {
  readonly strokes: readonly Stroke[];
  readonly box: Box;
  /** The head is low: lying, on hands and knees, or sitting on the floor. Digits can stand above it. */
  readonly lies: boolean;
};

function trunkChains(joints: Joints, view: Pose['view']): Chain[] {
  const spine: Disc[] = [
    { ...joints.seat, r: RADII.seat },
    { ...joints.waist, r: RADII.waist },
    { ...joints.chest, r: RADII.chest },
  ];
  if (view === 'side') return [spine];
  const shoulders = [joints.nearArm.shoulder, joints.farArm.shoulder].map((at) => ({ ...at, r: RADII.shoulder }));
  const hips = [joints.nearLeg.hip, joints.farLeg.hip].map((at) => ({ ...at, r: RADII.hip }));
  const flanks = shoulders.flatMap((shoulder, index) => hips.slice(index, index + 1).map((hip) => [shoulder, hip]));
  return [spine, shoulders, hips, ...flanks];
}

function limbChain(joints: Joints, limb: LimbName): Chain {
  const leg = limb === 'nearLeg' ? joints.nearLeg : joints.farLeg;
  const arm = limb === 'nearArm' ? joints.nearArm : joints.farArm;
  return limb.endsWith('Leg') ? legDiscs(leg) : armDiscs(arm);
}

function toneOf(pose: Pose, limb: LimbName, isOneSided: boolean): Tone {
  if (isOneSided && pose.working !== undefined) return pose.working.includes(limb) ? 'near' : 'far';
  return pose.view === 'side' && limb.startsWith('far') ? 'far' : 'near';
}

/** Lower than the head of anyone who squats, higher than that of anyone who sits on the floor; in body units. */
const LOW_HEAD = 55;

type Part = { readonly chains: readonly Chain[]; readonly tone: Tone; readonly isCased?: boolean };

const LIMBS: readonly LimbName[] = ['farArm', 'farLeg', 'nearLeg', 'nearArm'];

function propParts(pose: Pose, layer: Prop['layer']): Part[] {
  const tone = layer === 'held' ? 'prop' : 'far';
  return (pose.props ?? [])
    .filter((prop) => prop.layer === layer)
    .map(({ chains }) => ({ chains, tone, isCased: layer !== 'underfoot' }));
}

/** From the side the near limbs lie over the trunk, each with its casing. */
function sideParts(pose: Pose, joints: Joints, tone: (limb: LimbName) => Tone): Part[] {
  const limb = (name: LimbName): Part => ({ chains: [limbChain(joints, name)], tone: tone(name) });
  const isUnder = (name: LimbName) => name.startsWith('far') || (pose.tucked ?? []).includes(name);
  const over = (name: LimbName) => (isUnder(name) ? [] : [limb(name)]);
  return [
    ...LIMBS.filter(isUnder).map(limb),
    { chains: trunkChains(joints, pose.view), tone: 'near' },
    { chains: [[{ ...joints.head, r: RADII.head }]], tone: 'near' },
    ...over('nearLeg'),
    ...propParts(pose, 'held'),
    ...over('nearArm'),
  ];
}

/** From the front the ink limbs and the trunk are one outline; grey limbs lie under it. */
function frontParts(pose: Pose, joints: Joints, tone: (limb: LimbName) => Tone): Part[] {
  const ink = LIMBS.filter((limb) => tone(limb) === 'near').map((limb) => limbChain(joints, limb));
  const grey = LIMBS.filter((limb) => tone(limb) !== 'near');
  return [
    ...grey.map((limb): Part => ({ chains: [limbChain(joints, limb)], tone: 'far' })),
    ...propParts(pose, 'held'),
    { chains: [...trunkChains(joints, pose.view), ...ink], tone: 'near' },
    { chains: [[{ ...joints.head, r: RADII.head }]], tone: 'near' },
  ];
}

function parts(pose: Pose, isOneSided: boolean): Part[] {
  const joints = solve(pose);
  const tone = (limb: LimbName) => toneOf(pose, limb, isOneSided);
  const body = pose.view === 'front' ? frontParts(pose, joints, tone) : sideParts(pose, joints, tone);
  return [...propParts(pose, 'scenery'), ...body, ...propParts(pose, 'underfoot')];
}

/**
 * Draws a pose. With `isOneSided` the limbs that work stay ink and the others turn grey, where the pose names them.
 */
export function drawPose(pose: Pose, isOneSided = false): Drawing {
  const all = parts(pose, isOneSided);
  const box = boxOf(all.flatMap(({ chains }) => chains.flat()));
  const strokes = all.map(({ chains, tone, isCased }) => ({ d: pathOf(chains), tone, isCased: isCased ?? true }));
  return { strokes, box, lies: solve(pose).head.y < LOW_HEAD };
}
