/** One measurement: `y` is never below the truth at `x`, but may be anywhere above it. */
export type Point = { readonly x: number; readonly y: number };

/** y = `y` at `x`, and `slope` more for every unit of x. */
export type Line = { readonly x: number; readonly y: number; readonly slope: number };

/** Height of the line at `x`, also far outside the points it was fitted to. */
export function lineAt(line: Line, x: number): number {
  return line.y + line.slope * (x - line.x);
}

/**
 * The line under all points that lies closest to them over the middle of their range, its slope held within
 * +-`maxSlope`. `points` are in order of x. Null when there is none. The idea of fitting a clock by the lower convex
 * hull is that of Moon, Skelly and Towsley, "Estimation and removal of clock skew from network delay measurements",
 * INFOCOM 1999 (from memory).
 */
export function lowerLine(points: readonly Point[], maxSlope: number): Line | null {
  const hull = lowerHull(points);
  const first = hull[0];
  const last = hull[hull.length - 1];
  if (first === undefined || last === undefined) return null;
  const middle = (first.x + last.x) / 2;
  const at = hull.findIndex((point) => point.x >= middle);
  const left = hull[Math.max(0, at - 1)] ?? first;
  const right = hull[at] ?? last;
  const slope = right.x > left.x ? (right.y - left.y) / (right.x - left.x) : 0;
  return lineUnder(points, Math.min(maxSlope, Math.max(-maxSlope, slope)));
}

/** The highest line of the given slope with no point under it, given at the last point's x. Null when there is no point. */
export function lineUnder(points: readonly Point[], slope: number): Line | null {
  const last = points[points.length - 1];
  if (last === undefined) return null;
  let y = last.y;
  for (const point of points) y = Math.min(y, point.y + slope * (last.x - point.x));
  return { x: last.x, y, slope };
}

/** Andrew's monotone chain, lower half. Of points with the same x only the lowest counts. */
function lowerHull(points: readonly Point[]): readonly Point[] {
  const hull: Point[] = [];
  for (const point of points) {
    while (isAbove(hull[hull.length - 2], hull[hull.length - 1], point)) hull.pop();
    hull.push(point);
  }
  return hull;
}

/** Whether `middle` is on or above the line from `left` to `right`, and so no corner of the lower hull. */
function isAbove(left: Point | undefined, middle: Point | undefined, right: Point): boolean {
  if (middle === undefined) return false;
  if (left === undefined) return middle.x === right.x && middle.y >= right.y;
  return (middle.x - left.x) * (right.y - left.y) - (middle.y - left.y) * (right.x - left.x) <= 0;
}
