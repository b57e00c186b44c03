/**
 * Snap rounding on the integer grid (Hobby 1999; Guibas and Marimont 1998).
 *
 * Input: segments as given, unrounded. A grid point is *hot* if it is the rounding of an end of a segment or of
 * a proper crossing of two segments; the pixel of a point is the half-open square [−½, ½)² about it.
 * Output: for each segment the hot points, beside its ends, whose pixel it meets. Routed through their hot
 * points, in order, segments meet at nodes only.
 *
 * 1. Segments are registered in a uniform grid of cells (with a margin of a step).
 * 2. Each hot pixel belongs to the one cell that holds its point: a cell finds its crossings and tests all its
 *    hot pixels against its segments, on its own.
 * 3. A cell with more than CROWD segments is split in sixteen, down to single pixels. A single pixel met by
 *    more than PIXEL_CROWD different segments, not all from one point, counts as hot without a search for a
 *    crossing: an extra hot pixel only snaps more, and the work stays bounded.
 *
 * Everything that is decided is decided exactly, so the result does not depend on the order or direction of
 * the segments or on the choice of cells. Expected O(n + crossings) on line work of even density; crowded
 * places cost O(log) more.
 */
import { CellWork } from './cell-work.js';
import { CROWD, splitCell, withoutCopies } from './crowded-cell.js';
import type { GridLines } from './grid-lines.js';
import type { Scratch } from './scratch.js';
import { registerSegments, type SegmentGrid } from './segment-grid.js';
import { within } from './steps.js';

/** Hot points met by segments: `segment[i]` meets the pixel of (`x[i]`, `y[i]`), which is none of its ends. */
export interface Meetings {
  readonly segment: Int32Array;
  readonly x: Int32Array;
  readonly y: Int32Array;
  /** For segments that repeat another one: that one, whose meetings stand for both. null: none was looked for. */
  readonly copyOf: Int32Array | null;
  /** The cells in which segments were registered; of use to who looks for segments near a place. */
  readonly grid: SegmentGrid;
}

/** Finds all meetings; yields now and then with the share of the work done, 0 to 1. */
export function* snapRound(lines: GridLines, scratch: Scratch): Generator<number, Meetings> {
  const grid = yield* within(registerSegments(lines, scratch), 0, 0.4);
  const work = new CellWork(lines, scratch);
  const cells = grid.columns * grid.rows;
  let copyOf: Int32Array | null = null;
  for (let k = 0; k < cells; ) {
    k = runCells(work, grid, k);
    const share = 0.4 + (0.6 * k) / cells;
    yield share;
    if (k === cells || grid.cellStart[k + 1] - grid.cellStart[k] <= CROWD) continue;
    copyOf ??= ownNumbers(lines.x.length);
    const list = withoutCopies(lines, segmentsOf(grid, k), copyOf);
    yield* within(splitCell(work, list, cellAt(grid, k)), share, share);
    k++;
  }
  // A copy of a copy: cells may have told of different ones, the first one counts. Earlier segments come first.
  if (copyOf !== null) for (let k = 0; k < copyOf.length; k++) copyOf[k] = copyOf[copyOf[k]];
  const { segment, x, y } = work;
  return {
    segment: segment.data.subarray(0, segment.length),
    x: x.data.subarray(0, x.length),
    y: y.data.subarray(0, y.length),
    copyOf,
    grid,
  };
}

/** Pairs, and cells in hundreds, that are tested between two chances to pause: some milliseconds. */
const PAIRS_AT_ONCE = 50_000;

/** Works on cells from `from` on, up to a crowded one or a pause; returns the cell that is next. */
function runCells(work: CellWork, grid: SegmentGrid, from: number): number {
  const { cellStart } = grid;
  const cells = grid.columns * grid.rows;
  let left = PAIRS_AT_ONCE;
  let k = from;
  for (; k < cells && left > 0; k++) {
    const n = cellStart[k + 1] - cellStart[k];
    left -= n * n + 4;
    if (n < 2) continue;
    if (n > CROWD) break;
    work.testCell(grid, k);
  }
  return k;
}

/** The segments of the chains in a cell, ascending. */
function segmentsOf({ cellStart, chains, first, end }: SegmentGrid, k: number): Int32Array {
  const cell = chains.subarray(cellStart[k], cellStart[k + 1]);
  const list = new Int32Array(cell.reduce((sum, c) => sum + end[c] - first[c], 0));
  let n = 0;
  for (const c of cell) for (let s = first[c]; s < end[c]; s++) list[n++] = s;
  return list;
}

function cellAt({ x0, y0, columns, shift }: SegmentGrid, k: number) {
  const left = x0 + ((k % columns) << shift);
  const top = y0 + (Math.floor(k / columns) << shift);
  return { x0: left, y0: top, x1: left + (1 << shift), y1: top + (1 << shift) };
}

function ownNumbers(n: number): Int32Array {
  const numbers = new Int32Array(n);
  for (let k = 0; k < n; k++) numbers[k] = k;
  return numbers;
}
