import type { Curve } from '../geometry/curve.js';
import { curveBounds } from '../geometry/curve-bounds.js';
import { type Bounds, EMPTY_BOUNDS, joinBounds, type Point } from '../geometry/point.js';
import type { Subpath } from './drawing.js';

/** The box of some subpaths. */
export function subpathBounds(subpaths: readonly Subpath[]): Bounds {
  let bounds = EMPTY_BOUNDS;
  for (const subpath of subpaths) {
    for (const curve of subpath.curves) bounds = joinBounds(bounds, curveBounds(curve));
  }
  return bounds;
}

/** The same subpath closed by a straight line, as filling does. */
export function closeSubpath(subpath: Subpath): Subpath {
  if (subpath.closed) return subpath;
  const from = subpath.curves[subpath.curves.length - 1].to;
  const to = subpath.curves[0].from;
  const line: Curve = { kind: 'line', from, to };
  const closes = from[0] === to[0] && from[1] === to[1];
  return { curves: closes ? subpath.curves : [...subpath.curves, line], closed: true };
}

/** Whether a subpath, closed, encloses anything: false for all points in one straight line. */
export function hasArea(subpath: Subpath): boolean {
  const origin = subpath.curves[0].from;
  let far: Point | null = null;
  for (const curve of subpath.curves) {
    if (curve.kind === 'arc') return true;
    for (const p of controlPoints(curve)) {
      if (far === null) {
        if (p[0] !== origin[0] || p[1] !== origin[1]) far = p;
        continue;
      }
      const ax = far[0] - origin[0];
      const ay = far[1] - origin[1];
      const bx = p[0] - origin[0];
      const by = p[1] - origin[1];
      const cross = ax * by - ay * bx;
      if (Math.abs(cross) > COLLINEAR * (Math.abs(ax) + Math.abs(ay)) * (Math.abs(bx) + Math.abs(by)))
        return true;
    }
  }
  return false;
}

/** Sine of the angle between directions that differ by rounding only (2⁻⁴⁰: some thousand roundings). */
const COLLINEAR = 2 ** -40;

function controlPoints(curve: Exclude<Curve, { kind: 'arc' }>): readonly Point[] {
  switch (curve.kind) {
    case 'line':
      return [curve.to];
    case 'quadratic':
      return [curve.control, curve.to];
    case 'cubic':
      return [curve.control1, curve.control2, curve.to];
  }
}
