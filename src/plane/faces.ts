import { type BoxTree, buildBoxTree, firstAbove } from '../geometry/box-tree.js';
import type { HalfEdges } from './half-edges.js';
import type { PlanarEdges } from './noded-edges.js';

/** The bounded faces of a subdivision. */
export interface Faces {
  readonly count: number;
  /** Face on the left of each cycle, -1 for the outside. */
  readonly ofCycle: Int32Array;
  /** The cycle that runs around each face. */
  readonly outline: Int32Array;
  /** For each connected part the face that it lies in, -1 for the outside. */
  readonly partFace: Int32Array;
  /** The face that directly encloses the connected part that a face belongs to, -1 for the outside. */
  readonly inside: Int32Array;
}

/**
 * Heights of edges above a grid point, in doubles, are good to a few 2⁻²⁸ steps; nearer to each other than
 * this, exact arithmetic decides. (A height off a whole step is off by 2⁻²⁵ at least, so boxes prune safely.)
 */
const DOUBT = 2 ** -22;

/** Edges in one box of the index for containment: runs of pieces follow the lines, so their boxes are small. */
const RUN = 8;

/** Numbers the faces, and finds for each connected part the face that it lies in. */
export function findFaces(edges: PlanarEdges, half: HalfEdges): Faces {
  const { cycles, parts, partOuter, part, cycleFirst } = half;
  const ofCycle = new Int32Array(cycles);
  for (let p = 0; p < parts; p++) ofCycle[partOuter[p]] = -1 - p;
  const outline = new Int32Array(cycles - parts);
  let count = 0;
  for (let c = 0; c < cycles; c++) {
    if (ofCycle[c] < 0) continue;
    ofCycle[c] = count;
    outline[count++] = c;
  }
  const partFace = new Int32Array(parts).fill(-1);
  if (parts > 1) locateParts(edges, half, ofCycle, partFace);
  for (let p = 0; p < parts; p++) ofCycle[partOuter[p]] = partFace[p];
  const inside = new Int32Array(count);
  for (let f = 0; f < count; f++) {
    const h = cycleFirst[outline[f]];
    inside[f] = partFace[part[(h & 1) === 0 ? edges.edgeFrom[h >> 1] : edges.edgeTo[h >> 1]]];
  }
  return { count, ofCycle, outline, partFace, inside };
}

/** Parts are numbered by their top, so what a part hangs below has a smaller number and is known already. */
function locateParts(edges: PlanarEdges, half: HalfEdges, ofCycle: Int32Array, partFace: Int32Array): void {
  const { nodeX, nodeY, edgeFrom, edgeTo, pieceEdge } = edges;
  const { tree, start } = indexRuns(edges);
  let hitEdge = -1;
  for (let p = 0; p < half.parts; p++) {
    const x = nodeX[half.partTop[p]];
    const y = nodeY[half.partTop[p]];
    hitEdge = -1;
    firstAbove(tree, x, y, (run, best) => {
      let low = best;
      for (let i = start[run]; i < start[run + 1]; i++) {
        const e = pieceEdge[i] >> 1;
        const at = yAbove(nodeX[edgeFrom[e]], nodeY[edgeFrom[e]], nodeX[edgeTo[e]], nodeY[edgeTo[e]], x, y);
        if (at > low + DOUBT || (at > low - DOUBT && isLower(edges, e, hitEdge, x, y))) {
          low = at;
          hitEdge = e;
        }
      }
      return low;
    });
    if (hitEdge < 0) continue;
    // The face below the edge lies to the left of its half-edge towards −x.
    const westward = nodeX[edgeTo[hitEdge]] < nodeX[edgeFrom[hitEdge]] ? 2 * hitEdge : 2 * hitEdge + 1;
    const face = ofCycle[half.cycle[westward]];
    partFace[p] = face >= 0 ? face : partFace[-1 - face];
  }
}

/**
 * Where the vertical through x meets the segment a–b, if that is above (smaller y than) the point (x, y) and
 * a–b spans x half-openly (so a node on the ray counts for one of its sides only); else −∞.
 */
function yAbove(ax: number, ay: number, bx: number, by: number, x: number, y: number): number {
  if (ax <= x ? bx <= x : bx > x) return Number.NEGATIVE_INFINITY;
  if (ay >= y && by >= y) return Number.NEGATIVE_INFINITY;
  const o = (bx - ax) * (y - ay) - (by - ay) * (x - ax);
  // Above the point: the point is to the right of the walk from the left end to the right end (y down).
  if (ax < bx ? o <= 0 : o >= 0) return Number.NEGATIVE_INFINITY;
  return y - Math.abs(o) / Math.abs(bx - ax);
}

/** Whether edge e runs below edge f (or there is no f) at x, both above (x, y): exact. */
function isLower(edges: PlanarEdges, e: number, f: number, x: number, y: number): boolean {
  if (f < 0 || e === f) return f < 0;
  const drop = (k: number): { num: bigint; den: bigint } => {
    const { nodeX, nodeY, edgeFrom, edgeTo } = edges;
    const ax = nodeX[edgeFrom[k]];
    const ay = nodeY[edgeFrom[k]];
    const dx = nodeX[edgeTo[k]] - ax;
    const dy = nodeY[edgeTo[k]] - ay;
    return { num: BigInt(Math.abs(dx * (y - ay) - dy * (x - ax))), den: BigInt(Math.abs(dx)) };
  };
  const a = drop(e);
  const b = drop(f);
  const order = a.num * b.den - b.num * a.den;
  return order !== 0n ? order < 0n : isSteeper(edges, e, f);
}

/** Of two edges that leave the vertical through x to the right from one node: whether e falls off faster. */
function isSteeper({ nodeX, nodeY, edgeFrom, edgeTo }: PlanarEdges, e: number, f: number): boolean {
  const cross =
    (nodeX[edgeTo[e]] - nodeX[edgeFrom[e]]) * (nodeY[edgeTo[f]] - nodeY[edgeFrom[f]]) -
    (nodeY[edgeTo[e]] - nodeY[edgeFrom[e]]) * (nodeX[edgeTo[f]] - nodeX[edgeFrom[f]]);
  const sameWay = nodeX[edgeTo[e]] > nodeX[edgeFrom[e]] === nodeX[edgeTo[f]] > nodeX[edgeFrom[f]];
  return sameWay ? cross < 0 : cross > 0;
}

/** Boxes around runs of at most RUN consecutive pieces, each starting where the one before ends. */
interface RunIndex {
  readonly tree: BoxTree;
  /** Pieces of run r: `start[r]` up to `start[r + 1]`. */
  readonly start: Int32Array;
}

function indexRuns(edges: PlanarEdges): RunIndex {
  const start = cutRuns(edges);
  const { nodeX, nodeY, edgeFrom, edgeTo, pieceEdge } = edges;
  const runs = start.length - 1;
  const boxes = new Float64Array(4 * runs);
  for (let r = 0; r < runs; r++) {
    let x0 = Number.POSITIVE_INFINITY;
    let y0 = Number.POSITIVE_INFINITY;
    let x1 = Number.NEGATIVE_INFINITY;
    let y1 = Number.NEGATIVE_INFINITY;
    for (let i = start[r]; i < start[r + 1]; i++) {
      const e = pieceEdge[i] >> 1;
      for (let v = edgeFrom[e], twice = 0; twice < 2; twice++, v = edgeTo[e]) {
        if (nodeX[v] < x0) x0 = nodeX[v];
        if (nodeX[v] > x1) x1 = nodeX[v];
        if (nodeY[v] < y0) y0 = nodeY[v];
        if (nodeY[v] > y1) y1 = nodeY[v];
      }
    }
    boxes[4 * r] = x0;
    boxes[4 * r + 1] = y0;
    boxes[4 * r + 2] = x1;
    boxes[4 * r + 3] = y1;
  }
  return { tree: buildBoxTree(boxes), start };
}

function cutRuns({ edgeFrom, edgeTo, pieceEdge }: PlanarEdges): Int32Array {
  const start = new Int32Array(pieceEdge.length + 1);
  let runs = 0;
  let end = -1;
  for (let i = 0; i < pieceEdge.length; i++) {
    const e = pieceEdge[i] >> 1;
    const forward = (pieceEdge[i] & 1) === 0;
    const from = forward ? edgeFrom[e] : edgeTo[e];
    if (from !== end || i - start[runs - 1] === RUN) start[runs++] = i;
    end = forward ? edgeTo[e] : edgeFrom[e];
  }
  start[runs] = pieceEdge.length;
  return start.slice(0, runs + 1);
}
