import type { LineSet } from './line-set.js';

/** Cells at most along a side of the grid in which segments are counted. */
const MOST_CELLS = 512;

/** Cells that a segment may take on the average: with more, most pairs in a cell do not cross, and counting takes long. */
const CELLS_PER_SEGMENT = 8;

/**
 * No fewer than the crossings of some lines: the pairs of segments whose boxes share a cell of a grid. Infinity where
 * the segments are too long to be counted so. O(n), far less than looking at pairs.
 */
export function mostCrossings({ coords, starts }: LineSet): number {
  const vertices = coords.length / 2;
  let x0 = Number.POSITIVE_INFINITY;
  let y0 = Number.POSITIVE_INFINITY;
  let x1 = Number.NEGATIVE_INFINITY;
  let y1 = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < coords.length; i += 2) {
    if (coords[i] < x0) x0 = coords[i];
    if (coords[i] > x1) x1 = coords[i];
    if (coords[i + 1] < y0) y0 = coords[i + 1];
    if (coords[i + 1] > y1) y1 = coords[i + 1];
  }
  const side = Math.min(MOST_CELLS, Math.ceil(Math.sqrt(vertices) / 2));
  const scaleX = (side - 1) / (x1 - x0 || 1);
  const scaleY = (side - 1) / (y1 - y0 || 1);
  const counts = new Int32Array(side * side);
  let left = CELLS_PER_SEGMENT * vertices;
  let pairs = 0;
  for (let line = 1; line < starts.length; line++) {
    for (let v = starts[line - 1]; v + 1 < starts[line]; v++) {
      const ax = ((coords[2 * v] - x0) * scaleX) | 0;
      const ay = ((coords[2 * v + 1] - y0) * scaleY) | 0;
      const bx = ((coords[2 * v + 2] - x0) * scaleX) | 0;
      const by = ((coords[2 * v + 3] - y0) * scaleY) | 0;
      const lowX = ax < bx ? ax : bx;
      const highX = ax < bx ? bx : ax;
      const lowY = ay < by ? ay : by;
      const highY = ay < by ? by : ay;
      left -= (highX - lowX + 1) * (highY - lowY + 1);
      if (left < 0) return Number.POSITIVE_INFINITY;
      for (let row = lowY; row <= highY; row++)
        for (let cell = row * side + lowX; cell <= row * side + highX; cell++) pairs += counts[cell]++;
    }
  }
  return pairs;
}
