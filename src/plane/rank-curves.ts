import type { Curve } from '../geometry/curve.js';
import type { Point } from '../geometry/point.js';
import type { MapCurve } from './flat-lines.js';

/** Rank of each curve by its shape alone, so that ties do not depend on the order of the drawing. */
export function rankCurves(curves: readonly MapCurve[]): Int32Array {
  const rank = new Int32Array(curves.length);
  const order = Array.from(curves.keys()).sort((a, b) => compare(curves[a].curve, curves[b].curve) || a - b);
  order.forEach((c, i) => {
    rank[c] = i;
  });
  return rank;
}

/** Lines last: where a line and a curve coincide within the grid, the curve tells more. */
const KINDS: Readonly<Record<Curve['kind'], number>> = { arc: 0, cubic: 1, quadratic: 2, line: 3 };

/** By kind, then by the smaller end, then by the other one. */
function compare(a: Curve, b: Curve): number {
  const kinds = KINDS[a.kind] - KINDS[b.kind];
  if (kinds !== 0) return kinds;
  const turnA = comparePoints(a.from, a.to) > 0;
  const turnB = comparePoints(b.from, b.to) > 0;
  return (
    comparePoints(turnA ? a.to : a.from, turnB ? b.to : b.from) ||
    comparePoints(turnA ? a.from : a.to, turnB ? b.from : b.to)
  );
}

function comparePoints(a: Point, b: Point): number {
  return a[0] - b[0] || a[1] - b[1];
}
