import { STEPS_PER_MM } from '../geometry/grid.js';
import { addUp } from './add-up.js';
import { CORNER_DEGREES, type LineSet } from './line-set.js';
import type { Scratch } from './scratch.js';
import { BLOCK, inBlocks, inBlocksBackwards } from './steps.js';

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
export function markCandidates(lines: LineSet, scratch: Scratch): { marks: Uint8Array; count: number } {
  const { coords, starts, corners } = lines;
  const marks = scratch.uint8(coords.length / 2);
  const cos = Math.cos((CORNER_DEGREES * Math.PI) / 180);
  let count = 0;
  for (let i = 0; i + 1 < starts.length; i++) {
    const from = starts[i];
    const end = starts[i + 1] - 1;
    if (end < from) continue;
    const closed = end > from && isSame(coords, from, end);
    if (corners === undefined) count += markTurns(coords, from, end, closed, cos, marks);
    else {
      for (let v = from; v <= end; v++) {
        if (corners[v] !== 1 && (closed || (v > from && v < end))) continue;
        marks[v] = 1;
        count++;
      }
    }
  }
  return { marks, count };
}

function isSame(coords: Float64Array, a: number, b: number): boolean {
  return coords[2 * a] === coords[2 * b] && coords[2 * a + 1] === coords[2 * b + 1];
}

/** Marks the ends of an open line, and where a line turns; returns how many. */
function markTurns(
  c: Float64Array,
  first: number,
  last: number,
  closed: boolean,
  cos: number,
  marks: Uint8Array,
): number {
  const limit = cos * cos;
  let count = 0;
  // The way to the vertex: around a closed line the last segment leads to the first vertex.
  let ux = closed ? c[2 * last] - c[2 * last - 2] : 0;
  let uy = closed ? c[2 * last + 1] - c[2 * last - 1] : 0;
  let square = ux * ux + uy * uy;
  for (let v = first; v < last; v++) {
    const vx = c[2 * v + 2] - c[2 * v];
    const vy = c[2 * v + 3] - c[2 * v + 1];
    const next = vx * vx + vy * vy;
    const dot = ux * vx + uy * vy;
    if (dot <= 0 || dot * dot < limit * square * next) {
      marks[v] = 1;
      count++;
    }
    ux = vx;
    uy = vy;
    square = next;
  }
  if (closed && marks[first] === 0) return count;
  marks[last] = 1;
  return count + 1;
}

/** Bins the marked vertices and merges those at the same coordinates; `reach` in grid steps. */
export function* collectWeldPoints(
  lines: LineSet,
  marks: Uint8Array,
  count: number,
  reach: number,
  scratch: Scratch,
): Generator<number, WeldPoints> {
  const { coords } = lines;
  const cell = gridFor(coords, marks, count, reach);
  yield 0.1;
  const cells = cell.columns * cell.rows;
  const vertexCells = scratch.int32(count);
  const candidates = scratch.int32(count);
  const fill = scratch.int32(cells + 1);
  let n = 0;
  for (let from = 0; from < marks.length; from += BLOCK) {
    n = binBlock(coords, marks, cell, from, n, vertexCells, candidates, fill);
    yield 0.1 + (0.3 * from) / marks.length;
  }
  addUp(fill);
  const points = {
    x: scratch.float64(count),
    y: scratch.float64(count),
    ofVertex: scratch.int32(marks.length).fill(-1),
    vertexStart: scratch.int32(count + 1),
    vertices: scratch.int32(count),
    // What stands before a cell, first of vertices, then of points.
    cellStart: fill,
    cell,
  };
  const put = (from: number, to: number): void => {
    putInCells(coords, candidates, vertexCells, points, from, to);
  };
  yield* inBlocksBackwards(n, put, 0.4, 0.6);
  let merged = 0;
  const merge = (from: number, to: number): void => {
    merged = mergeInCells(points, from, to, merged);
  };
  yield* inBlocks(cells, merge, 0.6, 1);
  fill[cells] = merged;
  points.vertexStart[merged] = count;
  return {
    x: points.x.subarray(0, merged),
    y: points.y.subarray(0, merged),
    ofVertex: points.ofVertex,
    vertexStart: points.vertexStart.subarray(0, merged + 1),
    vertices: points.vertices,
    cellStart: points.cellStart,
    cell,
  };
}

/** Finds the cells of the marked vertices of one block; `n` are known already. Returns how many are known then. */
function binBlock(
  coords: Float64Array,
  marks: Uint8Array,
  cell: CellGrid,
  from: number,
  n: number,
  vertexCells: Int32Array,
  candidates: Int32Array,
  fill: Int32Array,
): number {
  const { x0, y0, scale, columns } = cell;
  const to = Math.min(marks.length, from + BLOCK);
  let known = n;
  for (let v = from; v < to; v++) {
    if (marks[v] === 0) continue;
    const column = ((coords[2 * v] * STEPS_PER_MM - x0) * scale) | 0;
    const row = ((coords[2 * v + 1] * STEPS_PER_MM - y0) * scale) | 0;
    const k = row * columns + column;
    vertexCells[known] = k;
    candidates[known++] = v;
    fill[k]++;
  }
  return known;
}

/** Puts some vertices into their cells, each being filled from its end, with their coordinates. */
function putInCells(
  coords: Float64Array,
  candidates: Int32Array,
  vertexCells: Int32Array,
  { x, y, vertices, cellStart }: Pick<WeldPoints, 'x' | 'y' | 'vertices' | 'cellStart'>,
  from: number,
  to: number,
): void {
  for (let i = to - 1; i >= from; i--) {
    const v = candidates[i];
    const at = --cellStart[vertexCells[i]];
    vertices[at] = v;
    x[at] = coords[2 * v] * STEPS_PER_MM;
    y[at] = coords[2 * v + 1] * STEPS_PER_MM;
  }
}

function gridFor(coords: Float64Array, marks: Uint8Array, count: number, reach: number): CellGrid {
  let x0 = Number.POSITIVE_INFINITY;
  let y0 = Number.POSITIVE_INFINITY;
  let x1 = Number.NEGATIVE_INFINITY;
  let y1 = Number.NEGATIVE_INFINITY;
  for (let v = 0; v < marks.length; v++) {
    if (marks[v] === 0) continue;
    const x = coords[2 * v] * STEPS_PER_MM;
    const y = coords[2 * v + 1] * STEPS_PER_MM;
    if (x < x0) x0 = x;
    if (x > x1) x1 = x;
    if (y < y0) y0 = y;
    if (y > y1) y1 = y;
  }
  if (count === 0) return { x0: 0, y0: 0, scale: 1, columns: 1, rows: 1 };
  const width = x1 - x0 + 1;
  const height = y1 - y0 + 1;
  let size = Math.max(2 * reach, Math.sqrt((width * height) / (2 * count)), 1);
  size = Math.max(size, width / (4 * count + 64), height / (4 * count + 64));
  return {
    x0,
    y0,
    scale: 1 / size,
    columns: Math.floor(width / size) + 1,
    rows: Math.floor(height / size) + 1,
  };
}

/**
 * Sorts the vertices of some cells by place, and merges those at the same coordinates; `x` and `y` hold the
 * coordinates of the vertices there, and after it those of the points. `count` points are known already. Returns
 * how many are known then.
 */
function mergeInCells(
  { x, y, ofVertex, vertexStart, vertices, cellStart }: WeldPoints,
  first: number,
  beyond: number,
  count: number,
): number {
  let p = count - 1;
  for (let k = first; k < beyond; k++) {
    const from = cellStart[k];
    const to = cellStart[k + 1];
    cellStart[k] = p + 1;
    if (to - from > SHORT) sortByEngine(x, y, vertices, from, to);
    else if (to - from > 1) sortByPlace(x, y, vertices, from, to);
    for (let i = from; i < to; i++) {
      const px = x[i];
      const py = y[i];
      if (i === from || px !== x[p] || py !== y[p]) {
        p++;
        x[p] = px;
        y[p] = py;
        vertexStart[p] = i;
      }
      ofVertex[vertices[i]] = p;
    }
  }
  return p + 1;
}

/** Longer lists than this are sorted by the engine instead of by insertion. */
const SHORT = 24;

function sortByEngine(
  x: Float64Array,
  y: Float64Array,
  vertices: Int32Array,
  from: number,
  to: number,
): void {
  const order = Uint32Array.from({ length: to - from }, (_, i) => from + i);
  order.sort((a, b) => x[a] - x[b] || y[a] - y[b] || vertices[a] - vertices[b]);
  x.set(
    Float64Array.from(order, (i) => x[i]),
    from,
  );
  y.set(
    Float64Array.from(order, (i) => y[i]),
    from,
  );
  vertices.set(
    Int32Array.from(order, (i) => vertices[i]),
    from,
  );
}

/** Sorts vertices by x, then y, then number, by insertion. */
function sortByPlace(x: Float64Array, y: Float64Array, vertices: Int32Array, from: number, to: number): void {
  for (let i = from + 1; i < to; i++) {
    const px = x[i];
    const py = y[i];
    const v = vertices[i];
    let j = i - 1;
    for (; j >= from; j--) {
      const ox = x[j];
      if (ox < px) break;
      // Vertices come by number, and insertion keeps the order of equal ones.
      if (ox === px && y[j] <= py) break;
      x[j + 1] = ox;
      y[j + 1] = y[j];
      vertices[j + 1] = vertices[j];
    }
    x[j + 1] = px;
    y[j + 1] = py;
    vertices[j + 1] = v;
  }
}
