import { addUp } from './add-up.js';
import { Int32List } from './growing.js';
import type { PlanarEdges } from './noded-edges.js';
import { type Scratch, scratchFor } from './scratch.js';
import { inBlocks, inBlocksBackwards, within } from './steps.js';

/**
 * Half-edges of a planar subdivision. Half-edge `2e` runs from `edgeFrom[e]` to `edgeTo[e]`, `2e + 1` back.
 * Each has its face on its **left** as seen on the page (y down: a walk along +x has −y on its left).
 */
export interface HalfEdges {
  /** Half-edges that leave node v, by rising angle from +x towards +y: `out[start[v] … start[v + 1] - 1]`. */
  readonly start: Int32Array;
  readonly out: Int32Array;
  /** The half-edge that follows along the same face. */
  readonly next: Int32Array;
  /** Cycle of each half-edge; cycles are numbered by their first half-edge in `out`. */
  readonly cycle: Int32Array;
  readonly cycles: number;
  /** One half-edge of each cycle. */
  readonly cycleFirst: Int32Array;
  /** Connected part of each node; parts are numbered by their first (topmost, then leftmost) node. */
  readonly part: Int32Array;
  readonly parts: number;
  /** The topmost, then leftmost node of each part. */
  readonly partTop: Int32Array;
  /** The cycle that runs around each part. */
  readonly partOuter: Int32Array;
}

/** Links the edges around their nodes and traces the cycles. O(E), sorting around nodes apart. */
export function* linkHalfEdges(
  edges: PlanarEdges,
  scratch = scratchFor(edges.nodeX.length),
): Generator<number, HalfEdges> {
  const { start, out, next } = yield* within(linkAround(edges), 0, 0.6);
  const { part, partTop, used } = yield* within(findParts(edges, start, scratch), 0.6, 0.8);
  // Euler's formula for each part: E − V + 2 cycles.
  const cycles = edges.edgeFrom.length - used + 2 * partTop.length;
  const { cycle, cycleFirst } = yield* within(traceCycles(out, next, cycles, scratch), 0.8, 1);
  const partOuter = new Int32Array(partTop.length);
  // At a part's topmost node all edges leave into [0, π): the first one has the outside on its left.
  for (let p = 0; p < partTop.length; p++) partOuter[p] = cycle[out[start[partTop[p]]]];
  return {
    start,
    out,
    next,
    cycle,
    cycles,
    cycleFirst,
    part,
    parts: partTop.length,
    partTop,
    partOuter,
  };
}

/** Degrees above this are sorted by the engine instead of by insertion. */
const SHORT = 24;

/** Sorts the half-edges around their nodes and links each to the next along its face. */
function* linkAround(edges: PlanarEdges) {
  const { edgeFrom, edgeTo } = edges;
  const nodes = edges.nodeX.length;
  const count = edgeFrom.length;
  const start = new Int32Array(nodes + 1);
  yield* inBlocks(count, (from, to) => countEnds(edgeFrom, edgeTo, start, from, to), 0, 0.15);
  addUp(start);
  yield 0.2;
  const out = new Int32Array(2 * count);
  // Nodes come by y, then x, so half-edges with even numbers leave into [0, π), the others into [π, 2π).
  yield* inBlocksBackwards(count, (from, to) => hangFrom(edgeTo, start, out, 1, from, to), 0.2, 0.3);
  yield* inBlocksBackwards(count, (from, to) => hangFrom(edgeFrom, start, out, 0, from, to), 0.3, 0.4);
  const next = new Int32Array(2 * count);
  const link = (from: number, to: number): void => {
    sortNodes(edges, start, out, from, to);
    linkNext(start, out, next, from, to);
  };
  yield* inBlocks(nodes, link, 0.4, 1);
  return { start, out, next };
}

/** Counts the ends of some edges at their nodes. */
function countEnds(
  edgeFrom: Int32Array,
  edgeTo: Int32Array,
  counts: Int32Array,
  from: number,
  to: number,
): void {
  for (let e = from; e < to; e++) {
    counts[edgeFrom[e]]++;
    counts[edgeTo[e]]++;
  }
}

/** Hangs half-edges `2e + side` from their nodes, each node being filled from its end. */
function hangFrom(
  node: Int32Array,
  start: Int32Array,
  out: Int32Array,
  side: 0 | 1,
  from: number,
  to: number,
): void {
  for (let e = to - 1; e >= from; e--) out[--start[node[e]]] = 2 * e + side;
}

/** Sorts the half-edges around some nodes by angle; the even ones stand before the odd ones already. */
function sortNodes(
  { nodeX, nodeY, edgeFrom, edgeTo }: PlanarEdges,
  start: Int32Array,
  out: Int32Array,
  firstNode: number,
  beyond: number,
): void {
  /** Positive if half-edge g leaves node v at a larger angle than h, which leaves into the same half. Exact. */
  const turn = (v: number, g: number, h: number): number => {
    const a = (g & 1) === 0 ? edgeTo[g >> 1] : edgeFrom[g >> 1];
    const b = (h & 1) === 0 ? edgeTo[h >> 1] : edgeFrom[h >> 1];
    const ax = nodeX[a] - nodeX[v];
    const ay = nodeY[a] - nodeY[v];
    return ay * (nodeX[b] - nodeX[v]) - ax * (nodeY[b] - nodeY[v]);
  };
  for (let v = firstNode; v < beyond; v++) {
    const first = start[v];
    const end = start[v + 1];
    if (end - first > SHORT) {
      out.subarray(first, end).sort((g, h) => (g & 1) - (h & 1) || turn(v, g, h));
      continue;
    }
    for (let i = first + 1; i < end; i++) {
      const h = out[i];
      let j = i - 1;
      for (; j >= first && ((out[j] ^ h) & 1) === 0 && turn(v, out[j], h) > 0; j--) out[j + 1] = out[j];
      out[j + 1] = h;
    }
  }
}

/** Links the half-edges that arrive at some nodes. */
function linkNext(start: Int32Array, out: Int32Array, next: Int32Array, from: number, to: number): void {
  for (let v = from; v < to; v++) {
    const first = start[v];
    const end = start[v + 1];
    // Arriving by the twin of out[i], the next edge along the left face is the one after it.
    for (let i = first; i < end; i++) next[out[i] ^ 1] = out[i + 1 < end ? i + 1 : first];
  }
}

function* traceCycles(out: Int32Array, next: Int32Array, cycles: number, scratch: Scratch) {
  const cycle = scratch.int32(next.length).fill(-1);
  const cycleFirst = scratch.int32(cycles);
  let n = 0;
  yield* inBlocks(out.length, (from, to) => {
    n = traceBlock(out, next, from, to, cycle, cycleFirst, n);
  });
  return { cycle, cycleFirst };
}

/** Traces the cycles of some half-edges; `count` are known already. Returns how many are known then. */
function traceBlock(
  out: Int32Array,
  next: Int32Array,
  from: number,
  to: number,
  cycle: Int32Array,
  cycleFirst: Int32Array,
  count: number,
): number {
  let n = count;
  for (let i = from; i < to; i++) {
    if (cycle[out[i]] >= 0) continue;
    cycleFirst[n] = out[i];
    for (let h = out[i]; cycle[h] < 0; h = next[h]) cycle[h] = n;
    n++;
  }
  return n;
}

/**
 * Connected parts by union-find, and how many nodes have an edge: the root of a part is its first node. Edges come by their upper node, so trees
 * stay shallow.
 */
function* findParts(edges: PlanarEdges, start: Int32Array, scratch: Scratch) {
  const nodes = edges.nodeX.length;
  const part = scratch.int32(nodes);
  yield* inBlocks(nodes, (from, to) => countUp(part, from, to), 0, 0.1);
  yield* inBlocks(edges.edgeFrom.length, (from, to) => joinEnds(edges, part, from, to), 0.1, 0.7);
  const tops = new Int32List(scratch.brief.int32(64));
  let used = 0;
  yield* inBlocks(nodes, (from, to) => {
    used += numberParts(part, start, tops, from, to);
  });
  return { part, partTop: tops.data.slice(0, tops.length), used };
}

function countUp(values: Int32Array, from: number, to: number): void {
  for (let i = from; i < to; i++) values[i] = i;
}

/**
 * Numbers the parts whose roots are among some nodes; returns how many of these have an edge. Roots come before the
 * nodes below them, so the parent of a node has its number by then.
 */
function numberParts(part: Int32Array, start: Int32Array, tops: Int32List, from: number, to: number): number {
  let used = to - from;
  for (let v = from; v < to; v++) {
    if (part[v] !== v) part[v] = part[part[v]];
    else if (start[v] === start[v + 1]) {
      part[v] = -1;
      used--;
    } else {
      part[v] = tops.length;
      tops.push(v);
    }
  }
  return used;
}

/** Joins the parts of the two ends of some edges. */
function joinEnds({ edgeFrom, edgeTo }: PlanarEdges, part: Int32Array, from: number, to: number): void {
  for (let e = from; e < to; e++) {
    let u = edgeFrom[e];
    let v = edgeTo[e];
    while (part[u] !== u) {
      part[u] = part[part[u]];
      u = part[u];
    }
    while (part[v] !== v) {
      part[v] = part[part[v]];
      v = part[v];
    }
    if (u < v) part[v] = u;
    else part[u] = v;
  }
}
