import { FLOOR_POSES } from './floor-poses.ts';
import type { Pose } from './pose.ts';
import { STANDING_POSES } from './standing-poses.ts';

const POSES: Readonly<Record<string, Pose>> = { ...STANDING_POSES, ...FLOOR_POSES };

/** Every figure id that has a pose of its own. */
export const FIGURE_IDS: readonly string[] = Object.keys(POSES);

/** The pose of a figure id; an unknown id stands. */
export function poseOf(figure: string): Pose {
  return Object.hasOwn(POSES, figure) ? (POSES[figure] ?? STANDING_POSES.stand) : STANDING_POSES.stand;
}
