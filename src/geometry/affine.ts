import { makeArc } from './arc.js';
import type { ArcCurve, Curve } from './curve.js';
import { hypotenuse, type Point } from './point.js';

/** An affine map in the order of SVG's `matrix(a b c d e f)`: x' = a x + c y + e, y' = b x + d y + f. */
export type Affine = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export const IDENTITY: Affine = [1, 0, 0, 1, 0, 0];

/** The map that applies `second` first, then `first` (as nested SVG transforms: outer, inner). */
export function multiplyAffine(first: Affine, second: Affine): Affine {
  const [a, b, c, d, e, f] = first;
  const [p, q, r, s, x, y] = second;
  return [a * p + c * q, b * p + d * q, a * r + c * s, b * r + d * s, a * x + c * y + e, b * x + d * y + f];
}

/** The inverse map, or null when the map flattens the plane (determinant 0 or not finite). */
export function invertAffine(m: Affine): Affine | null {
  const [a, b, c, d, e, f] = m;
  const determinant = a * d - b * c;
  if (determinant === 0 || !Number.isFinite(determinant)) return null;
  return [
    d / determinant,
    -b / determinant,
    -c / determinant,
    a / determinant,
    (c * f - d * e) / determinant,
    (b * e - a * f) / determinant,
  ];
}

/** A point under an affine map. */
export function applyToPoint(m: Affine, [x, y]: Point): Point {
  return [m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]];
}

/**
 * A curve under an affine map: a curve of the same kind with the same parameter, exact up to rounding. The
 * ellipse of an arc is found by singular value decomposition; a reflection turns its sweep round. A map of
 * determinant 0 leaves an arc with a zero radius, whose points are still right.
 */
export function applyToCurve(m: Affine, c: Curve): Curve {
  const from = applyToPoint(m, c.from);
  const to = applyToPoint(m, c.to);
  switch (c.kind) {
    case 'line':
      return { kind: 'line', from, to };
    case 'quadratic':
      return { kind: 'quadratic', from, control: applyToPoint(m, c.control), to };
    case 'cubic':
      return {
        kind: 'cubic',
        from,
        control1: applyToPoint(m, c.control1),
        control2: applyToPoint(m, c.control2),
        to,
      };
    case 'arc':
      return applyToArc(m, c, from, to);
  }
}

function applyToArc(m: Affine, c: ArcCurve, from: Point, to: Point): ArcCurve {
  const centre = applyToPoint(m, c.centre);
  const { rx, ry, rotation, start, sweep } = c;
  if (m[0] === 1 && m[1] === 0 && m[2] === 0 && m[3] === 1)
    return { kind: 'arc', from, to, centre, rx, ry, rotation, start, sweep };
  const cos = Math.cos(c.rotation);
  const sin = Math.sin(c.rotation);
  const [xx, xy] = [(m[0] * cos + m[2] * sin) * c.rx, (m[1] * cos + m[3] * sin) * c.rx];
  const [yx, yy] = [(m[2] * cos - m[0] * sin) * c.ry, (m[3] * cos - m[1] * sin) * c.ry];
  // The columns x, y are conjugate half diameters; [x y] = R(turnOut) · diag(long, short) · R(turnIn).
  const e = (xx + yy) / 2;
  const f = (xx - yy) / 2;
  const g = (xy + yx) / 2;
  const h = (xy - yx) / 2;
  const plain = hypotenuse(e, h);
  const mirrored = hypotenuse(f, g);
  const long = plain + mirrored;
  const short = Math.abs(plain - mirrored);
  const outer = Math.atan2(h, e);
  const inner = Math.atan2(g, f);
  const turnOut = (outer + inner) / 2;
  const turnIn = (outer - inner) / 2;
  const flip = plain < mirrored ? -1 : 1;
  return makeArc(from, to, centre, long, short, turnOut, flip * (c.start + turnIn), flip * c.sweep);
}
