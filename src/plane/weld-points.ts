import { CORNER_DEGREES, type LineSet } from './line-set.js';

/**
 * The points that may be welded: ends of open lines, and corners; points at the same coordinates are one.
 * Coordinates in unrounded grid steps. Points are binned in a uniform grid (`cellStart`, CSR, by cell; inside
 * a cell by x, then y).
 */
export interface WeldPoints {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Point of each vertex of the line set, -1 for vertices that are smooth. */
  readonly ofVertex: Int32Array;
  /** The vertices of each point: `vertices[vertexStart[p] … vertexStart[p + 1] - 1]`. */
  readonly vertexStart: Int32Array;
  readonly vertices: Int32Array;
  readonly cellStart: Int32Array;
  readonly cell: CellGrid;
}

/** A uniform grid of square cells over a box of the plane; `scale` cells to a grid step. */
export interface CellGrid {
  readonly x0: number;
  readonly y0: number;
  readonly scale: number;
  readonly columns: number;
  readonly rows: number;
}

/** Marks the vertices of a line set that may be welded: 1 for open ends and corners. */
export function markCandidates(lines: LineSet): { marks: Uint8Array; count: number } {
  const { coords, starts, corners } = lines;
  const marks = new Uint8Array(coords.length / 2);
  const cos = Math.cos((CORNER_DEGREES * Math.PI) / 180);
  let count = 0;
  for (let i = 0; i + 1 < starts.length; i++) {
    const from = starts[i];
    const end = starts[i + 1] - 1;
    if (end < from) continue;
    const closed = end > from && isSame(coords, from, end);
    for (let v = from; v <= end; v++) {
      const inner = v > from && v < end;
      let marked = true;
      if (inner || closed) {
        if (corners !== undefined) marked = corners[v] === 1;
        else marked = turnsAt(coords, inner ? v - 1 : end - 1, v, inner ? v + 1 : from + 1, cos);
      }
      if (!marked) continue;
      marks[v] = 1;
      count++;
    }
  }
  return { marks, count };
}

function isSame(coords: Float64Array, a: number, b: number): boolean {
  return coords[2 * a] === coords[2 * b] && coords[2 * a + 1] === coords[2 * b + 1];
}

function turnsAt(c: Float64Array, before: number, at: number, after: number, cos: number): boolean {
  const ux = c[2 * at] - c[2 * before];
  const uy = c[2 * at + 1] - c[2 * before + 1];
  const vx = c[2 * after] - c[2 * at];
  const vy = c[2 * after + 1] - c[2 * at + 1];
  const dot = ux * vx + uy * vy;
  if (dot <= 0) return true;
  return dot * dot < cos * cos * (ux * ux + uy * uy) * (vx * vx + vy * vy);
}

/** Bins the marked vertices and merges those at the same coordinates. `scale`: grid steps in an input unit. */
export function collectWeldPoints(
  lines: LineSet,
  marks: Uint8Array,
  count: number,
  scale: number,
  reach: number,
): WeldPoints {
  const { coords } = lines;
  const cell = gridFor(coords, marks, count, scale, reach);
  const cells = cell.columns * cell.rows;
  const vertexCells = new Int32Array(count);
  const candidates = new Int32Array(count);
  const fill = new Int32Array(cells + 1);
  let n = 0;
  for (let v = 0; v < marks.length; v++) {
    if (marks[v] === 0) continue;
    const column = ((coords[2 * v] * scale - cell.x0) * cell.scale) | 0;
    const row = ((coords[2 * v + 1] * scale - cell.y0) * cell.scale) | 0;
    const k = row * cell.columns + column;
    vertexCells[n] = k;
    candidates[n++] = v;
    fill[k + 1]++;
  }
  for (let k = 0; k < cells; k++) fill[k + 1] += fill[k];
  const sorted = new Int32Array(count);
  const cursor = fill.slice(0, cells);
  for (let i = 0; i < n; i++) sorted[cursor[vertexCells[i]]++] = candidates[i];
  return mergeCoincident(coords, scale, sorted, fill, cell, marks.length);
}

function gridFor(
  coords: Float64Array,
  marks: Uint8Array,
  count: number,
  scale: number,
  reach: number,
): CellGrid {
  let x0 = Number.POSITIVE_INFINITY;
  let y0 = Number.POSITIVE_INFINITY;
  let x1 = Number.NEGATIVE_INFINITY;
  let y1 = Number.NEGATIVE_INFINITY;
  for (let v = 0; v < marks.length; v++) {
    if (marks[v] === 0) continue;
    const x = coords[2 * v] * scale;
    const y = coords[2 * v + 1] * scale;
    if (x < x0) x0 = x;
    if (x > x1) x1 = x;
    if (y < y0) y0 = y;
    if (y > y1) y1 = y;
  }
  if (count === 0) return { x0: 0, y0: 0, scale: 1, columns: 1, rows: 1 };
  const width = x1 - x0 + 1;
  const height = y1 - y0 + 1;
  let size = Math.max(2 * reach, Math.sqrt((width * height) / count), 1);
  size = Math.max(size, width / (4 * count + 64), height / (4 * count + 64));
  return {
    x0,
    y0,
    scale: 1 / size,
    columns: Math.floor(width / size) + 1,
    rows: Math.floor(height / size) + 1,
  };
}

function mergeCoincident(
  coords: Float64Array,
  scale: number,
  sorted: Int32Array,
  fill: Int32Array,
  cell: CellGrid,
  vertexCount: number,
): WeldPoints {
  const cells = cell.columns * cell.rows;
  const ofVertex = new Int32Array(vertexCount).fill(-1);
  const x = new Float64Array(sorted.length);
  const y = new Float64Array(sorted.length);
  const vertexStart = new Int32Array(sorted.length + 1);
  const cellStart = new Int32Array(cells + 1);
  const compare = (a: number, b: number): number =>
    coords[2 * a] - coords[2 * b] || coords[2 * a + 1] - coords[2 * b + 1] || a - b;
  let p = -1;
  for (let k = 0; k < cells; k++) {
    cellStart[k] = p + 1;
    const from = fill[k];
    const to = fill[k + 1];
    if (to - from > SHORT) sorted.subarray(from, to).sort(compare);
    else if (to - from > 1) insertionSort(sorted, from, to, compare);
    for (let i = from; i < to; i++) {
      const v = sorted[i];
      if (i === from || !isSame(coords, v, sorted[i - 1])) {
        p++;
        x[p] = coords[2 * v] * scale;
        y[p] = coords[2 * v + 1] * scale;
        vertexStart[p] = i;
      }
      ofVertex[v] = p;
    }
  }
  cellStart[cells] = p + 1;
  vertexStart[p + 1] = sorted.length;
  return {
    x: x.subarray(0, p + 1),
    y: y.subarray(0, p + 1),
    ofVertex,
    vertexStart: vertexStart.subarray(0, p + 2),
    vertices: sorted,
    cellStart,
    cell,
  };
}

/** Longer lists than this are sorted by the engine instead of by insertion. */
const SHORT = 24;

function insertionSort(
  list: Int32Array,
  from: number,
  to: number,
  compare: (a: number, b: number) => number,
): void {
  for (let i = from + 1; i < to; i++) {
    const item = list[i];
    let j = i - 1;
    for (; j >= from && compare(list[j], item) > 0; j--) list[j + 1] = list[j];
    list[j + 1] = item;
  }
}
