import type { Connector } from './heal-gaps.js';
import type { Net } from './net.js';
import { nodeEdges } from './noded-edges.js';
import { Scratch } from './scratch.js';
import { snapRound } from './snap-round.js';
import { isBlockEnd, within } from './steps.js';
import type { GridLines } from './weld.js';

/**
 * The net with connectors put in; the lines that they meet are split there. Connector i is curve
 * `firstCurve + i`, a line from its open end (parameter 0) to its target (1).
 */
export function* addConnectors(
  net: Net,
  connectors: readonly Connector[],
  firstCurve: number,
): Generator<number, Net> {
  const grid = linesWith(net, connectors);
  yield 0.1;
  const scratch = new Scratch();
  const meetings = yield* within(snapRound(grid, scratch), 0.1, 0.5);
  const edges = yield* within(nodeEdges(grid, meetings, scratch), 0.5, 0.9);
  const { pieceEdge, pieceSegment, edgeFrom, edgeTo, nodeX, nodeY } = edges;
  const old = (i: number): number => grid.source[pieceSegment[i]];
  const isOld = (i: number): boolean => old(i) < net.edgeFrom.length;
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
    if (isBlockEnd(i)) yield 0.95;
    const [u, v] = [edgeFrom[e], edgeTo[e]];
    if (!isOld(i)) {
      const c = old(i) - net.edgeFrom.length;
      const at = --start[e];
      curve[at] = firstCurve + c;
      t0[at] = shareOf(connectors[c], nodeX[u], nodeY[u]);
      t1[at] = shareOf(connectors[c], nodeX[v], nodeY[v]);
      continue;
    }
    const s0 = shareAt(net, old(i), nodeX[u], nodeY[u]);
    const s1 = shareAt(net, old(i), nodeX[v], nodeY[v]);
    for (let k = net.start[old(i) + 1] - 1; k >= net.start[old(i)]; k--) {
      const at = --start[e];
      curve[at] = net.curve[k];
      t0[at] = mix(net.t0[k], net.t1[k], s0);
      t1[at] = mix(net.t0[k], net.t1[k], s1);
    }
  }
  return { nodeX, nodeY, edgeFrom, edgeTo, pieceEdge, start, curve, t0, t1 };
}

const mix = (a: number, b: number, s: number): number => (s === 0 ? a : s === 1 ? b : a + (b - a) * s);

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

/** Every edge as a line of its own, with a vertex where a connector meets it; then the connectors. */
function linesWith(net: Net, connectors: readonly Connector[]): GridLines {
  const met = new Map<number, Connector[]>();
  for (const c of connectors) met.set(c.target, [...(met.get(c.target) ?? []), c]);
  const edges = net.edgeFrom.length;
  const count = 2 * edges + 3 * connectors.length;
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
  for (let e = 0; e < edges; e++) {
    const u = net.edgeFrom[e];
    const v = net.edgeTo[e];
    put(net.nodeX[u], net.nodeY[u], e);
    const stops = met.get(e)?.map((c) => ({ c, share: shareAt(net, e, c.toX, c.toY) })) ?? [];
    for (const { c } of stops.sort((a, b) => a.share - b.share)) put(c.toX, c.toY, e);
    put(net.nodeX[v], net.nodeY[v], e);
    last[n - 1] = 1;
  }
  connectors.forEach((c, i) => {
    put(c.fromX, c.fromY, edges + i);
    put(c.toX, c.toY, edges + i);
    last[n - 1] = 1;
  });
  return { x, y, last, source, t: null, welded: 0 };
}
