import type { Connector } from './heal-gaps.js';
import type { Net } from './net.js';
import { nodeEdges } from './noded-edges.js';
import { snapRound } from './snap-round.js';
import { finish } from './steps.js';
import type { GridLines } from './weld.js';

/**
 * The net with connectors put in; the lines that they meet are split there. Connector i is curve
 * `firstCurve + i`, a line from its open end (parameter 0) to its target (1).
 */
export function addConnectors(net: Net, connectors: readonly Connector[], firstCurve: number): Net {
  const grid = linesWith(net, connectors);
  const edges = nodeEdges(grid, finish(snapRound(grid)));
  const { pieceEdge, pieceSegment } = edges;
  const count = edges.edgeFrom.length;
  const sources: Source[][] = Array.from({ length: count }, () => []);
  for (let i = 0; i < pieceEdge.length; i++) {
    const e = pieceEdge[i] >> 1;
    const old = grid.source[pieceSegment[i]];
    if (old >= net.edgeFrom.length) {
      const c = connectors[old - net.edgeFrom.length];
      const share = (v: number): number => shareOf(c, edges.nodeX[v], edges.nodeY[v]);
      const curve = firstCurve + old - net.edgeFrom.length;
      sources[e].push({ curve, t0: share(edges.edgeFrom[e]), t1: share(edges.edgeTo[e]) });
      continue;
    }
    const s0 = shareAt(net, old, edges.nodeX[edges.edgeFrom[e]], edges.nodeY[edges.edgeFrom[e]]);
    const s1 = shareAt(net, old, edges.nodeX[edges.edgeTo[e]], edges.nodeY[edges.edgeTo[e]]);
    for (let k = net.start[old]; k < net.start[old + 1]; k++) {
      const { t0, t1 } = { t0: net.t0[k], t1: net.t1[k] };
      sources[e].push({ curve: net.curve[k], t0: mix(t0, t1, s0), t1: mix(t0, t1, s1) });
    }
  }
  const start = new Int32Array(count + 1);
  sources.forEach((list, e) => {
    start[e + 1] = start[e] + list.length;
  });
  const all = sources.flat();
  return {
    nodeX: edges.nodeX,
    nodeY: edges.nodeY,
    edgeFrom: edges.edgeFrom,
    edgeTo: edges.edgeTo,
    pieceEdge,
    start,
    curve: Int32Array.from(all, ({ curve }) => curve),
    t0: Float64Array.from(all, ({ t0 }) => t0),
    t1: Float64Array.from(all, ({ t1 }) => t1),
  };
}

interface Source {
  readonly curve: number;
  readonly t0: number;
  readonly t1: number;
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
  const x: number[] = [];
  const y: number[] = [];
  const last: number[] = [];
  const source: number[] = [];
  const put = (px: number, py: number, from: number, isLast: boolean): void => {
    x.push(px);
    y.push(py);
    source.push(from);
    last.push(isLast ? 1 : 0);
  };
  const edges = net.edgeFrom.length;
  for (let e = 0; e < edges; e++) {
    const u = net.edgeFrom[e];
    const v = net.edgeTo[e];
    put(net.nodeX[u], net.nodeY[u], e, false);
    const stops = (met.get(e) ?? []).map((c) => ({ c, share: shareAt(net, e, c.toX, c.toY) }));
    for (const { c } of stops.sort((a, b) => a.share - b.share)) put(c.toX, c.toY, e, false);
    put(net.nodeX[v], net.nodeY[v], e, true);
  }
  connectors.forEach((c, i) => {
    put(c.fromX, c.fromY, edges + i, false);
    put(c.toX, c.toY, edges + i, true);
  });
  return {
    x: Float64Array.from(x),
    y: Float64Array.from(y),
    last: Uint8Array.from(last),
    source: Int32Array.from(source),
    t: null,
    welded: 0,
  };
}
