import { type BoxTree, searchBoxes } from '../geometry/box-tree.js';
import type { PlanarEdges } from './noded-edges.js';

/** Shares of an edge that lie apart by less are joined: the rounding of their arithmetic. */
const JOINT = 1e-9;

/**
 * Whether every point of edge e lies within `reach` grid steps of an edge that `counts`. Exact but for rounding:
 * along a straight edge, the part within reach of another one is an interval. `tree` holds the edges' boxes.
 */
export function isCovered(
  net: PlanarEdges,
  tree: BoxTree,
  e: number,
  reach: number,
  counts: (edge: number) => boolean,
): boolean {
  const parts: (readonly [number, number])[] = [];
  eachNear(net, tree, e, reach, (f) => {
    if (f === e || !counts(f)) return;
    const part = partWithin(net, e, f, reach);
    if (part !== null) parts.push(part);
  });
  parts.sort((a, b) => a[0] - b[0]);
  let done = 0;
  for (const [from, to] of parts) {
    if (from > done + JOINT) return false;
    done = Math.max(done, to);
  }
  return done >= 1 - JOINT;
}

/** All edges whose boxes come within `reach` grid steps of the box of edge e, e among them. */
export function eachNear(
  { nodeX, nodeY, edgeFrom, edgeTo }: PlanarEdges,
  tree: BoxTree,
  e: number,
  reach: number,
  visit: (edge: number) => void,
): void {
  const [ax, bx] = [nodeX[edgeFrom[e]], nodeX[edgeTo[e]]];
  // Nodes are numbered by y.
  const [y0, y1] = [nodeY[edgeFrom[e]], nodeY[edgeTo[e]]];
  searchBoxes(tree, Math.min(ax, bx) - reach, y0 - reach, Math.max(ax, bx) + reach, y1 + reach, (f) => {
    visit(f);
    return false;
  });
}

/** The part of edge e, from 0 at `edgeFrom` to 1, within `reach` of edge f: where it meets a stadium around f. */
function partWithin(
  { nodeX, nodeY, edgeFrom, edgeTo }: PlanarEdges,
  e: number,
  f: number,
  reach: number,
): readonly [number, number] | null {
  const ux = nodeX[edgeTo[e]] - nodeX[edgeFrom[e]];
  const uy = nodeY[edgeTo[e]] - nodeY[edgeFrom[e]];
  const cx = nodeX[edgeFrom[e]] - nodeX[edgeFrom[f]];
  const cy = nodeY[edgeFrom[e]] - nodeY[edgeFrom[f]];
  const wx = nodeX[edgeTo[f]] - nodeX[edgeFrom[f]];
  const wy = nodeY[edgeTo[f]] - nodeY[edgeFrom[f]];
  const square = wx * wx + wy * wy;
  const span = reach * Math.sqrt(square);
  let box: readonly [number, number] | null = [0, 1];
  box = clip(box, cx * wx + cy * wy, ux * wx + uy * wy, 0, square);
  box = box && clip(box, cx * wy - cy * wx, ux * wy - uy * wx, -span, span);
  let part = box;
  for (const disc of [discPart(cx, cy, ux, uy, reach), discPart(cx - wx, cy - wy, ux, uy, reach)]) {
    if (disc === null) continue;
    part = part === null ? disc : [Math.min(part[0], disc[0]), Math.max(part[1], disc[1])];
  }
  return part;
}

/** The part of `range` in which `low ≤ start + t · slope ≤ high`. */
function clip(
  range: readonly [number, number],
  start: number,
  slope: number,
  low: number,
  high: number,
): readonly [number, number] | null {
  if (slope === 0) return start >= low && start <= high ? range : null;
  const a = (low - start) / slope;
  const b = (high - start) / slope;
  const from = Math.max(range[0], Math.min(a, b));
  const to = Math.min(range[1], Math.max(a, b));
  return from <= to ? [from, to] : null;
}

/** The part of c + t u, t from 0 to 1, that lies within `reach` of the origin. */
function discPart(
  cx: number,
  cy: number,
  ux: number,
  uy: number,
  reach: number,
): readonly [number, number] | null {
  const square = ux * ux + uy * uy;
  const middle = -(cx * ux + cy * uy) / square;
  const across = cx * uy - cy * ux;
  const half = (reach * reach - (across * across) / square) / square;
  if (half < 0) return null;
  const from = Math.max(0, middle - Math.sqrt(half));
  const to = Math.min(1, middle + Math.sqrt(half));
  return from <= to ? [from, to] : null;
}
