/** A place in body units: a standing body is 100 high, `x` grows the way the figure faces, `y` up from the floor. */
export type Point = { readonly x: number; readonly y: number };

/** A round. Limbs and things are hulls between two of them, so that nothing has a sharp end. */
export type Disc = Point & { readonly r: number };

/** One part of a drawing: a row of discs, each joined to the next. */
export type Chain = readonly Disc[];

/** Bounds in drawn units: the scale of body units, `y` down, the floor at 0, so that `minY` is above it. */
export type Box = { readonly minX: number; readonly maxX: number; readonly minY: number; readonly maxY: number };

const digits = (value: number): string => String(Math.round(value * 100) / 100 + 0);

/** Into drawn units: `y` runs down as in SVG, and an unmirrored figure faces left. */
const spell = (at: Point): string => `${digits(-at.x)} ${digits(-at.y)}`;

const arc = (r: number, isLarge: boolean): string => `A${digits(r)} ${digits(r)} 0 ${isLarge ? 1 : 0} 1 `;

function discPath({ x, y, r }: Disc): string {
  const front = spell({ x: x + r, y });
  return `M${front}${arc(r, false)}${spell({ x: x - r, y })}${arc(r, false)}${front}Z`;
}

/** All outlines turn the same way, so that where two overlap the fill has no hole. */
function hullPath(from: Disc, to: Disc): string {
  const apart = Math.hypot(to.x - from.x, to.y - from.y);
  if (apart <= Math.abs(from.r - to.r) + 1e-6) return discPath(from.r > to.r ? from : to);
  const along = Math.atan2(to.y - from.y, to.x - from.x);
  const open = Math.acos((from.r - to.r) / apart);
  const rim = ({ x, y, r }: Disc, angle: number) => spell({ x: x + r * Math.cos(angle), y: y + r * Math.sin(angle) });
  const start = rim(from, along - open);
  const toIsLarge = open > Math.PI / 2;
  const there = `L${rim(to, along - open)}${arc(to.r, toIsLarge)}${rim(to, along + open)}`;
  return `M${start}${there}L${rim(from, along + open)}${arc(from.r, !toIsLarge)}${start}Z`;
}

/** SVG path data, in drawn units, of the filled outline round all the chains together. Empty for no discs. */
export function pathOf(chains: readonly Chain[]): string {
  const ofChain = (chain: Chain) =>
    chain.length === 1
      ? chain.map(discPath)
      : chain.slice(1).map((disc, index) => hullPath(chain[index] ?? disc, disc));
  return chains.flatMap(ofChain).join('');
}

/** The least box round all discs, in drawn units. All zero when there is none. */
export function boxOf(discs: readonly Disc[]): Box {
  if (discs.length === 0) return { minX: 0, maxX: 0, minY: 0, maxY: 0 };
  const rim = (side: (disc: Disc) => number) => discs.map(side);
  return {
    minX: Math.min(...rim((disc) => -disc.x - disc.r)),
    maxX: Math.max(...rim((disc) => -disc.x + disc.r)),
    minY: Math.min(...rim((disc) => -disc.y - disc.r)),
    maxY: Math.max(...rim((disc) => -disc.y + disc.r)),
  };
}

/** A line of even thickness through the points: a band, the leg of a chair, a sole. */
export function lineThrough(points: readonly Point[], r: number): Chain {
  return points.map(({ x, y }) => ({ x, y, r }));
}

/** A piece of a circle as a line; angles in degrees, 0 ahead, growing upwards. `steps` straight pieces. */
export function bow(middle: Point, radius: number, from: number, to: number, r: number, steps = 12): Chain {
  const at = (index: number): Disc => {
    const angle = ((from + ((to - from) * index) / steps) * Math.PI) / 180;
    return { x: middle.x + radius * Math.cos(angle), y: middle.y + radius * Math.sin(angle), r };
  };
  return Array.from({ length: steps + 1 }, (_, index) => at(index));
}
