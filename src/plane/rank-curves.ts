import type { Curve } from '../geometry/curve.js';
import type { MapCurve } from './flat-lines.js';

/** Rank of each curve by its shape alone, so that ties do not depend on the order of the drawing. */
export function rankCurves(curves: readonly MapCurve[]): Int32Array {
  const rank = new Int32Array(curves.length);
  const key = curves.map(({ curve }) => curveKey(curve));
  const order = curves.map((_, i) => i).sort((a, b) => (key[a] < key[b] ? -1 : key[a] > key[b] ? 1 : a - b));
  order.forEach((c, i) => {
    rank[c] = i;
  });
  return rank;
}

function curveKey(curve: Curve): string {
  const ends = [curve.from.join(), curve.to.join()].sort().join();
  // Lines last: where a line and a curve coincide within the grid, the curve tells more.
  return `${curve.kind === 'line' ? 1 : 0}${curve.kind} ${ends}`;
}
