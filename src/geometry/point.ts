/** A point or vector, `[x, y]`, in mm unless stated. x points right, **y points down**, as in SVG. */
export type Point = readonly [x: number, y: number];

/** Room for a point that functions put their result into. */
export type PointRoom = [x: number, y: number];

/** An axis-parallel box, `[minX, minY, maxX, maxY]`. */
export type Bounds = readonly [minX: number, minY: number, maxX: number, maxY: number];

/** The box that holds nothing; growing it by a point gives that point. */
export const EMPTY_BOUNDS: Bounds = [
  Number.POSITIVE_INFINITY,
  Number.POSITIVE_INFINITY,
  Number.NEGATIVE_INFINITY,
  Number.NEGATIVE_INFINITY,
];

/**
 * Length of the vector (x, y), without overflow. What the common engine's `Math.hypot` computes, to the last bit, but
 * the same in all engines, and without making a list of two numbers.
 */
export function hypotenuse(x: number, y: number): number {
  const a = Math.abs(x);
  const b = Math.abs(y);
  const most = a > b ? a : b;
  if (most === 0 || most === Number.POSITIVE_INFINITY) return most;
  const p = a / most;
  const q = b / most;
  return Math.sqrt(p * p + q * q) * most;
}

/** Euclidean distance between two points. */
export function distance(a: Point, b: Point): number {
  return hypotenuse(b[0] - a[0], b[1] - a[1]);
}

/** The point at `t` on the way from `a` (0) to `b` (1). */
export function lerp(a: Point, b: Point, t: number): Point {
  return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
}

/** Distance from a point to the segment from `a` to `b`. */
export function distanceToSegment(p: Point, a: Point, b: Point): number {
  const [x, y] = [b[0] - a[0], b[1] - a[1]];
  const square = x * x + y * y;
  const t = square === 0 ? 0 : ((p[0] - a[0]) * x + (p[1] - a[1]) * y) / square;
  return distance(p, t <= 0 ? a : t >= 1 ? b : [a[0] + t * x, a[1] + t * y]);
}

/** The smallest box that holds both boxes. */
export function joinBounds(a: Bounds, b: Bounds): Bounds {
  return [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[2], b[2]), Math.max(a[3], b[3])];
}

/** The smallest box that holds all points. */
export function boundsOf(points: Iterable<Point>): Bounds {
  let [x0, y0, x1, y1] = EMPTY_BOUNDS;
  for (const [x, y] of points) {
    if (x < x0) x0 = x;
    if (x > x1) x1 = x;
    if (y < y0) y0 = y;
    if (y > y1) y1 = y;
  }
  return [x0, y0, x1, y1];
}
