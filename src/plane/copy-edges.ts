import type { Net } from './net.js';
import { inBlocks } from './steps.js';

/** A net with room for so many edges and their sources. */
export function emptyNet(nodeX: Int32Array, nodeY: Int32Array, edges: number, sources: number): Net {
  return {
    nodeX,
    nodeY,
    edgeFrom: new Int32Array(edges),
    edgeTo: new Int32Array(edges),
    pieceEdge: new Int32Array(edges),
    start: new Int32Array(edges + 1),
    curve: new Int32Array(sources),
    t0: new Float64Array(sources),
    t1: new Float64Array(sources),
  };
}

/** The net without the edges that `drop` marks with 1; nodes without an edge go too. Yields the share of the work done. */
export function* withoutEdges(net: Net, drop: Uint8Array): Generator<number, Net> {
  const edges = net.edgeFrom.length;
  const used = new Uint8Array(net.nodeX.length);
  let kept = 0;
  let sources = 0;
  for (let e = 0; e < edges; e++) {
    if (drop[e] === 1) continue;
    used[net.edgeFrom[e]] = used[net.edgeTo[e]] = 1;
    kept++;
    sources += net.start[e + 1] - net.start[e];
  }
  yield 0.2;
  const { number, nodeX, nodeY } = usedNodes(net, used);
  const rest = emptyNet(nodeX, nodeY, kept, sources);
  let n = 0;
  const keep = (from: number, to: number): void => {
    n = putKept(rest, n, number, net, drop, from, to);
  };
  yield* inBlocks(edges, keep, 0.4, 1);
  return rest;
}

/** Puts those of some edges that are not dropped at place n and on; returns the place after them. */
function putKept(
  rest: Net,
  first: number,
  number: Int32Array,
  net: Net,
  drop: Uint8Array,
  from: number,
  to: number,
): number {
  let n = first;
  for (let e = from; e < to; e++) {
    const kept = e;
    while (e < to && drop[e] === 0) e++;
    putEdges(rest, n, number, net, kept, e);
    n += e - kept;
  }
  return n;
}

function usedNodes(net: Net, used: Uint8Array) {
  const number = new Int32Array(used.length);
  let nodes = 0;
  for (let v = 0; v < used.length; v++) nodes += used[v];
  const nodeX = new Int32Array(nodes);
  const nodeY = new Int32Array(nodes);
  for (let v = 0, n = 0; v < used.length; v++) {
    if (used[v] === 0) continue;
    number[v] = n;
    nodeX[n] = net.nodeX[v];
    nodeY[n++] = net.nodeY[v];
  }
  return { number, nodeX, nodeY };
}

/** What edges are, wherever they are kept. */
export type EdgeArrays = Pick<Net, 'edgeFrom' | 'edgeTo' | 'start' | 'curve' | 't0' | 't1'>;

/** Puts edges `first … end - 1` with their sources, nodes renumbered, at place n of a net that holds n edges. */
export function putEdges(
  net: Net,
  n: number,
  number: Int32Array,
  from: EdgeArrays,
  first: number,
  end: number,
): void {
  const shift = net.start[n] - from.start[first];
  for (let e = first, to = n; e < end; e++, to++) {
    net.edgeFrom[to] = number[from.edgeFrom[e]];
    net.edgeTo[to] = number[from.edgeTo[e]];
    net.pieceEdge[to] = 2 * to;
    net.start[to + 1] = from.start[e + 1] + shift;
  }
  for (let i = from.start[first]; i < from.start[end]; i++) {
    net.curve[i + shift] = from.curve[i];
    net.t0[i + shift] = from.t0[i];
    net.t1[i + shift] = from.t1[i];
  }
}
