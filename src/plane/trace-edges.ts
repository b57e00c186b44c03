import { type LengthMeasure, lengthBetween, measureOf } from '../geometry/curve-length.js';
import { fromGrid } from '../geometry/grid.js';
import { distance, type Point } from '../geometry/point.js';
import type { MapCurve } from './flat-lines.js';
import type { FacedNet } from './net.js';
import type { CurvePiece, EdgeKind, MapEdge, MapNode } from './region-map.js';
import { isTurnEnd } from './steps.js';

/** The map's nodes and edges, and how they hang together with the net's half-edges. */
export interface TracedEdges {
  readonly nodes: readonly MapNode[];
  readonly edges: readonly MapEdge[];
  /** Map edge of each net edge. */
  readonly edgeOf: Int32Array;
  /** Whether the map edge runs along the net edge from `edgeFrom` to `edgeTo`: 1, else 0. */
  readonly along: Uint8Array;
}

/** Lengths are compared in these units, mm: their last bits depend on the direction of a curve. */
const SAME_LENGTH = 2 ** -20;

/** An edge, and the net half-edges along it: the places of the first one and after the last one in `Tracing.chains`. */
interface FoundEdge {
  readonly first: number;
  readonly end: number;
  readonly edge: MapEdge;
}

/**
 * Joins net edges into map edges: from node to node, over all points where just two edges meet. A closed line
 * that meets nothing has one node, its topmost (then leftmost) point. Of the curves on an edge the one of the lowest
 * rank tells its line (connectors have none). `truePoints` gives a net node's point on
 * the true curves. Yields the share of the work done.
 */
export function* traceEdges(
  faced: FacedNet,
  curves: readonly MapCurve[],
  ranks: Int32Array,
  truePoints: (x: number, y: number) => Point | undefined,
): Generator<number, TracedEdges> {
  const { net } = faced;
  const isNode = markNodes(faced);
  const nodes: MapNode[] = [];
  const nodeAt: number[] = [];
  const nodeOf = new Int32Array(net.nodeX.length).fill(-1);
  for (let v = 0; v < isNode.length; v++) {
    if (isNode[v] === 0) continue;
    const at: Point = [fromGrid(net.nodeX[v]), fromGrid(net.nodeY[v])];
    nodeAt.push(v);
    nodeOf[v] = nodes.push({ at, truePoint: truePoints(net.nodeX[v], net.nodeY[v]) ?? at }) - 1;
  }
  const edgeOf = new Int32Array(net.edgeFrom.length).fill(-1);
  const along = new Uint8Array(net.edgeFrom.length);
  const chains = new Int32Array(net.edgeFrom.length);
  const found: FoundEdge[] = [];
  const lengthOf = lengthsOf(curves);
  yield 0;
  const work: Tracing = {
    faced,
    curves,
    ranks,
    isNode,
    nodes,
    nodeOf,
    edgeOf,
    along,
    chains,
    found,
    seenBy: new Int32Array(curves.reduce((most, { shape }) => Math.max(most, shape + 1), 0)),
    lengthOf,
  };
  for (const [n, v] of nodeAt.entries()) {
    traceFrom(work, v);
    if (isTurnEnd(n)) yield (0.9 * n) / nodeAt.length;
  }
  yield 0.9;
  // Edges between the same nodes by their length: the way around a node begins where rounding puts it.
  const size = ({ length }: MapEdge): number => Math.round(length / SAME_LENGTH);
  found.sort(({ edge: a }, { edge: b }) => a.from - b.from || a.to - b.to || size(a) - size(b));
  yield 0.94;
  found.forEach(({ first, end }, e) => {
    for (let i = first; i < end; i++) edgeOf[chains[i] >> 1] = e;
  });
  yield 0.97;
  const edges = markKinds(
    found.map(({ edge }) => edge),
    nodes.length,
  );
  return { nodes, edges, edgeOf, along };
}

/** What tracing reads, and what it has found. */
interface Tracing {
  readonly faced: FacedNet;
  readonly curves: readonly MapCurve[];
  readonly ranks: Int32Array;
  readonly isNode: Uint8Array;
  readonly nodes: readonly MapNode[];
  readonly nodeOf: Int32Array;
  readonly edgeOf: Int32Array;
  readonly along: Uint8Array;
  /** Half-edges along the edges found, one edge after the other. */
  readonly chains: Int32Array;
  readonly found: FoundEdge[];
  /** By shape, the edge that was last seen to run along it: its first half-edge, plus one. */
  readonly seenBy: Int32Array;
  readonly lengthOf: (pieces: readonly CurvePiece[]) => number;
}

/** Traces the edges that leave a node and are not known yet. */
function traceFrom(work: Tracing, v: number): void {
  const { faced, isNode, edgeOf, along, chains, found } = work;
  const { half } = faced;
  for (let i = half.start[v]; i < half.start[v + 1]; i++) {
    if (edgeOf[half.out[i] >> 1] >= 0) continue;
    const first = found.length > 0 ? found[found.length - 1].end : 0;
    const end = followChain(faced, half.out[i], isNode, chains, first);
    for (let k = first; k < end; k++) {
      const h = chains[k];
      edgeOf[h >> 1] = found.length;
      along[h >> 1] = (h & 1) === 0 ? 1 : 0;
    }
    found.push({ first, end, edge: makeEdge(work, first, end) });
  }
}

/** Nodes of the map: where other than two edges meet, and one point on each closed line. */
function markNodes({ net, half }: FacedNet): Uint8Array {
  const isNode = new Uint8Array(net.nodeX.length);
  const partHasNode = new Uint8Array(half.parts);
  for (let v = 0; v < isNode.length; v++) {
    if (half.start[v + 1] - half.start[v] === 2) continue;
    isNode[v] = 1;
    partHasNode[half.part[v]] = 1;
  }
  for (let p = 0; p < half.parts; p++) if (partHasNode[p] === 0) isNode[half.partTop[p]] = 1;
  return isNode;
}

const origin = ({ net }: FacedNet, h: number): number =>
  (h & 1) === 0 ? net.edgeFrom[h >> 1] : net.edgeTo[h >> 1];

/** Puts the half-edges from `h` to the next node at place `end` on; returns the place after them. */
function followChain(
  faced: FacedNet,
  h: number,
  isNode: Uint8Array,
  chains: Int32Array,
  end: number,
): number {
  let last = h;
  chains[end++] = last;
  while (isNode[origin(faced, last ^ 1)] === 0) {
    last = faced.half.next[last];
    chains[end++] = last;
  }
  return end;
}

/** The edge along the half-edges at places `begin … end - 1`. */
function makeEdge(work: Tracing, begin: number, end: number): MapEdge {
  const { faced, nodeOf, nodes, chains, lengthOf } = work;
  const { left, right } = faced;
  const first = chains[begin];
  const from = nodeOf[origin(faced, first)];
  const to = nodeOf[origin(faced, chains[end - 1] ^ 1)];
  const pieces = piecesOf(work, begin, end);
  return {
    from,
    to,
    left: (first & 1) === 0 ? left[first >> 1] : right[first >> 1],
    right: (first & 1) === 0 ? right[first >> 1] : left[first >> 1],
    kind: 'border',
    pieces,
    length: lengthOf(pieces) || distance(nodes[from].at, nodes[to].at),
    shapes: shapesOf(work, begin, end),
  };
}

/** The shapes whose outlines run along an edge, topmost first. */
function shapesOf({ faced: { net }, curves, chains, seenBy }: Tracing, begin: number, end: number): number[] {
  const shapes: number[] = [];
  const edge = chains[begin] + 1;
  for (let k = begin; k < end; k++) {
    const e = chains[k] >> 1;
    for (let i = net.start[e]; i < net.start[e + 1]; i++) {
      const { cuts, shape } = curves[net.curve[i]];
      if (!cuts || shape < 0 || seenBy[shape] === edge) continue;
      seenBy[shape] = edge;
      shapes.push(shape);
    }
  }
  return shapes.sort((a, b) => b - a);
}

/** Lengths of pieces of curves; what is known of a curve is kept for its next piece. */
function lengthsOf(curves: readonly MapCurve[]): (pieces: readonly CurvePiece[]) => number {
  const known = new Map<number, LengthMeasure>();
  return (pieces) => {
    let sum = 0;
    for (const { curve, t0, t1 } of pieces) {
      const measure = known.get(curve) ?? measureOf(curves[curve].curve);
      known.set(curve, measure);
      sum += lengthBetween(measure, t0, t1);
    }
    return sum;
  };
}

/** Parameters that differ by less are one: each was found by its own arithmetic. */
const SAME_PARAMETER = 1e-9;

/** The curves along a chain: each as long as it lasts, the one of the lowest rank where there is a choice. */
function piecesOf(work: Tracing, begin: number, end: number): CurvePiece[] {
  const { ranks, chains } = work;
  const { net } = work.faced;
  const pieces: CurvePiece[] = [];
  // The piece under way; -1 before the first.
  let curve = -1;
  let t0 = 0;
  let t1 = 0;
  for (let k = begin; k < end; k++) {
    const h = chains[k];
    const e = h >> 1;
    const forward = (h & 1) === 0;
    let best = -1;
    let goesOn = false;
    for (let i = net.start[e]; i < net.start[e + 1] && !goesOn; i++) {
      const from = forward ? net.t0[i] : net.t1[i];
      const to = forward ? net.t1[i] : net.t0[i];
      goesOn =
        net.curve[i] === curve &&
        Math.abs(from - t1) < SAME_PARAMETER &&
        (t0 === t1 || to > from === t1 > t0);
      if (goesOn || best < 0 || ranks[net.curve[i]] < ranks[net.curve[best]]) best = i;
    }
    if (!goesOn) {
      if (curve >= 0) pieces.push({ curve, t0, t1 });
      curve = net.curve[best];
      t0 = forward ? net.t0[best] : net.t1[best];
    }
    t1 = forward ? net.t1[best] : net.t0[best];
  }
  if (curve >= 0) pieces.push({ curve, t0, t1 });
  return pieces;
}

/** Edges with one face on both sides are veins as far as they can be worn away from a free end. */
function markKinds(edges: readonly MapEdge[], nodes: number): MapEdge[] {
  const degree = new Int32Array(nodes);
  // The edges at a node that are not worn away, combined bit by bit (xor): with one left, that one.
  const rest = new Int32Array(nodes);
  edges.forEach(({ from, to }, e) => {
    degree[from]++;
    degree[to]++;
    rest[from] ^= e;
    rest[to] ^= e;
  });
  const vein = new Uint8Array(edges.length);
  const free: number[] = [];
  for (let v = 0; v < nodes; v++) if (degree[v] === 1) free.push(v);
  for (let v = free.pop(); v !== undefined; v = free.pop()) {
    if (degree[v] !== 1) continue;
    const e = rest[v];
    vein[e] = 1;
    const other = edges[e].from === v ? edges[e].to : edges[e].from;
    degree[v]--;
    degree[other]--;
    rest[other] ^= e;
    if (degree[other] === 1) free.push(other);
  }
  return edges.map((edge, e): MapEdge => {
    const kind: EdgeKind = edge.left !== edge.right ? 'border' : vein[e] === 1 ? 'vein' : 'connector';
    return { ...edge, kind };
  });
}
