import { curvatureAt } from './curvature.js';
import { type Curve, derivativeAt, pointAt } from './curve.js';
import { hypotenuse, type Point } from './point.js';
import { tangencyStep } from './tangency-step.js';

/**
 * A place where two curves run side by side, joined by their common normal. In the frame of the first curve there
 * (x along `along`, y along `across`) the way from it to the second one is `gap + bend x² / 2`, higher powers left out.
 */
export interface Tangency {
  readonly ta: number;
  readonly tb: number;
  readonly pa: Point;
  readonly pb: Point;
  /** Unit tangent of the first curve, and its left-hand normal turned from +x to +y. */
  readonly along: Point;
  readonly across: Point;
  /** Signed, mm. */
  readonly gap: number;
  /** Difference of the curvatures, 1/mm, and the larger one of the two by size. */
  readonly bend: number;
  readonly tightest: number;
}

const MAX_STEPS = 12;

/** Parameters that move by less have arrived. */
const ARRIVED = 1e-12;

/** Sine between the tangents, and the part of the gap along them, at which a common normal is found. */
const PARALLEL = 1e-7;

/**
 * The common normal of two curves nearest to where the search starts (parameters within a chord of it): Newton's
 * method on "parallel tangents, joined by their normal". Null where it does not arrive within both curves.
 */
export function findTangency(a: Curve, startA: number, b: Curve, startB: number): Tangency | null {
  let ta = startA;
  let tb = startB;
  for (let step = 0; step < MAX_STEPS; step++) {
    const { stepA, stepB } = tangencyStep(a, ta, pointAt(a, ta), b, tb, pointAt(b, tb));
    const nextA = ta + stepA;
    const nextB = tb + stepB;
    if (!(nextA > 0 && nextA < 1 && nextB > 0 && nextB < 1)) return null;
    const moved = Math.abs(nextA - ta) + Math.abs(nextB - tb);
    ta = nextA;
    tb = nextB;
    if (moved < ARRIVED) break;
  }
  return tangencyAt(a, ta, b, tb);
}

function tangencyAt(a: Curve, ta: number, b: Curve, tb: number): Tangency | null {
  const pa = pointAt(a, ta);
  const pb = pointAt(b, tb);
  const [ax, ay] = derivativeAt(a, ta);
  const [bx, by] = derivativeAt(b, tb);
  const speed = hypotenuse(ax, ay);
  const along: Point = [ax / speed, ay / speed];
  const across: Point = [-along[1], along[0]];
  const sine = (along[0] * by - along[1] * bx) / hypotenuse(bx, by);
  const off = (pb[0] - pa[0]) * along[0] + (pb[1] - pa[1]) * along[1];
  if (!(Math.abs(sine) < PARALLEL && Math.abs(off) < PARALLEL)) return null;
  const bendA = curvatureAt(a, ta);
  const bendB = curvatureAt(b, tb) * (ax * bx + ay * by < 0 ? -1 : 1);
  return {
    ta,
    tb,
    pa,
    pb,
    along,
    across,
    gap: (pb[0] - pa[0]) * across[0] + (pb[1] - pa[1]) * across[1],
    bend: bendB - bendA,
    tightest: Math.max(Math.abs(bendA), Math.abs(bendB)),
  };
}

/**
 * The parameter near `start` at which a curve is `x` mm along a direction from a point; null where that is not
 * inside the curve.
 */
export function parameterAlong(c: Curve, start: number, from: Point, along: Point, x: number): number | null {
  let t = start;
  for (let step = 0; step < MAX_STEPS; step++) {
    const p = pointAt(c, t);
    const d = derivativeAt(c, t);
    const next =
      t +
      (x - (p[0] - from[0]) * along[0] - (p[1] - from[1]) * along[1]) / (d[0] * along[0] + d[1] * along[1]);
    if (!(next > 0 && next < 1)) return null;
    if (Math.abs(next - t) < ARRIVED) return next;
    t = next;
  }
  return null;
}
