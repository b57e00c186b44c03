import { type Curve, derivativeAt, reverseCurve } from '../geometry/curve.js';
import { flattenParameters, flattenPoints } from '../geometry/flatten.js';
import type { Point } from '../geometry/point.js';
import { edgeCurves } from '../plane/edge-curves.js';
import type { RegionMap } from '../plane/region-map.js';

/** Largest distance between a line and its chords where clearances are measured, mm: well below any of them. */
export const CLEARANCE_TOLERANCE = 0.01;

/** The true shapes of a map's lines, each worked out when first asked for. */
export interface LineShapes {
  /** The curves of a line from its `from` to its `to` node. */
  curves(edge: number): readonly Curve[];
  /** Chords of the line, `[x, y]` one after the other, within `CLEARANCE_TOLERANCE`. */
  chords(edge: number): Float64Array;
  /** Unit direction of the line where it leaves its `from` node (or its `to` node, walked backwards). */
  heading(edge: number, forward: boolean): Point;
}

export function lineShapes(map: RegionMap): LineShapes {
  const curvesOf: (readonly Curve[])[] = new Array(map.edges.length);
  const chordsOf: Float64Array[] = new Array(map.edges.length);
  const curves = (edge: number): readonly Curve[] => {
    curvesOf[edge] ??= edgeCurves(map, map.edges[edge]);
    return curvesOf[edge];
  };
  return {
    curves,
    chords(edge) {
      chordsOf[edge] ??= chordsAlong(curves(edge));
      return chordsOf[edge];
    },
    heading(edge, forward) {
      const run = curves(edge);
      return headingOf(forward ? run[0] : reverseCurve(run[run.length - 1]));
    },
  };
}

/** Unit direction in which a curve sets out; for one that starts with a cusp, towards a point a little on. */
export function headingOf(c: Curve): Point {
  const straight: Point = [c.to[0] - c.from[0], c.to[1] - c.from[1]];
  for (const [x, y] of [derivativeAt(c, 0), derivativeAt(c, CUSP_STEP), straight]) {
    const length = Math.hypot(x, y);
    if (length > 0) return [x / length, y / length];
  }
  return [1, 0];
}

/** The parameter at which the direction is read where it vanishes at the very start. */
const CUSP_STEP = 1e-3;

function chordsAlong(run: readonly Curve[]): Float64Array {
  const parts = run.map((c) =>
    flattenPoints(c, flattenParameters(c, CLEARANCE_TOLERANCE), CLEARANCE_TOLERANCE),
  );
  const xy = new Float64Array(parts.reduce((sum, part) => sum + part.length - 2, 2));
  let at = 0;
  for (const part of parts) {
    xy.set(part, at);
    at += part.length - 2;
  }
  return xy;
}
