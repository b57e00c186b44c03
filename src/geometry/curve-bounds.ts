import { type ArcCurve, arcPoint, type Curve, pointAt } from './curve.js';
import { type Bounds, boundsOf, type Point } from './point.js';

/**
 * The smallest axis-parallel box around a curve between parameters `t0` and `t1` (in either order): end
 * points and all extrema inside, each by closed form, so exact up to rounding. A line, and a curve whose
 * extrema are its ends, give exactly the box of the two end points.
 */
export function curveBounds(c: Curve, t0 = 0, t1 = 1): Bounds {
  const low = Math.min(t0, t1);
  const high = Math.max(t0, t1);
  const box = new Box(pointAt(c, low));
  box.add(pointAt(c, high));
  if (c.kind === 'arc') {
    addArcExtrema(box, c, low, high);
  } else if (c.kind !== 'line') {
    for (const axis of AXES) {
      for (const t of bezierExtrema(c, axis)) if (t > low && t < high) box.add(pointAt(c, t));
    }
  }
  return [box.x0, box.y0, box.x1, box.y1];
}

const AXES = [0, 1] as const;

/** A box that grows. */
class Box {
  x0: number;
  y0: number;
  x1: number;
  y1: number;

  constructor([x, y]: Point) {
    this.x0 = this.x1 = x;
    this.y0 = this.y1 = y;
  }

  add([x, y]: Point): void {
    if (x < this.x0) this.x0 = x;
    if (x > this.x1) this.x1 = x;
    if (y < this.y0) this.y0 = y;
    if (y > this.y1) this.y1 = y;
  }
}

const NOWHERE: readonly number[] = [];

/** Parameters where one coordinate of a Bézier stands still; may lie outside [0, 1]. */
function bezierExtrema(c: Exclude<Curve, { kind: 'line' | 'arc' }>, axis: 0 | 1): readonly number[] {
  if (c.kind === 'quadratic') {
    const a = c.control[axis] - c.from[axis];
    const b = c.to[axis] - c.control[axis];
    const t = a / (a - b);
    return t > 0 && t < 1 ? [t] : NOWHERE;
  }
  const d0 = c.control1[axis] - c.from[axis];
  const d1 = c.control2[axis] - c.control1[axis];
  const d2 = c.to[axis] - c.control2[axis];
  const isMonotone = (d0 > 0 && d1 > 0 && d2 > 0) || (d0 < 0 && d1 < 0 && d2 < 0);
  if (isMonotone) return NOWHERE;
  return quadraticRoots(d0 - 2 * d1 + d2, d1 - d0, d0);
}

/** Real roots of `a t² + 2 b t + c`, without the cancellation of the school formula. */
function quadraticRoots(a: number, b: number, c: number): number[] {
  const discriminant = b * b - a * c;
  if (discriminant < 0) return [];
  const q = -(b + (b < 0 ? -1 : 1) * Math.sqrt(discriminant));
  const roots: number[] = [];
  if (a !== 0) roots.push(q / a);
  if (q !== 0) roots.push(c / q);
  return roots;
}

/** Adds the points of an arc where x or y stands still, inside of its ends. */
function addArcExtrema(box: Box, c: ArcCurve, low: number, high: number): void {
  const a = c.start + low * c.sweep;
  const b = c.start + high * c.sweep;
  const cos = Math.cos(c.rotation);
  const sin = Math.sin(c.rotation);
  addHalfTurns(box, c, Math.atan2(-c.ry * sin, c.rx * cos), Math.min(a, b), Math.max(a, b));
  addHalfTurns(box, c, Math.atan2(c.ry * cos, c.rx * sin), Math.min(a, b), Math.max(a, b));
}

/** Adds the points of an arc at `base` and all half turns from there, between two angles of the ellipse. */
function addHalfTurns(box: Box, c: ArcCurve, base: number, first: number, last: number): void {
  for (let k = Math.ceil((first - base) / Math.PI); base + k * Math.PI < last; k++)
    box.add(arcPoint(c, base + k * Math.PI));
}

/** The box of a run of whole curves. */
export function runBounds(run: readonly Curve[]): Bounds {
  const corners: Point[] = [];
  for (const c of run) {
    const [x0, y0, x1, y1] = curveBounds(c);
    corners.push([x0, y0], [x1, y1]);
  }
  return boundsOf(corners);
}
