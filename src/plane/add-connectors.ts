import { type BoxTree, renumberBoxTree, searchBoxes } from '../geometry/box-tree.js';
import { fromGrid } from '../geometry/grid.js';
import { nearestOnCurve } from '../geometry/nearest-on-curve.js';
import { edgeBoxes } from './edge-tree.js';
import type { MapCurve } from './flat-lines.js';
import type { GridLines } from './grid-lines.js';
import type { Connector } from './heal-gaps.js';
import type { Net } from './net.js';
import { type NodedEdges, nodeEdges } from './noded-edges.js';
import { scratchFor } from './scratch.js';
import { snapRound } from './snap-round.js';
import { type NewEdges, spliceNet } from './splice-net.js';
import { within } from './steps.js';

/** Edges further than this, in grid steps, from what changes stay as they are: a line bends by less than a step. */
const NEAR = 2;

/** Rounds after which all edges are noded again, not only those near what changes. */
const ROUNDS = 6;

/** A net and a tree over its edges. */
export interface HealedNet {
  readonly net: Net;
  readonly tree: BoxTree;
}

/**
 * The net with connectors put in; the lines that they meet are split there. Connector i is curve
 * `curves.length + i`, a line from its open end (parameter 0) to its target (1). `tree` is over the edges of the net.
 *
 * Only edges near the connectors are noded again. A line that is split bends by up to a step, and so may those that
 * are near it then: they come in too, until nothing outside is near anything that changes.
 */
export function* addConnectors(
  net: Net,
  connectors: readonly Connector[],
  curves: readonly MapCurve[],
  tree: BoxTree,
): Generator<number, HealedNet> {
  const isOut = new Uint8Array(net.edgeFrom.length);
  const take = (x0: number, y0: number, x1: number, y1: number): number => {
    let found = 0;
    searchBoxes(tree, x0 - NEAR, y0 - NEAR, x1 + NEAR, y1 + NEAR, (e) => {
      found += 1 - isOut[e];
      isOut[e] = 1;
      return false;
    });
    return found;
  };
  for (const { fromX, fromY, toX, toY, target } of connectors) {
    isOut[target] = 1;
    take(Math.min(fromX, toX), Math.min(fromY, toY), Math.max(fromX, toX), Math.max(fromY, toY));
  }
  for (let round = 1; ; round++) {
    yield 0.1 * round;
    if (round === ROUNDS) isOut.fill(1);
    const active = marked(isOut);
    const grid = linesWith(net, active, connectors);
    const scratch = scratchFor(grid.x.length);
    const meetings = yield* within(snapRound(grid, scratch), 0.1 * round, 0.1 * round + 0.05);
    const edges = yield* within(nodeEdges(grid, meetings, scratch), 0.1 * round + 0.05, 0.1 * round + 0.1);
    let missed = 0;
    for (const e of splitEdges(edges, grid, active)) {
      const [u, v] = [net.edgeFrom[e], net.edgeTo[e]];
      const [ax, bx] = [net.nodeX[u], net.nodeX[v]];
      missed += take(Math.min(ax, bx), net.nodeY[u], Math.max(ax, bx), net.nodeY[v]);
    }
    if (missed > 0) continue;
    const fresh = drawnEdges(net, active, connectors, curves, edges, grid);
    const spliced = yield* within(spliceNet(net, isOut, fresh), 0.9, 1);
    yield 1;
    return {
      net: spliced.net,
      tree: renumberBoxTree(tree, spliced.ofNet, spliced.ofFresh, edgeBoxes(fresh)),
    };
  }
}

function marked(marks: Uint8Array): Int32Array {
  const list: number[] = [];
  for (let e = 0; e < marks.length; e++) if (marks[e] === 1) list.push(e);
  return Int32Array.from(list);
}

/** The edges of the net that are no longer one edge. */
function splitEdges({ pieceSegment }: NodedEdges, grid: GridLines, active: Int32Array): number[] {
  const pieces = new Int32Array(active.length);
  for (const k of pieceSegment) if (grid.source[k] < active.length) pieces[grid.source[k]]++;
  return [...active].filter((_, i) => pieces[i] !== 1);
}

/** Noded edges with the curves that drew them; the connectors come behind the active edges in the grid's sources. */
function drawnEdges(
  net: Net,
  active: Int32Array,
  connectors: readonly Connector[],
  curves: readonly MapCurve[],
  { pieceEdge, pieceSegment, edgeFrom, edgeTo, nodeX, nodeY }: NodedEdges,
  grid: GridLines,
): NewEdges {
  const drawnBy = (i: number): number => grid.source[pieceSegment[i]];
  const isOld = (i: number): boolean => drawnBy(i) < active.length;
  const old = (i: number): number => active[drawnBy(i)];
  const start = new Int32Array(edgeFrom.length + 1);
  for (let i = 0; i < pieceEdge.length; i++) {
    start[pieceEdge[i] >> 1] += isOld(i) ? net.start[old(i) + 1] - net.start[old(i)] : 1;
  }
  for (let e = 0, sum = 0; e < start.length; e++) {
    sum += start[e];
    start[e] = sum;
  }
  const total = start[edgeFrom.length];
  const curve = new Int32Array(total);
  const t0 = new Float64Array(total);
  const t1 = new Float64Array(total);
  for (let i = pieceEdge.length - 1; i >= 0; i--) {
    const e = pieceEdge[i] >> 1;
    const [u, v] = [edgeFrom[e], edgeTo[e]];
    if (!isOld(i)) {
      const c = drawnBy(i) - active.length;
      const at = --start[e];
      curve[at] = curves.length + c;
      t0[at] = shareOf(connectors[c], nodeX[u], nodeY[u]);
      t1[at] = shareOf(connectors[c], nodeX[v], nodeY[v]);
      continue;
    }
    for (let k = net.start[old(i) + 1] - 1; k >= net.start[old(i)]; k--) {
      const at = --start[e];
      curve[at] = net.curve[k];
      t0[at] = parameterAt(curves, net, old(i), k, nodeX[u], nodeY[u]);
      t1[at] = parameterAt(curves, net, old(i), k, nodeX[v], nodeY[v]);
    }
  }
  return { nodeX, nodeY, edgeFrom, edgeTo, start, curve, t0, t1 };
}

/** Parameter of source k of an edge at a grid point on it: of a curve the nearest point, for it may run unevenly. */
function parameterAt(
  curves: readonly MapCurve[],
  net: Net,
  e: number,
  k: number,
  x: number,
  y: number,
): number {
  const share = shareAt(net, e, x, y);
  const from = net.t0[k];
  const to = net.t1[k];
  if (share === 0 || share === 1) return share === 0 ? from : to;
  const { curve } = curves[net.curve[k]];
  if (curve.kind === 'line') return from + (to - from) * share;
  return nearestOnCurve(curve, [fromGrid(x), fromGrid(y)], from, to).t;
}

function shareOf({ fromX, fromY, toX, toY }: Connector, x: number, y: number): number {
  const dx = toX - fromX;
  const dy = toY - fromY;
  return Math.min(1, Math.max(0, ((x - fromX) * dx + (y - fromY) * dy) / (dx * dx + dy * dy)));
}

/** How far along an edge a grid point lies, 0 to 1. */
function shareAt({ nodeX, nodeY, edgeFrom, edgeTo }: Net, e: number, x: number, y: number): number {
  const ax = nodeX[edgeFrom[e]];
  const ay = nodeY[edgeFrom[e]];
  const dx = nodeX[edgeTo[e]] - ax;
  const dy = nodeY[edgeTo[e]] - ay;
  return Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
}

/** Each active edge as a line of its own, with a vertex where a connector meets it; then the connectors. */
function linesWith(net: Net, active: Int32Array, connectors: readonly Connector[]): GridLines {
  const met = new Map<number, Connector[]>();
  for (const c of connectors) met.set(c.target, [...(met.get(c.target) ?? []), c]);
  const count = 2 * active.length + 3 * connectors.length;
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  const last = new Uint8Array(count);
  const source = new Int32Array(count);
  let n = 0;
  const put = (px: number, py: number, from: number): void => {
    x[n] = px;
    y[n] = py;
    source[n++] = from;
  };
  for (const [i, e] of active.entries()) {
    const u = net.edgeFrom[e];
    const v = net.edgeTo[e];
    put(net.nodeX[u], net.nodeY[u], i);
    const stops = met.get(e)?.map((c) => ({ c, share: shareAt(net, e, c.toX, c.toY) })) ?? [];
    for (const { c } of stops.sort((a, b) => a.share - b.share)) put(c.toX, c.toY, i);
    put(net.nodeX[v], net.nodeY[v], i);
    last[n - 1] = 1;
  }
  connectors.forEach((c, i) => {
    put(c.fromX, c.fromY, active.length + i);
    put(c.toX, c.toY, active.length + i);
    last[n - 1] = 1;
  });
  return { x, y, last, source, t: null, welded: 0 };
}
