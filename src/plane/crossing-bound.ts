import type { LineSet } from './line-set.js';
import { inBlocks } from './steps.js';

/** Cells at most along a side of the grid in which segments are counted. */
const MOST_CELLS = 512;

/** Cells that a segment may take on the average: with more, most pairs in a cell do not cross, and counting takes long. */
const CELLS_PER_SEGMENT = 8;

/** A grid in which segments are counted, and what there was so far. */
interface Counting {
  readonly x0: number;
  readonly y0: number;
  readonly scaleX: number;
  readonly scaleY: number;
  readonly side: number;
  readonly counts: Int32Array;
  /** Cells that segments may still take; less than nothing: they are too long. */
  left: number;
  pairs: number;
}

/**
 * No fewer than the crossings of some lines: the pairs of segments whose boxes share a cell of a grid. Infinity where
 * the segments are too long to be counted so. O(n), far less than looking at pairs. Yields the share of the work done.
 */
export function* mostCrossings({ coords, starts }: LineSet): Generator<number, number> {
  const grid = gridOver(coords);
  yield 0.2;
  yield* inBlocks(starts.length - 1, (from, to) => countSegments(grid, coords, starts, from, to), 0.2, 1);
  return grid.left < 0 ? Number.POSITIVE_INFINITY : grid.pairs;
}

function gridOver(coords: Float64Array): Counting {
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
  return { x0, y0, scaleX, scaleY, side, counts, left: CELLS_PER_SEGMENT * vertices, pairs: 0 };
}

/** Counts the segments of some lines, and the pairs that they make with those before. */
function countSegments(
  grid: Counting,
  coords: Float64Array,
  starts: Uint32Array,
  first: number,
  beyond: number,
): void {
  const { x0, y0, scaleX, scaleY, side, counts } = grid;
  let { left, pairs } = grid;
  for (let line = first; line < beyond && left >= 0; line++) {
    for (let v = starts[line]; v + 1 < starts[line + 1]; v++) {
      const ax = ((coords[2 * v] - x0) * scaleX) | 0;
      const ay = ((coords[2 * v + 1] - y0) * scaleY) | 0;
      const bx = ((coords[2 * v + 2] - x0) * scaleX) | 0;
      const by = ((coords[2 * v + 3] - y0) * scaleY) | 0;
      const lowX = ax < bx ? ax : bx;
      const highX = ax < bx ? bx : ax;
      const lowY = ay < by ? ay : by;
      const highY = ay < by ? by : ay;
      left -= (highX - lowX + 1) * (highY - lowY + 1);
      if (left < 0) break;
      for (let row = lowY; row <= highY; row++)
        for (let cell = row * side + lowX; cell <= row * side + highX; cell++) pairs += counts[cell]++;
    }
  }
  grid.left = left;
  grid.pairs = pairs;
}
