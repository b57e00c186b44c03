import { addUp } from './add-up.js';
import type { GridLines } from './grid-lines.js';
import { dropUnused, layPieces, type Pieces, type Route } from './lay-pieces.js';
import type { Scratch } from './scratch.js';
import type { SegmentGrid } from './segment-grid.js';
import type { Meetings } from './snap-round.js';
import { numberPoints } from './sort-points.js';
import { BLOCK, inBlocks, inBlocksBackwards, within } from './steps.js';

/** Distinct nodes and edges that meet at nodes only. */
export interface PlanarEdges {
  /** Nodes, sorted by y, then x; grid steps. */
  readonly nodeX: Int32Array;
  readonly nodeY: Int32Array;
  /** Edges, sorted by `edgeFrom`, then `edgeTo`; `edgeFrom < edgeTo`; no two alike. */
  readonly edgeFrom: Int32Array;
  readonly edgeTo: Int32Array;
  /**
   * Pieces, in the order of the segments and along each: the edge that the piece is drawn on, times two, plus
   * one where it is drawn from `edgeTo` to `edgeFrom`.
   */
  readonly pieceEdge: Int32Array;
}

/** Planar edges made of line work: which segment drew which edge. */
export interface NodedEdges extends PlanarEdges {
  /** Node of each vertex of the lines, -1 where no edge is left there. */
  readonly vertexNode: Int32Array;
  /** The segment of each piece, named by its first vertex; ascending. */
  readonly pieceSegment: Int32Array;
  /** The pieces of segment k: from `pieceStart[k]` up to `pieceStart[k + 1]`. */
  readonly pieceStart: Int32Array;
  /** The cells of the segments. */
  readonly grid: SegmentGrid;
}

/** Routes every segment through the hot points that it meets; pieces of no length vanish. */
export function* nodeEdges(
  lines: GridLines,
  meetings: Meetings,
  scratch: Scratch,
): Generator<number, NodedEdges> {
  const { brief } = scratch;
  const vertices = lines.x.length;
  const x = brief.int32(vertices + meetings.x.length);
  const y = brief.int32(vertices + meetings.x.length);
  yield* inBlocks(vertices, (from, to) => roundPoints(lines, x, y, from, to), 0, 0.05);
  x.set(meetings.x, vertices);
  y.set(meetings.y, vertices);
  const nodes = yield* within(numberPoints(x, y, scratch), 0.05, 0.4);
  const route = yield* within(sortMeetings(lines, meetings, brief), 0.4, 0.6);
  const pieces = yield* within(layPieces(lines, meetings, route, nodes, scratch), 0.6, 0.7);
  const kept = dropUnused(pieces, nodes, vertices);
  yield 0.75;
  const merged = yield* within(mergePieces(pieces, kept.uppers, brief), 0.75, 1);
  return {
    nodeX: kept.nodeX,
    nodeY: kept.nodeY,
    edgeFrom: merged.edgeFrom,
    edgeTo: merged.edgeTo,
    pieceEdge: merged.pieceEdge,
    vertexNode: nodes.number.subarray(0, vertices),
    pieceSegment: pieces.segment,
    pieceStart: pieces.start,
    grid: meetings.grid,
  };
}

/** Rounds some vertices to the grid. */
function roundPoints(lines: GridLines, x: Int32Array, y: Int32Array, from: number, to: number): void {
  for (let v = from; v < to; v++) {
    x[v] = Math.floor(lines.x[v] + 0.5);
    y[v] = Math.floor(lines.y[v] + 0.5);
  }
}

function* sortMeetings(
  lines: GridLines,
  { segment, x, y }: Meetings,
  scratch: Scratch,
): Generator<number, Route> {
  const start = scratch.int32(lines.x.length + 1);
  for (let i = 0; i < segment.length; i++) start[segment[i]]++;
  for (let k = 0, sum = 0; k <= lines.x.length; k++) {
    sum += start[k];
    start[k] = sum;
  }
  const list = scratch.int32(segment.length);
  yield* inBlocksBackwards(segment.length, (from, to) => hangFrom(segment, start, list, from, to), 0.1, 0.3);
  const along = scratch.float64(segment.length);
  const route = { start, list };
  const count = segment.length === 0 ? 0 : lines.x.length;
  for (let first = 0; first < count; first += BLOCK) {
    sortAlong(lines, x, y, route, first, Math.min(count, first + BLOCK), along);
    yield 0.3 + (0.7 * first) / count;
  }
  return route;
}

/** Hangs meetings from their segments, each segment being filled from its end. */
function hangFrom(segment: Int32Array, start: Int32Array, list: Int32Array, from: number, to: number): void {
  for (let i = to - 1; i >= from; i--) list[--start[segment[i]]] = i;
}

/** Sorts the meetings of some segments along them; `along` is room for their keys. */
function sortAlong(
  lines: GridLines,
  x: Int32Array,
  y: Int32Array,
  { start, list }: Route,
  first: number,
  beyond: number,
  along: Float64Array,
): void {
  for (let k = first; k < beyond; k++) {
    const from = start[k];
    const to = start[k + 1];
    if (to - from < 2) continue;
    const dx = lines.x[k + 1] - lines.x[k];
    const dy = lines.y[k + 1] - lines.y[k];
    // Along the longer axis first: a segment takes the pixels of one row or column in the order of the other.
    const steep = Math.abs(dy) > Math.abs(dx);
    const signX = (dx < 0 ? -1 : 1) * (steep ? 1 : MAJOR);
    const signY = (dy < 0 ? -1 : 1) * (steep ? MAJOR : 1);
    for (let i = from; i < to; i++) along[list[i]] = signX * x[list[i]] + signY * y[list[i]];
    sortBy(list, from, to, along);
  }
}

/** Outweighs any difference of a minor coordinate; with it, keys stay within 2⁵² and are exact. */
const MAJOR = 2 ** 26;

/** Longer lists than this are sorted by the engine instead of by insertion. */
const SHORT = 24;

function sortBy(list: Int32Array, from: number, to: number, key: Float64Array): void {
  if (to - from > SHORT) {
    list.subarray(from, to).sort((a, b) => key[a] - key[b]);
    return;
  }
  for (let i = from + 1; i < to; i++) {
    const item = list[i];
    const k = key[item];
    let j = i - 1;
    for (; j >= from && key[list[j]] > k; j--) list[j + 1] = list[j];
    list[j + 1] = item;
  }
}

/** Edges made of pieces. */
interface Merged {
  readonly edgeFrom: Int32Array;
  readonly edgeTo: Int32Array;
  readonly pieceEdge: Int32Array;
}

/** Merges pieces with the same ends into one edge; `uppers` becomes where the pieces of each node start. */
function* mergePieces(pieces: Pieces, uppers: Int32Array, scratch: Scratch): Generator<number, Merged> {
  const n = pieces.segment.length;
  const nodes = uppers.length;
  const start = uppers;
  addUp(start);
  yield 0.2;
  // By upper node: the pieces times two, plus one for those that are drawn upwards, and their lower nodes beside them.
  const list = scratch.int32(n);
  const lower = scratch.int32(n);
  const hang = (first: number, beyond: number): void => hangUpper(pieces, start, list, lower, first, beyond);
  yield* inBlocksBackwards(n, hang, 0.2, 0.4);
  const merged: Merged = {
    edgeFrom: scratch.int32(n),
    edgeTo: scratch.int32(n),
    pieceEdge: new Int32Array(n),
  };
  let edges = 0;
  for (let first = 0; first < nodes; first += BLOCK) {
    edges = mergeBelow(start, list, lower, first, Math.min(nodes, first + BLOCK), merged, edges);
    yield 0.4 + (0.6 * first) / nodes;
  }
  return {
    edgeFrom: merged.edgeFrom.slice(0, edges),
    edgeTo: merged.edgeTo.slice(0, edges),
    pieceEdge: merged.pieceEdge,
  };
}

/** Hangs some pieces from their upper nodes, each node being filled from its end. */
function hangUpper(
  { from, to }: Pieces,
  start: Int32Array,
  list: Int32Array,
  lower: Int32Array,
  first: number,
  beyond: number,
): void {
  for (let i = beyond - 1; i >= first; i--) {
    const u = from[i];
    const v = to[i];
    const at = --start[u < v ? u : v];
    list[at] = u < v ? 2 * i : 2 * i + 1;
    lower[at] = u < v ? v : u;
  }
}

/** Merges the pieces that hang from some nodes; `count` edges are known already. Returns how many are known then. */
function mergeBelow(
  start: Int32Array,
  list: Int32Array,
  lower: Int32Array,
  firstNode: number,
  beyond: number,
  { edgeFrom, edgeTo, pieceEdge }: Merged,
  count: number,
): number {
  let e = count - 1;
  for (let u = firstNode; u < beyond; u++) {
    const first = start[u];
    const end = u + 1 < start.length ? start[u + 1] : list.length;
    if (end - first > 1) sortPair(lower, list, first, end);
    for (let i = first; i < end; i++) {
      const v = lower[i];
      if (i === first || v !== lower[i - 1]) {
        e++;
        edgeFrom[e] = u;
        edgeTo[e] = v;
      }
      pieceEdge[list[i] >> 1] = 2 * e + (list[i] & 1);
    }
  }
  return e + 1;
}

/** Sorts `key[from … to - 1]`, and `item` with it. */
function sortPair(key: Int32Array, item: Int32Array, from: number, to: number): void {
  if (to - from > SHORT) {
    const order = Array.from({ length: to - from }, (_, i) => from + i).sort(
      (a, b) => key[a] - key[b] || a - b,
    );
    key.set(
      order.map((i) => key[i]),
      from,
    );
    item.set(
      order.map((i) => item[i]),
      from,
    );
    return;
  }
  for (let i = from + 1; i < to; i++) {
    const k = key[i];
    const m = item[i];
    let j = i - 1;
    for (; j >= from && key[j] > k; j--) {
      key[j + 1] = key[j];
      item[j + 1] = item[j];
    }
    key[j + 1] = k;
    item[j + 1] = m;
  }
}
