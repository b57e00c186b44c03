import { type ArcCurve, arcPoint, type Curve, pointAt, subCurve } from './curve.js';
import type { Point } from './point.js';

/**
 * What a curve from `t0` to `t1` adds to the signed area of a loop that it is part of: ½ ∫ (x dy − y dx) with x
 * and y measured from `origin`, in mm², by closed form for each kind. Positive where the loop turns from +x
 * towards +y (clockwise on the page, y down). The sum over a closed loop does not depend on the origin; one
 * near the loop avoids cancellation (error about 1e-16 × size² then).
 *
 * The drawn end points of an arc count: where they differ from its ellipse by rounding, straight connectors
 * are included.
 */
export function curveArea(c: Curve, t0 = 0, t1 = 1, origin: Point = [0, 0]): number {
  if (t1 < t0) return -curveArea(c, t1, t0, origin);
  if (c.kind === 'line') return chordArea(pointAt(c, t0), pointAt(c, t1), origin);
  const part = subCurve(c, t0, t1);
  const chord = chordArea(part.from, part.to, origin);
  switch (part.kind) {
    case 'line':
      return chord;
    case 'quadratic':
      return chord + cross(part.from, part.control, part.to) / 3;
    case 'cubic': {
      const { from, control1, control2, to } = part;
      const sum = cross(from, control1, control2) + cross(from, control1, to) + 2 * cross(from, control2, to);
      return chord + (3 * sum) / 20;
    }
    case 'arc':
      return arcArea(part, origin);
  }
}

/** Signed area of a closed polygon given as points in order, by the same rule. */
export function polygonArea(points: readonly Point[]): number {
  let sum = 0;
  for (let i = 0; i < points.length; i++) {
    sum += chordArea(points[i], points[(i + 1) % points.length], points[0]);
  }
  return sum;
}

/** Cross product of (a − o) and (b − o). */
function cross(o: Point, a: Point, b: Point): number {
  return (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0]);
}

function chordArea(a: Point, b: Point, origin: Point): number {
  return cross(origin, a, b) / 2;
}

function arcArea(c: ArcCurve, origin: Point): number {
  const first = arcPoint(c, c.start);
  const last = arcPoint(c, c.start + c.sweep);
  // About the centre the area swept is rx·ry·sweep/2; moving the origin adds ½ (centre − origin) × (last − first).
  const [x, y] = [c.centre[0] - origin[0], c.centre[1] - origin[1]];
  const shift = x * (last[1] - first[1]) - y * (last[0] - first[0]);
  const swept = (c.rx * c.ry * c.sweep + shift) / 2;
  return chordArea(c.from, first, origin) + swept + chordArea(last, c.to, origin);
}
