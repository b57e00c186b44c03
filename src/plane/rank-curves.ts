import type { MapCurve } from './flat-lines.js';

/**
 * Rank of each canonical curve: their order, lines last, since where a line and a curve coincide within the grid the
 * curve tells more.
 */
export function rankCurves(curves: readonly MapCurve[]): Int32Array {
  const rank = new Int32Array(curves.length);
  let n = 0;
  curves.forEach(({ curve }, c) => {
    if (curve.kind !== 'line') rank[c] = n++;
  });
  curves.forEach(({ curve }, c) => {
    if (curve.kind === 'line') rank[c] = n++;
  });
  return rank;
}
