import { ANKLE_HEIGHT, LENGTHS, RADII } from './body.ts';
import { bow, lineThrough, type Point } from './outline.ts';
import type { Arm, Leg, Prop } from './pose.ts';

const turn = (x: number, y: number, degrees: number): Point => {
  const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return { x: x * cos + y * sin, y: y * cos - x * sin };
};

/** A foot flat on a floor of height `floor`, its ankle over `x`. */
export function flat(x: number, floor = 0): Leg {
  return { ankle: { x, y: floor + ANKLE_HEIGHT }, pitch: 0, bend: 1 };
}

/** The toes on the floor at `x`, the heel raised by `pitch` degrees. */
export function onToes(x: number, pitch: number): Leg {
  const toe = turn(LENGTHS.foot - 1, RADII.toe - ANKLE_HEIGHT, pitch);
  return { ankle: { x: x - toe.x, y: RADII.toe - toe.y }, pitch, bend: 1 };
}

/** The heel on the floor at `x`, the toes raised by `lift` degrees. */
export function onHeel(x: number, lift: number): Leg {
  const heel = turn(-1, RADII.heel - ANKLE_HEIGHT, -lift);
  return { ankle: { x: x - heel.x, y: RADII.heel - heel.y }, pitch: -lift, bend: 1 };
}

/** The shin on the floor, ankle at `x`, the foot pointing back. */
export function kneeling(x: number): Leg {
  return { ankle: { x, y: RADII.ankle }, pitch: 162, bend: 1 };
}

/** A foot in the air, the ankle at (`x`, `y`). */
export function inAir(x: number, y: number, pitch = 0): Leg {
  return { ankle: { x, y }, pitch, bend: 1 };
}

/** An arm whose hand is at (`x`, `y`), the elbow back, or with `bend` 1 forwards. */
export function hand(x: number, y: number, bend: 1 | -1 = -1): Arm {
  return { hand: { x, y }, bend };
}

/** An arm whose hand lies on the floor at `x`. */
export function handDown(x: number, bend: 1 | -1 = -1): Arm {
  return hand(x, RADII.hand, bend);
}

/** The hip of a leg held straight from its ankle, `rise` degrees over level. */
export function straightUpFrom({ ankle }: Leg, rise: number): Point {
  const length = LENGTHS.thigh + LENGTHS.shank - 0.01;
  return {
    x: ankle.x + length * Math.cos((rise * Math.PI) / 180),
    y: ankle.y + length * Math.sin((rise * Math.PI) / 180),
  };
}

/** Half the thickness of things drawn as lines: 4.8 units are over 12 px where a standing figure has 260. */
const LINE = 2.4;

/** A wall whose face stands at `x`. */
export function wallAt(x: number, height = 96): Prop {
  const at = (y: number): Point => ({ x: x + LINE * 1.5, y });
  return { layer: 'scenery', chains: [lineThrough([at(LINE * 1.5), at(height)], LINE * 1.5)] };
}

/** A chair that faces the way the figure does: the seat's top at `height`, its back legs at `x`. */
export function chairAt(x: number, height: number): Prop {
  const top = height - LINE;
  const back = [
    { x, y: LINE },
    { x, y: top },
    { x: x - 4, y: top + 26 },
  ];
  const seat = [
    { x, y: top },
    { x: x + 22, y: top },
    { x: x + 22, y: LINE },
  ];
  return { layer: 'scenery', chains: [lineThrough(back, LINE), lineThrough(seat, LINE)] };
}

/** A step from `from` to `to`, its top at `height`. */
export function stepAt(from: number, to: number, height: number): Prop {
  const top = lineThrough(
    [from, to].map((x) => ({ x, y: height - LINE * 1.2 })),
    LINE * 1.2,
  );
  const legs = [from + 3, to - 3].map((x) =>
    lineThrough(
      [LINE, height - LINE].map((y) => ({ x, y })),
      LINE,
    ),
  );
  return { layer: 'underfoot', chains: [top, ...legs] };
}

/** A hand weight held at a place; `turned` degrees from lying along the figure's way. */
export function weightAt(x: number, y: number, turned = 0): Prop {
  const end = (along: number): Point => {
    const by = turn(along, 0, turned);
    return { x: x + by.x, y: y + by.y };
  };
  const bar = lineThrough([end(-9), end(9)], 1.8);
  const heads = [-9.5, 9.5].map((along) => lineThrough([end(along), end(along * 1.1)], 4.8));
  return { layer: 'held', chains: [bar, ...heads] };
}

/** A band or rope through the points. */
export function bandThrough(...points: readonly (readonly [number, number])[]): Prop {
  return {
    layer: 'held',
    chains: [
      lineThrough(
        points.map(([x, y]) => ({ x, y })),
        LINE * 0.85,
      ),
    ],
  };
}

/** Piece of a circle as a sign of movement; angles in degrees, 0 ahead, growing upwards. */
export function bowAt(middle: Point, radius: number, from: number, to: number): Prop {
  return { layer: 'scenery', chains: [bow(middle, radius, from, to, LINE * 0.85, 24)] };
}

/** A rope turned under the feet: half an oval from (`-half`, `top`) down to the floor and up to (`half`, `top`). */
export function ropeUnder(half: number, top: number): Prop {
  const r = LINE * 0.85;
  const round = bow({ x: 0, y: 0 }, 1, 180, 360, r, 20);
  return { layer: 'held', chains: [round.map(({ x, y }) => ({ x: x * half, y: top + y * (top - r), r }))] };
}

/** A mark on the floor under a body that has left it. */
export function landing(from: number, to: number): Prop {
  return {
    layer: 'scenery',
    chains: [
      lineThrough(
        [from, to].map((x) => ({ x, y: LINE })),
        LINE,
      ),
    ],
  };
}
