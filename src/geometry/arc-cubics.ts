import { type ArcCurve, type CubicCurve, derivativeAt, pointAt } from './curve.js';
import type { Point } from './point.js';

/** How far the cubics may lie from the arc, mm: less than curve points that count as one. */
const DEVIATION = 1e-7;

/** A cubic deviates from its arc by about this part of the radius, times the sixth power of the angle (Goldapp 1991). */
const SIXTH_POWER = 4 / 27 / 4 ** 6;

/** Cubics for one arc, at most. */
const MOST = 64;

/**
 * An arc as cubics that follow it to 1e-7 mm. For arcs of very large radius: their points are differences of numbers so
 * large that the digits of a drawing get lost, those of the cubics are not.
 */
export function arcCubics(c: ArcCurve): CubicCurve[] {
  const radius = Math.max(c.rx, c.ry);
  const angle = (DEVIATION / (SIXTH_POWER * radius)) ** (1 / 6);
  const count = Math.min(MOST, Math.max(1, Math.ceil(Math.abs(c.sweep) / angle)));
  // As long as a third of the way along the tangent, nearly.
  const turn = c.sweep / count;
  const reach = turn === 0 ? 1 / (3 * count) : ((4 / 3) * Math.tan(turn / 4)) / c.sweep;
  const cubics: CubicCurve[] = [];
  let from = c.from;
  for (let k = 1; k <= count; k++) {
    const to = k === count ? c.to : pointAt(c, k / count);
    const [ux, uy] = derivativeAt(c, (k - 1) / count);
    const [vx, vy] = derivativeAt(c, k / count);
    const control1: Point = [from[0] + reach * ux, from[1] + reach * uy];
    const control2: Point = [to[0] - reach * vx, to[1] - reach * vy];
    cubics.push({ kind: 'cubic', from, control1, control2, to });
    from = to;
  }
  return cubics;
}
