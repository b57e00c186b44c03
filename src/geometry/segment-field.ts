import { type Bounds, distanceToSegment, type Point } from './point.js';
import { chordMeetsBox, segmentsMeet } from './segment-meeting.js';

/**
 * All lines of a picture as straight segments, to ask whether a box is free of them.
 * `ends`: x0, y0, x1, y1 per segment, mm.
 */
export interface SegmentField {
  readonly ends: Float64Array;
  /** Null where there is no segment. */
  readonly cells: SegmentCells | null;
}

/** Square cells with the segments that go through each: those of cell `c` are `items[starts[c]]` up to `items[starts[c + 1]]`. */
export interface SegmentCells {
  /** Left upper corner, and side of a cell, mm. */
  readonly left: number;
  readonly top: number;
  readonly size: number;
  readonly columns: number;
  readonly rows: number;
  readonly starts: Int32Array;
  readonly items: Int32Array;
}

/** About so many segments to a cell. */
const TO_A_CELL = 1;

/** No more cells than this to a side. */
const MOST_CELLS = 4096;

/** Rounding moves a segment by less than this part of a cell. */
const ROUNDING = 1e-9;

/** Indexes segments given as x0, y0, x1, y1 one after the other: in cells, so that a search stops at the first that it meets. */
export function segmentField(ends: Float64Array): SegmentField {
  const count = ends.length / 4;
  if (count === 0) return { ends, cells: null };
  let [left, top, right, bottom] = [ends[0], ends[1], ends[0], ends[1]];
  for (let i = 0; i < ends.length; i += 2) {
    left = Math.min(left, ends[i]);
    right = Math.max(right, ends[i]);
    top = Math.min(top, ends[i + 1]);
    bottom = Math.max(bottom, ends[i + 1]);
  }
  const [width, height] = [right - left, bottom - top];
  const longer = Math.max(width, height);
  // Lines that all lie in one have no area.
  const even = Math.sqrt(
    (Math.max(width, longer / count) * Math.max(height, longer / count) * TO_A_CELL) / count,
  );
  const size = Math.max(even, longer / MOST_CELLS) || 1;
  const columns = Math.floor(width / size) + 1;
  const rows = Math.floor(height / size) + 1;
  const grid = { left, top, size, columns, rows };
  const starts = new Int32Array(columns * rows + 1);
  for (let i = 0; i < count; i++) eachCell(ends, i, grid, (cell) => starts[cell + 1]++);
  for (let cell = 0; cell < columns * rows; cell++) starts[cell + 1] += starts[cell];
  const items = new Int32Array(starts[columns * rows]);
  const next = starts.slice();
  for (let i = 0; i < count; i++) {
    eachCell(ends, i, grid, (cell) => {
      items[next[cell]++] = i;
    });
  }
  return { ends, cells: { ...grid, starts, items } };
}

/** The cells that a segment goes through, row by row. */
function eachCell(
  ends: Float64Array,
  i: number,
  { left, top, size, columns, rows }: Omit<SegmentCells, 'starts' | 'items'>,
  visit: (cell: number) => void,
): void {
  const down = ends[4 * i + 1] <= ends[4 * i + 3];
  const [a, b] = down ? [4 * i, 4 * i + 2] : [4 * i + 2, 4 * i];
  // In cells.
  const [ax, ay] = [(ends[a] - left) / size, (ends[a + 1] - top) / size];
  const [bx, by] = [(ends[b] - left) / size, (ends[b + 1] - top) / size];
  const first = clamp(Math.floor(ay - ROUNDING), rows);
  const last = clamp(Math.floor(by + ROUNDING), rows);
  for (let row = first; row <= last; row++) {
    const from = by > ay ? Math.max(0, (row - ay) / (by - ay)) : 0;
    const to = by > ay ? Math.min(1, (row + 1 - ay) / (by - ay)) : 1;
    const [x0, x1] = [ax + from * (bx - ax), ax + to * (bx - ax)];
    const begin = clamp(Math.floor(Math.min(x0, x1) - ROUNDING), columns);
    const end = clamp(Math.floor(Math.max(x0, x1) + ROUNDING), columns);
    for (let column = begin; column <= end; column++) visit(row * columns + column);
  }
}

const clamp = (cell: number, count: number): number => Math.max(0, Math.min(count - 1, cell));

/** Calls `visit` with each segment in the cells of a box, some more than once, until it returns false. */
function eachNear(cells: SegmentCells, [x0, y0, x1, y1]: Bounds, visit: (i: number) => boolean): void {
  const { left, top, size, columns, rows, starts, items } = cells;
  const firstColumn = Math.max(0, Math.floor((x0 - left) / size - ROUNDING));
  const lastColumn = Math.min(columns - 1, Math.floor((x1 - left) / size + ROUNDING));
  const firstRow = Math.max(0, Math.floor((y0 - top) / size - ROUNDING));
  const lastRow = Math.min(rows - 1, Math.floor((y1 - top) / size + ROUNDING));
  for (let row = firstRow; row <= lastRow; row++) {
    for (let cell = row * columns + firstColumn; cell <= row * columns + lastColumn; cell++) {
      for (let k = starts[cell]; k < starts[cell + 1]; k++) if (!visit(items[k])) return;
    }
  }
}

/** How many segments of the field touch the box; counting stops at `most`. */
export function segmentsInBox({ ends, cells }: SegmentField, box: Bounds, most: number): number {
  if (cells === null) return 0;
  const found: number[] = [];
  eachNear(cells, box, (i) => {
    const at = 4 * i;
    if (chordMeetsBox(ends[at], ends[at + 1], ends[at + 2], ends[at + 3], box) && !found.includes(i)) {
      found.push(i);
    }
    return found.length < most;
  });
  return found.length;
}

/** Whether the straight way from `a` to `b` meets no segment of the field. */
export function wayIsFree({ ends, cells }: SegmentField, a: Point, b: Point): boolean {
  if (cells === null) return true;
  const box = boxOfWay(a, b);
  let isFree = true;
  eachNear(cells, box, (i) => {
    isFree = !boxHolds(ends, i, box) || !segmentsMeet(a, b, ...segmentOf(ends, i));
    return isFree;
  });
  return isFree;
}

/** From a point to the nearest segment, or Infinity where none is within `most`. */
export function distanceToField({ ends, cells }: SegmentField, at: Point, most: number): number {
  let least = Number.POSITIVE_INFINITY;
  if (cells === null) return least;
  const box: Bounds = [at[0] - most, at[1] - most, at[0] + most, at[1] + most];
  eachNear(cells, box, (i) => {
    if (boxHolds(ends, i, box)) least = Math.min(least, distanceToSegment(at, ...segmentOf(ends, i)));
    return true;
  });
  return least;
}

/** Whether the box around a segment touches this one. */
function boxHolds(ends: Float64Array, i: number, [x0, y0, x1, y1]: Bounds): boolean {
  const at = 4 * i;
  return (
    Math.max(ends[at], ends[at + 2]) >= x0 &&
    Math.min(ends[at], ends[at + 2]) <= x1 &&
    Math.max(ends[at + 1], ends[at + 3]) >= y0 &&
    Math.min(ends[at + 1], ends[at + 3]) <= y1
  );
}

/** The box around two points. */
export function boxOfWay(a: Point, b: Point): Bounds {
  return [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[0], b[0]), Math.max(a[1], b[1])];
}

function segmentOf(ends: Float64Array, i: number): [Point, Point] {
  const at = 4 * i;
  return [
    [ends[at], ends[at + 1]],
    [ends[at + 2], ends[at + 3]],
  ];
}
