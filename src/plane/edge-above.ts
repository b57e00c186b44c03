import { type BoxTree, buildBoxTree, firstAbove } from '../geometry/box-tree.js';
import type { NodedEdges, PlanarEdges } from './noded-edges.js';

/** Finds the edge straight above a grid point: the first on the ray towards −y; -1 for none. */
export type EdgeAbove = (x: number, y: number) => number;

/**
 * Heights of edges above a grid point, in doubles, are good to a few 2⁻²⁸ steps; nearer to each other than
 * this, exact arithmetic decides. (A height off a whole step is off by 2⁻²⁵ at least, so boxes prune safely.)
 */
const DOUBT = 2 ** -22;

/** Edges in one box of the tree: runs of pieces follow the lines, so their boxes are small. */
const RUN = 8;

/** Chains in a cell above which cells are too crowded to be searched one segment at a time. */
const CROWD = 512;

/** Whether the cells that segments were registered in serve to search for edges. */
export function hasEvenCells(edges: PlanarEdges): edges is NodedEdges {
  return 'grid' in edges && (edges as NodedEdges).grid.fullest <= CROWD;
}

/** The nearest edge above a point so far, for one question. */
interface Best {
  edge: number;
  y: number;
}

/** Looks at one edge. */
function consider(edges: PlanarEdges, e: number, x: number, y: number, best: Best): void {
  const { nodeX, nodeY, edgeFrom, edgeTo } = edges;
  const at = yAbove(nodeX[edgeFrom[e]], nodeY[edgeFrom[e]], nodeX[edgeTo[e]], nodeY[edgeTo[e]], x, y);
  if (at > best.y + DOUBT || (at > best.y - DOUBT && isLower(edges, e, best.edge, x, y))) {
    best.y = at;
    best.edge = e;
  }
}

/**
 * Searches the cells upwards from the point's. A snapped edge strays less than a step from its segment, and
 * segments are registered with a margin of a step, so every edge in a cell belongs to a segment of that cell.
 */
export function searchCells(edges: NodedEdges): EdgeAbove {
  const { grid, pieceStart, pieceEdge } = edges;
  const best: Best = { edge: -1, y: Number.NEGATIVE_INFINITY };
  return (x, y) => {
    best.edge = -1;
    best.y = Number.NEGATIVE_INFINITY;
    const column = (x - grid.x0) >> grid.shift;
    for (let row = (y - grid.y0) >> grid.shift; row >= 0; row--) {
      const cell = row * grid.columns + column;
      for (let i = grid.cellStart[cell]; i < grid.cellStart[cell + 1]; i++) {
        const chain = grid.chains[i];
        if (isClear(edges, grid.first[chain], grid.end[chain], x, y)) continue;
        const beyond = pieceStart[grid.end[chain]];
        for (let p = pieceStart[grid.first[chain]]; p < beyond; p++)
          consider(edges, pieceEdge[p] >> 1, x, y, best);
      }
      if (best.edge >= 0 && best.y >= grid.y0 + (row << grid.shift)) break;
    }
    return best.edge;
  };
}

/** Whether the box of a chain, from vertex a to vertex b, lies beside the ray from (x, y) towards −y, or below it. */
function isClear(
  { nodeX, nodeY, vertexNode }: NodedEdges,
  a: number,
  b: number,
  x: number,
  y: number,
): boolean {
  const u = vertexNode[a];
  const v = vertexNode[b];
  if (u < 0 || v < 0) return false;
  // Snapped edges stray less than a step from the box.
  if (nodeX[u] < nodeX[v] ? x < nodeX[u] - 1 || x > nodeX[v] + 1 : x < nodeX[v] - 1 || x > nodeX[u] + 1)
    return true;
  return nodeY[u] > y + 1 && nodeY[v] > y + 1;
}

/** Searches a tree over the edges. */
export function searchTree(edges: PlanarEdges, tree: BoxTree): EdgeAbove {
  const best: Best = { edge: -1, y: Number.NEGATIVE_INFINITY };
  return (x, y) => {
    best.edge = -1;
    best.y = Number.NEGATIVE_INFINITY;
    firstAbove(tree, x, y, (e) => {
      consider(edges, e, x, y, best);
      return best.y;
    });
    return best.edge;
  };
}

/** Searches a tree of boxes around runs of pieces: for edges without cells, or crowded ones. */
export function searchRuns(edges: PlanarEdges): EdgeAbove {
  const { tree, start } = indexRuns(edges);
  const best: Best = { edge: -1, y: Number.NEGATIVE_INFINITY };
  return (x, y) => {
    best.edge = -1;
    best.y = Number.NEGATIVE_INFINITY;
    firstAbove(tree, x, y, (run) => {
      for (let i = start[run]; i < start[run + 1]; i++) consider(edges, edges.pieceEdge[i] >> 1, x, y, best);
      return best.y;
    });
    return best.edge;
  };
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

/** A run is not longer than this part of the whole: boxes around longer ones hold too much. */
const LONGEST_RUN = 1 / 64;

function cutRuns({ nodeX, nodeY, edgeFrom, edgeTo, pieceEdge }: PlanarEdges): Int32Array {
  const start = new Int32Array(pieceEdge.length + 1);
  const most = LONGEST_RUN * extentOf(nodeX, nodeY);
  let runs = 0;
  let end = -1;
  let length = 0;
  for (let i = 0; i < pieceEdge.length; i++) {
    const e = pieceEdge[i] >> 1;
    const forward = (pieceEdge[i] & 1) === 0;
    const from = forward ? edgeFrom[e] : edgeTo[e];
    const to = forward ? edgeTo[e] : edgeFrom[e];
    const step = Math.abs(nodeX[to] - nodeX[from]) + Math.abs(nodeY[to] - nodeY[from]);
    length += step;
    if (from !== end || i - start[runs - 1] === RUN || length > most) {
      start[runs++] = i;
      length = step;
    }
    end = to;
  }
  start[runs] = pieceEdge.length;
  return start.slice(0, runs + 1);
}

/** Width and height together. */
function extentOf(nodeX: Int32Array, nodeY: Int32Array): number {
  if (nodeX.length === 0) return 0;
  let low = nodeX[0];
  let high = nodeX[0];
  for (const x of nodeX) {
    if (x < low) low = x;
    else if (x > high) high = x;
  }
  // Nodes are sorted by y.
  return high - low + nodeY[nodeY.length - 1] - nodeY[0];
}
