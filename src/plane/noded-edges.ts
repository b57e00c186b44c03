import type { SegmentGrid } from './segment-grid.js';
import type { Meetings } from './snap-round.js';
import { sortPoints } from './sort-points.js';
import type { GridLines } from './weld.js';

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
  /** The cells of the segments. */
  readonly grid: SegmentGrid;
}

/** Routes every segment through the hot points that it meets; pieces of no length vanish. */
export function nodeEdges(lines: GridLines, meetings: Meetings): NodedEdges {
  const vertices = lines.x.length;
  const x = new Int32Array(vertices + meetings.x.length);
  const y = new Int32Array(vertices + meetings.x.length);
  for (let v = 0; v < vertices; v++) {
    x[v] = Math.floor(lines.x[v] + 0.5);
    y[v] = Math.floor(lines.y[v] + 0.5);
  }
  x.set(meetings.x, vertices);
  y.set(meetings.y, vertices);
  const { node, nodeX, nodeY } = rankPoints(x, y);
  const route = sortMeetings(lines, meetings);
  const pieces = layPieces(lines, meetings, route, node);
  const { number, ...used } = dropUnused(pieces, nodeX, nodeY);
  const vertexNode = node.slice(0, vertices);
  if (number !== null) for (let v = 0; v < vertices; v++) vertexNode[v] = number[vertexNode[v]];
  return { ...used, vertexNode, ...mergePieces(pieces, used.nodeX.length), grid: meetings.grid };
}

/** Drops nodes without an edge (lines of no length); renumbers the ends of the pieces in place. */
function dropUnused({ from, to }: Pieces, nodeX: Int32Array, nodeY: Int32Array) {
  const number = new Int32Array(nodeX.length);
  for (let i = 0; i < from.length; i++) number[from[i]] = number[to[i]] = 1;
  let n = 0;
  for (let v = 0; v < number.length; v++) number[v] = number[v] === 1 ? n++ : -1;
  if (n === nodeX.length) return { nodeX, nodeY, number: null };
  const keep = (values: Int32Array): Int32Array => values.filter((_, v) => number[v] >= 0);
  for (let i = 0; i < from.length; i++) {
    from[i] = number[from[i]];
    to[i] = number[to[i]];
  }
  return { nodeX: keep(nodeX), nodeY: keep(nodeY), number };
}

/** Node of each point: equal points share one; nodes are numbered by y, then x. */
function rankPoints(x: Int32Array, y: Int32Array) {
  const order = sortPoints(x, y);
  const node = new Int32Array(order.length);
  let n = -1;
  for (let i = 0; i < order.length; i++) {
    const k = order[i];
    if (i === 0 || x[k] !== x[order[i - 1]] || y[k] !== y[order[i - 1]]) n++;
    node[k] = n;
  }
  const nodeX = new Int32Array(n + 1);
  const nodeY = new Int32Array(n + 1);
  for (let i = 0; i < order.length; i++) {
    nodeX[node[i]] = x[i];
    nodeY[node[i]] = y[i];
  }
  return { node, nodeX, nodeY };
}

/** Meetings by segment, in the order along it: `list[start[k] … start[k + 1] - 1]`. */
interface Route {
  readonly start: Int32Array;
  readonly list: Int32Array;
}

function sortMeetings(lines: GridLines, { segment, x, y }: Meetings): Route {
  const start = new Int32Array(lines.x.length + 1);
  for (let i = 0; i < segment.length; i++) start[segment[i]]++;
  for (let k = 0, sum = 0; k <= lines.x.length; k++) {
    sum += start[k];
    start[k] = sum;
  }
  const list = new Int32Array(segment.length);
  for (let i = segment.length - 1; i >= 0; i--) list[--start[segment[i]]] = i;
  const along = new Float64Array(segment.length);
  for (let k = 0; k + 1 < lines.x.length; k++) {
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
  return { start, list };
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

interface Pieces {
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly segment: Int32Array;
}

function layPieces(lines: GridLines, meetings: Meetings, route: Route, node: Int32Array): Pieces {
  const { last } = lines;
  const { copyOf } = meetings;
  const vertices = last.length;
  let most = meetings.segment.length + vertices;
  if (copyOf !== null) {
    for (let k = 0; k < vertices; k++)
      if (copyOf[k] !== k) most += route.start[copyOf[k] + 1] - route.start[copyOf[k]];
  }
  const from = new Int32Array(most);
  const to = new Int32Array(most);
  const segment = new Int32Array(most);
  let n = 0;
  const lay = (u: number, v: number, k: number): void => {
    if (u === v) return;
    from[n] = u;
    to[n] = v;
    segment[n++] = k;
  };
  for (let k = 0; k + 1 < vertices; k++) {
    if (last[k] === 1) continue;
    let u = node[k];
    const model = copyOf === null ? k : copyOf[k];
    const first = route.start[model];
    const end = route.start[model + 1];
    const backwards = model !== k && node[model] !== u;
    for (let i = first; i < end; i++) {
      const m = route.list[backwards ? first + end - 1 - i : i];
      const v = node[vertices + m];
      lay(u, v, k);
      u = v;
    }
    lay(u, node[k + 1], k);
  }
  return { from: from.subarray(0, n), to: to.subarray(0, n), segment: segment.subarray(0, n) };
}

/** Merges pieces with the same ends into one edge. */
function mergePieces({ from, to, segment }: Pieces, nodes: number) {
  const n = from.length;
  const start = new Int32Array(nodes + 1);
  for (let i = 0; i < n; i++) start[from[i] < to[i] ? from[i] : to[i]]++;
  for (let v = 0, sum = 0; v <= nodes; v++) {
    sum += start[v];
    start[v] = sum;
  }
  // By upper node: the pieces, and their lower nodes beside them.
  const list = new Int32Array(n);
  const lower = new Int32Array(n);
  for (let i = n - 1; i >= 0; i--) {
    const u = from[i];
    const v = to[i];
    const at = --start[u < v ? u : v];
    list[at] = i;
    lower[at] = u < v ? v : u;
  }
  const edgeFrom = new Int32Array(n);
  const edgeTo = new Int32Array(n);
  const pieceEdge = new Int32Array(n);
  let e = -1;
  for (let u = 0; u < nodes; u++) {
    const first = start[u];
    const end = start[u + 1];
    if (end - first > 1) sortPair(lower, list, first, end);
    for (let i = first; i < end; i++) {
      const v = lower[i];
      if (i === first || v !== lower[i - 1]) {
        e++;
        edgeFrom[e] = u;
        edgeTo[e] = v;
      }
      pieceEdge[list[i]] = 2 * e + (from[list[i]] === u ? 0 : 1);
    }
  }
  return {
    edgeFrom: edgeFrom.slice(0, e + 1),
    edgeTo: edgeTo.slice(0, e + 1),
    pieceEdge,
    pieceSegment: segment,
  };
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
