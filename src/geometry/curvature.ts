import { bernsteinRoots, combineBernstein, multiplyBernstein } from './bernstein.js';
import { type CubicCurve, type Curve, derivativeAt } from './curve.js';
import { hypotenuse, type Point, type PointRoom } from './point.js';

/** The second derivative of a curve with respect to `t`. */
export function secondDerivativeAt(c: Curve, t: number): Point {
  const second: PointRoom = [0, 0];
  putSecondDerivativeAt(c, t, second);
  return second;
}

/** The same into `room`. */
export function putSecondDerivativeAt(c: Curve, t: number, room: PointRoom): void {
  switch (c.kind) {
    case 'line':
      room[0] = 0;
      room[1] = 0;
      return;
    case 'quadratic':
      room[0] = 2 * (c.from[0] - 2 * c.control[0] + c.to[0]);
      room[1] = 2 * (c.from[1] - 2 * c.control[1] + c.to[1]);
      return;
    case 'cubic': {
      const { from, control1, control2, to } = c;
      const u = 1 - t;
      room[0] =
        6 * u * (from[0] - 2 * control1[0] + control2[0]) + 6 * t * (control1[0] - 2 * control2[0] + to[0]);
      room[1] =
        6 * u * (from[1] - 2 * control1[1] + control2[1]) + 6 * t * (control1[1] - 2 * control2[1] + to[1]);
      return;
    }
    case 'arc': {
      const angle = c.start + t * c.sweep;
      const x = -c.rx * Math.cos(angle) * c.sweep * c.sweep;
      const y = -c.ry * Math.sin(angle) * c.sweep * c.sweep;
      const cos = Math.cos(c.rotation);
      const sin = Math.sin(c.rotation);
      room[0] = x * cos - y * sin;
      room[1] = x * sin + y * cos;
    }
  }
}

/**
 * Signed curvature, 1/mm: positive where the curve turns from +x towards +y (clockwise on the page), 0 on a
 * line. Infinite, or NaN where it has no limit by this formula, at a cusp or an end with a zero derivative.
 */
export function curvatureAt(c: Curve, t: number): number {
  if (c.kind === 'line') return 0;
  const [x, y] = derivativeAt(c, t);
  const [xx, yy] = secondDerivativeAt(c, t);
  const turn = x * yy - y * xx;
  return turn === 0 && (x !== 0 || y !== 0) ? 0 : turn / hypotenuse(x, y) ** 3;
}

/** The place of a range of a curve where it turns tightest. */
export interface TightestTurn {
  readonly t: number;
  /** Radius of curvature, mm, not negative; Infinity on a straight line, 0 at a cusp. */
  readonly radius: number;
  /** 1 where the curve turns from +x towards +y, −1 the other way, 0 on a straight line. */
  readonly turn: -1 | 0 | 1;
}

/** A derivative shorter than this part of the largest one is that of a cusp: its direction is rounding. */
const CUSP = 2 ** -20;

/** Distance in t from a cusp at which its sense of turning is read. */
const BESIDE_CUSP = 2 ** -10;

/**
 * The smallest radius of curvature of a curve between `t0` and `t1`, and where it is: from the ends and all
 * extrema of the curvature (roots of a polynomial in Bernstein form, all found). `turn` restricts the search to
 * turns of one sense.
 *
 * A cusp inside has radius 0. An end where the derivative vanishes (a control point drawn back onto it) does
 * not count: the radius is 0 there too, but grows so fast that no visible part of the curve is tight.
 */
export function tightestTurn(c: Curve, t0 = 0, t1 = 1, turn: -1 | 0 | 1 = 0): TightestTurn {
  const low = Math.min(t0, t1);
  const high = Math.max(t0, t1);
  let best: TightestTurn = { t: low, radius: Number.POSITIVE_INFINITY, turn: 0 };
  if (c.kind === 'line') return best;
  const still = CUSP * Math.max(...[0, 0.25, 0.5, 0.75, 1].map((t) => speedAt(c, t)));
  for (const t of [low, ...curvatureExtrema(c).filter((s) => s > low && s < high), high]) {
    const cusp = speedAt(c, t) <= still;
    if (cusp && (t === 0 || t === 1)) continue;
    const curvature = curvatureAt(c, cusp ? t - BESIDE_CUSP : t);
    const sense = curvature > 0 ? 1 : curvature < 0 ? -1 : 0;
    if (sense === 0 || (turn !== 0 && sense !== turn)) continue;
    const radius = cusp ? 0 : 1 / Math.abs(curvature);
    if (radius < best.radius) best = { t, radius, turn: sense };
  }
  return best;
}

function speedAt(c: Curve, t: number): number {
  const [x, y] = derivativeAt(c, t);
  return hypotenuse(x, y);
}

/** Radius of curvature at `t`, mm: Infinity on a straight line, 0 at a cusp. */
export function radiusAt(c: Curve, t: number): number {
  return 1 / Math.abs(curvatureAt(c, t));
}

/** Parameters in (0, 1) where the curvature has an extremum. */
function curvatureExtrema(c: Curve): number[] {
  switch (c.kind) {
    case 'line':
      return [];
    case 'quadratic': {
      // A parabola turns tightest where the derivative, linear in t, is shortest.
      const [x, y] = derivativeAt(c, 0);
      const [xx, yy] = secondDerivativeAt(c, 0);
      const square = xx * xx + yy * yy;
      return square === 0 ? [] : [-(x * xx + y * yy) / square];
    }
    case 'cubic':
      return cubicCurvatureExtrema(c);
    case 'arc': {
      // An ellipse turns tightest and widest on its axes.
      const quarter = Math.PI / 2;
      const [low, high] = [Math.min(c.start, c.start + c.sweep), Math.max(c.start, c.start + c.sweep)];
      const extrema: number[] = [];
      for (let k = Math.ceil(low / quarter); k * quarter < high; k++) {
        extrema.push((k * quarter - c.start) / c.sweep);
      }
      return extrema;
    }
  }
}

/**
 * κ = (B′×B″)/|B′|³, so κ′ = 0 where (B′×B‴)|B′|² = 3 (B′×B″)(B′·B″), a polynomial of degree 6. The places
 * where the derivative is shortest are added: near a cusp the extrema lie too close together to be told apart.
 */
function cubicCurvatureExtrema(c: CubicCurve): number[] {
  const corners = [c.from, c.control1, c.control2, c.to];
  const first = ([0, 1] as const).map((k) => [0, 1, 2].map((i) => 3 * (corners[i + 1][k] - corners[i][k])));
  const second = first.map((d) => [0, 1].map((i) => 2 * (d[i + 1] - d[i])));
  const third = second.map((d) => d[1] - d[0]);
  const [x, y] = first;
  const [xx, yy] = second;
  const square = combineBernstein(1, multiplyBernstein(x, x), 1, multiplyBernstein(y, y));
  const turn = combineBernstein(1, multiplyBernstein(x, yy), -1, multiplyBernstein(y, xx));
  const along = combineBernstein(1, multiplyBernstein(x, xx), 1, multiplyBernstein(y, yy));
  const turnRate = combineBernstein(third[1], x, -third[0], y);
  const left = multiplyBernstein(turnRate, square);
  const right = multiplyBernstein(turn, along);
  return [...bernsteinRoots(combineBernstein(1, left, -3, right)), ...bernsteinRoots(along)];
}
