import {
  addProduct,
  type Bernstein,
  bernsteinFromPowers,
  bernsteinRoots,
  combineBernstein,
} from './bernstein.js';
import { putSecondDerivativeAt } from './curvature.js';
import { type ArcCurve, type Curve, putDerivativeAt, putPointAt } from './curve.js';
import { distance, type Point, type PointRoom } from './point.js';

/** The point of a curve that is nearest to some point. */
export interface NearestPoint {
  readonly t: number;
  readonly point: Point;
  /** mm */
  readonly distance: number;
}

/** Newton steps after which the nearest parameter is as good as rounding lets it be. */
const POLISH_STEPS = 3;

/**
 * The point of a curve between `t0` and `t1` that is nearest to `p`: the global minimum. All places where the way to
 * `p` is perpendicular to the curve are found (closed form, or all roots of a polynomial of degree 3 to 5 in
 * Bernstein form), polished by Newton's method, and compared with both ends. Of equally near points the one with
 * the smallest parameter counts (a circle's centre: `t0`).
 */
export function nearestOnCurve(c: Curve, p: Point, t0 = 0, t1 = 1): NearestPoint {
  const low = Math.min(t0, t1);
  const high = Math.max(t0, t1);
  const room: PointRoom = [0, 0];
  let best = low;
  let least = distanceAt(c, p, low, room);
  for (const root of feet(c, p)) {
    if (root <= low || root >= high) continue;
    const t = Math.min(high, Math.max(low, polish(c, p, root)));
    const away = distanceAt(c, p, t, room);
    if (away < least) {
      best = t;
      least = away;
    }
  }
  const atEnd = distanceAt(c, p, high, room);
  if (atEnd < least) return { t: high, point: room, distance: atEnd };
  putPointAt(c, best, room);
  return { t: best, point: room, distance: least };
}

/** The distance from `p` to the curve at `t`; puts the point there into `room`. */
function distanceAt(c: Curve, p: Point, t: number, room: PointRoom): number {
  putPointAt(c, t, room);
  return distance(p, room);
}

/** Parameters in (0, 1) where the way from `p` may be perpendicular to the curve. */
function feet(c: Curve, p: Point): number[] {
  switch (c.kind) {
    case 'line': {
      const [x, y] = [c.to[0] - c.from[0], c.to[1] - c.from[1]];
      const square = x * x + y * y;
      return square === 0 ? [] : [((p[0] - c.from[0]) * x + (p[1] - c.from[1]) * y) / square];
    }
    case 'quadratic':
      return bezierFeet([c.from, c.control, c.to], p);
    case 'cubic':
      return bezierFeet([c.from, c.control1, c.control2, c.to], p);
    case 'arc':
      return c.rx === c.ry ? circleFeet(c, p) : ellipseFeet(c, p);
  }
}

/** Roots of (B − p)·B′. */
function bezierFeet(controls: readonly Point[], p: Point): number[] {
  const product: number[] = [];
  for (let i = 0; i < 2 * controls.length - 2; i++) product.push(0);
  let scale = 0;
  for (let k = 0; k < 2; k++) {
    const way: number[] = [];
    const slope: number[] = [];
    let farthest = 0;
    let steepest = 0;
    for (let i = 0; i < controls.length; i++) {
      way.push(controls[i][k] - p[k]);
      farthest = Math.max(farthest, Math.abs(way[i]));
      if (i === 0) continue;
      slope.push(way[i] - way[i - 1]);
      steepest = Math.max(steepest, Math.abs(slope[i - 1]));
    }
    addProduct(way, slope, product);
    scale = Math.max(scale, farthest * steepest);
  }
  return bernsteinRoots(product, scale);
}

function circleFeet(c: ArcCurve, p: Point): number[] {
  const [x, y] = [p[0] - c.centre[0], p[1] - c.centre[1]];
  if (x === 0 && y === 0) return [];
  return anglesOnArc(c, Math.atan2(y, x) - c.rotation);
}

/** All parameters in (0, 1) at which the arc passes an ellipse angle. */
function anglesOnArc(c: ArcCurve, angle: number): number[] {
  const turn = 2 * Math.PI;
  const [low, high] = [Math.min(c.start, c.start + c.sweep), Math.max(c.start, c.start + c.sweep)];
  const parameters: number[] = [];
  for (let k = Math.ceil((low - angle) / turn); angle + k * turn < high; k++) {
    parameters.push((angle + k * turn - c.start) / c.sweep);
  }
  return parameters.sort((s, t) => s - t);
}

/**
 * With v = tan(φ/2)/tan(h/2) on a piece of 2h (at most a quarter turn) about its middle m, (E − p)·E′ times
 * (1 + tan²(φ/2))² is a polynomial of degree 4 in v.
 */
function ellipseFeet(c: ArcCurve, p: Point): number[] {
  const cos = Math.cos(c.rotation);
  const sin = Math.sin(c.rotation);
  const [dx, dy] = [p[0] - c.centre[0], p[1] - c.centre[1]];
  const x = (dx * cos + dy * sin) * c.rx;
  const y = (dy * cos - dx * sin) * c.ry;
  const squares = (c.rx - c.ry) * (c.rx + c.ry);
  const pieces = Math.max(1, Math.ceil(Math.abs(c.sweep) / (Math.PI / 2)));
  const parameters: number[] = [];
  for (let i = 0; i < pieces; i++) {
    const half = c.sweep / pieces / 2;
    const middle = c.start + (2 * i + 1) * half;
    const k = Math.tan(half / 2);
    const [cm, sm] = [Math.cos(middle), Math.sin(middle)];
    const cosine: Bernstein = [cm, -2 * sm * k, -cm * k * k];
    const sine: Bernstein = [sm, 2 * cm * k, -sm * k * k];
    const powers = combineBernstein(
      -squares,
      multiplyPowers(sine, cosine),
      1,
      multiplyPowers(combineBernstein(x, sine, -y, cosine), [1, 0, k * k]),
    );
    const scale = Math.abs(squares) + Math.abs(x) + Math.abs(y);
    for (const root of bernsteinRoots(bernsteinFromPowers(powers), scale)) {
      const angle = 2 * Math.atan(k * (2 * root - 1));
      parameters.push((middle + angle - c.start) / c.sweep);
    }
  }
  return parameters;
}

function multiplyPowers(a: readonly number[], b: readonly number[]): number[] {
  const product = new Array<number>(a.length + b.length - 1).fill(0);
  a.forEach((v, i) => {
    b.forEach((w, j) => {
      product[i + j] += v * w;
    });
  });
  return product;
}

/** Newton's method on half the squared distance; stops where it would climb. */
function polish(c: Curve, p: Point, start: number): number {
  const at: PointRoom = [0, 0];
  const first: PointRoom = [0, 0];
  const second: PointRoom = [0, 0];
  let t = start;
  for (let step = 0; step < POLISH_STEPS; step++) {
    putPointAt(c, t, at);
    putDerivativeAt(c, t, first);
    putSecondDerivativeAt(c, t, second);
    const x = at[0] - p[0];
    const y = at[1] - p[1];
    const slope = x * first[0] + y * first[1];
    const rise = first[0] * first[0] + first[1] * first[1] + x * second[0] + y * second[1];
    if (!(rise > 0)) return t;
    t -= slope / rise;
  }
  return Number.isFinite(t) && Math.abs(t - start) < 1e-3 ? t : start;
}
