import type { KitId } from '../moves/move.ts';
import type { Drawing } from './draw.ts';
import { bow, boxOf, type Chain, lineThrough, type Point, pathOf } from './outline.ts';

/** Half of the 12 units (12 px at natural size) that a stroke must have to be seen across a hall. */
const HALF = 6;

const line = (...points: readonly (readonly [number, number])[]): Chain =>
  lineThrough(
    points.map(([x, y]) => ({ x, y })),
    HALF,
  );

/** An oval piece of band or rope; angles as for `bow`. */
function oval(middle: Point, wide: number, high: number, from: number, to: number): Chain {
  const round = bow({ x: 0, y: 0 }, 1, from, to, HALF, 24);
  return round.map(({ x, y, r }) => ({ x: middle.x + x * wide, y: middle.y + y * high, r }));
}

/** Bricks of a wall: three rows, the middle one half a brick aside. */
const BRICKS: readonly Chain[] = [
  line([6, 6], [26, 6]),
  line([44, 6], [64, 6]),
  line([6, 23], [8, 23]),
  line([26, 23], [44, 23]),
  line([62, 23], [64, 23]),
  line([6, 40], [26, 40]),
  line([44, 40], [64, 40]),
];

/** Drawn at natural size: one unit is one CSS px, nothing under 40 high, no stroke under 12. Forward is left. */
const KIT: Readonly<Record<KitId, readonly Chain[]>> = {
  mat: [bow({ x: 0, y: 20 }, 14, 0, 360, HALF, 24), line([0, 6], [-58, 6])],
  band: [oval({ x: 0, y: 6 }, 30, 40, 0, 180)],
  loopBand: [oval({ x: 0, y: 26 }, 32, 20, 0, 360)],
  bandHook: [line([-14, 6], [-14, 58]), line([-14, 44], [8, 44]), bow({ x: 8, y: 30 }, 14, 90, -90, HALF)],
  handWeight: [
    line([-16, 22], [16, 22]),
    ...[-22, 22].map((x) =>
      lineThrough(
        [13, 31].map((y) => ({ x, y })),
        13,
      ),
    ),
  ],
  step: [line([-32, 34], [32, 34]), line([-26, 6], [-26, 34]), line([26, 6], [26, 34])],
  chair: [line([-16, 6], [-16, 30], [-20, 68]), line([-16, 30], [16, 30], [16, 6])],
  wall: BRICKS,
  rope: [oval({ x: 0, y: 42 }, 28, 36, 180, 360), line([-28, 42], [-28, 54]), line([28, 42], [28, 54])],
  floorLine: [
    [
      { x: 30, y: 8, r: 8 },
      { x: 19, y: 19, r: 7 },
    ],
    [
      { x: 1, y: 36, r: 6.5 },
      { x: -8, y: 45, r: 6 },
    ],
  ],
};

/** A piece of kit standing on the floor, in ink; its strokes never overlap, so none is cased. */
export function drawKit(kit: KitId): Drawing {
  const chains = KIT[kit];
  return {
    strokes: [{ d: pathOf(chains), tone: 'prop', isCased: false }],
    box: boxOf(chains.flat()),
    lies: false,
  };
}
