import { secondDerivativeAt } from './curvature.js';
import { type Curve, derivativeAt } from './curve.js';
import type { Point } from './point.js';

/** One step of Newton's method on "parallel tangents, joined by their common normal". */
export interface TangencyStep {
  /** By how much to change the parameters. */
  readonly stepA: number;
  readonly stepB: number;
  /** The determinant of its two equations, and the size of the two products that it is the difference of. */
  readonly determinant: number;
  readonly size: number;
}

/** The step from the parameters `ta` and `tb`, at which the curves are at `pa` and `pb`. */
export function tangencyStep(a: Curve, ta: number, pa: Point, b: Curve, tb: number, pb: Point): TangencyStep {
  const [ax, ay] = derivativeAt(a, ta);
  const [bx, by] = derivativeAt(b, tb);
  const [aax, aay] = secondDerivativeAt(a, ta);
  const [bbx, bby] = secondDerivativeAt(b, tb);
  const [dx, dy] = [pa[0] - pb[0], pa[1] - pb[1]];
  const sine = ax * by - ay * bx;
  const along = dx * ax + dy * ay;
  // Rows: d(A′×B′) and d(D·A′) by ta and tb.
  const sa = aax * by - aay * bx;
  const sb = ax * bby - ay * bbx;
  const la = ax * ax + ay * ay + dx * aax + dy * aay;
  const lb = -(bx * ax + by * ay);
  const determinant = sa * lb - sb * la;
  return {
    stepA: (sb * along - lb * sine) / determinant,
    stepB: (la * sine - sa * along) / determinant,
    determinant,
    size: Math.abs(sa * lb) + Math.abs(sb * la),
  };
}
