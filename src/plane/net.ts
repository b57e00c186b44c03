import type { BoxTree } from '../geometry/box-tree.js';
import { fromGrid, GRID_STEP } from '../geometry/grid.js';
import { nearestOnCurve } from '../geometry/nearest-on-curve.js';
import { edgeTree } from './edge-tree.js';
import { findFaces } from './faces.js';
import type { FlatLines, MapCurve } from './flat-lines.js';
import type { GridLines } from './grid-lines.js';
import { type HalfEdges, linkHalfEdges } from './half-edges.js';
import type { NodedEdges, PlanarEdges } from './noded-edges.js';
import { inBlocks, within } from './steps.js';

/**
 * Planar edges with the curves that drew them. Source `i` of edge e (`start[e] ≤ i < start[e + 1]`) is curve
 * `curve[i]` between the parameters `t0[i]` at `edgeFrom` and `t1[i]` at `edgeTo`.
 */
export interface Net extends PlanarEdges {
  readonly start: Int32Array;
  readonly curve: Int32Array;
  readonly t0: Float64Array;
  readonly t1: Float64Array;
}

/** A net with its half-edges, and the face on each side of every edge (-1: the outside). */
export interface SidedNet {
  readonly net: Net;
  readonly half: HalfEdges;
  readonly left: Int32Array;
  readonly right: Int32Array;
  readonly faceCount: number;
  /** A half-edge on the outline of each face. */
  readonly faceFirst: Int32Array;
  readonly faceInside: Int32Array;
  /** The face that each connected part lies in. */
  readonly partFace: Int32Array;
}

/** The same with a tree over the edges. */
export interface FacedNet extends SidedNet {
  readonly tree: BoxTree;
}

/**
 * The drawn curves that each of the arranged ones stands for: those of curve c are `drawn[start[c] … start[c + 1] - 1]`,
 * each `2 · index`, plus 1 where it was drawn the other way.
 */
export interface DrawnCurves {
  readonly start: Int32Array;
  readonly drawn: Int32Array;
}

/** Attaches to each edge the pieces of drawn curves that lie on it. */
export function* netOf(
  curves: readonly MapCurve[],
  drawn: DrawnCurves,
  edges: NodedEdges,
  grid: GridLines,
  flat: FlatLines,
): Generator<number, Net> {
  const { pieceEdge, pieceSegment, edgeFrom } = edges;
  const start = new Int32Array(edgeFrom.length + 1);
  for (let i = 0; i < pieceEdge.length; i++) {
    const c = flat.curve[grid.source[pieceSegment[i]]];
    start[(pieceEdge[i] >> 1) + 1] += drawn.start[c + 1] - drawn.start[c];
  }
  for (let e = 0; e < edgeFrom.length; e++) start[e + 1] += start[e];
  const cursor = start.slice(0, edgeFrom.length);
  const sources = start[edgeFrom.length];
  const net: Net = {
    nodeX: edges.nodeX,
    nodeY: edges.nodeY,
    edgeFrom,
    edgeTo: edges.edgeTo,
    pieceEdge,
    start,
    curve: new Int32Array(sources),
    t0: new Float64Array(sources),
    t1: new Float64Array(sources),
  };
  yield* inBlocks(pieceEdge.length, (from, to) =>
    putSources(net, cursor, curves, drawn, edges, grid, flat, from, to),
  );
  return net;
}

/** Puts the sources of some pieces to their edges. */
function putSources(
  { curve, t0, t1 }: Net,
  cursor: Int32Array,
  curves: readonly MapCurve[],
  { start: firstOf, drawn }: DrawnCurves,
  edges: NodedEdges,
  grid: GridLines,
  flat: FlatLines,
  first: number,
  beyond: number,
): void {
  const { pieceEdge, pieceSegment, edgeFrom, edgeTo } = edges;
  for (let i = first; i < beyond; i++) {
    const e = pieceEdge[i] >> 1;
    const k = pieceSegment[i];
    const c = flat.curve[grid.source[k]];
    const from = parameterAt(curves, edges, grid, flat, k, edgeFrom[e]);
    const to = parameterAt(curves, edges, grid, flat, k, edgeTo[e]);
    for (let d = firstOf[c]; d < firstOf[c + 1]; d++) {
      const isTurned = (drawn[d] & 1) === 1;
      const at = cursor[e]++;
      curve[at] = drawn[d] >> 1;
      t0[at] = isTurned ? 1 - from : from;
      t1[at] = isTurned ? 1 - to : to;
    }
  }
}

function parameterAt(
  curves: readonly MapCurve[],
  edges: NodedEdges,
  grid: GridLines,
  flat: FlatLines,
  k: number,
  node: number,
): number {
  const end = node === edges.vertexNode[k] ? 0 : node === edges.vertexNode[k + 1] ? 1 : -1;
  return parameterOn(curves, grid, flat, k, end, edges.nodeX[node], edges.nodeY[node]);
}

/**
 * Curve parameter at a grid point on welded segment k: exact at its ends (`end` 0 or 1; else -1); between them the
 * nearest point of the curve, or of a line the foot.
 */
export function parameterOn(
  curves: readonly MapCurve[],
  grid: GridLines,
  flat: FlatLines,
  k: number,
  end: number,
  x: number,
  y: number,
): number {
  const v = grid.source[k];
  const from = grid.t === null ? 0 : grid.t[k];
  const to = grid.t === null || grid.source[k + 1] !== v ? 1 : grid.t[k + 1];
  let along = end === 0 ? from : to;
  if (end < 0) {
    const dx = grid.x[k + 1] - grid.x[k];
    const dy = grid.y[k + 1] - grid.y[k];
    const foot = ((x - grid.x[k]) * dx + (y - grid.y[k]) * dy) / (dx * dx + dy * dy);
    along = from + Math.min(1, Math.max(0, foot)) * (to - from);
  }
  const low = flat.t0[v];
  const high = flat.t1[v];
  if (along === 0 || along === 1) return along === 0 ? low : high;
  const { curve } = curves[flat.curve[v]];
  if (curve.kind === 'line') return low + along * (high - low);
  // A curve may run unevenly along its chord.
  return nearestOnCurve(curve, [fromGrid(x), fromGrid(y)], low, high).t;
}

/** Links half-edges and finds the faces of a net; yields the share of the work done. `known`: a tree over its edges. */
export function* faceNet(net: Net, known: BoxTree | null = null): Generator<number, FacedNet> {
  const tree = known ?? (yield* within(edgeTree(net), 0, 0.2));
  yield 0.2;
  const { half, left, right, faceCount, faceFirst, faceInside, partFace } = yield* within(
    sideNet(net, net, tree),
    0.2,
    1,
  );
  // Written out: what is copied from another object comes with a shape of its own each time, to the engine.
  return { net, half, left, right, faceCount, faceFirst, faceInside, partFace, tree };
}

/** The same without a tree, if the edges come with cells (`noded`: the same edges). */
export function* sideNet(net: Net, noded: PlanarEdges, tree?: BoxTree): Generator<number, SidedNet> {
  const half = yield* within(linkHalfEdges(net), 0, 0.6);
  const faces = yield* within(findFaces(noded, half, tree), 0.6, 0.9);
  const edges = net.edgeFrom.length;
  const left = new Int32Array(edges);
  const right = new Int32Array(edges);
  for (let e = 0; e < edges; e++) {
    left[e] = faces.ofCycle[half.cycle[2 * e]];
    right[e] = faces.ofCycle[half.cycle[2 * e + 1]];
  }
  yield 1;
  return {
    net,
    half,
    left,
    right,
    faceCount: faces.count,
    faceFirst: faces.outline.map((cycle) => half.cycleFirst[cycle]),
    faceInside: faces.inside,
    partFace: faces.partFace,
  };
}

/** Half-edges on the outline and the hole walks of each face: one a walk; entry 0 is the outside. */
export function walksByFace({ half, left, right, faceCount }: FacedNet) {
  const start = new Int32Array(faceCount + 2);
  const faceOf = (h: number): number => ((h & 1) === 0 ? left[h >> 1] : right[h >> 1]);
  for (let c = 0; c < half.cycles; c++) start[faceOf(half.cycleFirst[c]) + 2]++;
  for (let f = 1; f < start.length; f++) start[f] += start[f - 1];
  const cursor = start.slice(0, faceCount + 1);
  const first = new Int32Array(half.cycles);
  for (let c = 0; c < half.cycles; c++) first[cursor[faceOf(half.cycleFirst[c]) + 1]++] = half.cycleFirst[c];
  return { start, first };
}

/** The ring of nodes of a walk, mm: x, y, stride 2, first point not repeated. */
export function ringOf({ net, half }: FacedNet, first: number): Float64Array {
  let length = 0;
  let h = first;
  do {
    length++;
    h = half.next[h];
  } while (h !== first);
  const ring = new Float64Array(2 * length);
  for (let i = 0; i < ring.length; i += 2) {
    const from = (h & 1) === 0 ? net.edgeFrom[h >> 1] : net.edgeTo[h >> 1];
    ring[i] = net.nodeX[from] * GRID_STEP;
    ring[i + 1] = net.nodeY[from] * GRID_STEP;
    h = half.next[h];
  }
  return ring;
}
