import { emptyNet, putEdges } from './copy-edges.js';
import type { Net } from './net.js';
import { inBlocks } from './steps.js';

/** Edges that take the place of some edges of a net; ends as grid points, sources as in `Net`. */
export interface NewEdges {
  readonly nodeX: Int32Array;
  readonly nodeY: Int32Array;
  readonly edgeFrom: Int32Array;
  readonly edgeTo: Int32Array;
  readonly start: Int32Array;
  readonly curve: Int32Array;
  readonly t0: Float64Array;
  readonly t1: Float64Array;
}

/** The net, and the numbers in it of the edges that it was made from; -1 for edges that went. */
export interface SplicedNet {
  readonly net: Net;
  readonly ofNet: Int32Array;
  readonly ofFresh: Int32Array;
}

/**
 * The net with other edges in place of those that `isOut` marks with 1. All nodes of the net stay; new edges are
 * sorted as those of a net are, and none of them repeats an edge that stays. O(n). Yields the share of the work done.
 */
export function* spliceNet(net: Net, isOut: Uint8Array, fresh: NewEdges): Generator<number, SplicedNet> {
  const nodes = joinNodes(net, fresh);
  yield 0.2;
  let edges = fresh.edgeFrom.length;
  let sources = fresh.curve.length;
  for (let e = 0; e < isOut.length; e++) {
    if (isOut[e] === 1) continue;
    edges++;
    sources += net.start[e + 1] - net.start[e];
  }
  const joined = emptyNet(nodes.nodeX, nodes.nodeY, edges, sources);
  const ofNet = new Int32Array(isOut.length).fill(-1);
  const ofFresh = new Int32Array(fresh.edgeFrom.length);
  const work: Splicing = { net, isOut, fresh, nodes, joined, ofNet, ofFresh, n: 0, f: 0 };
  yield* inBlocks(isOut.length, (from, to) => mergeEdges(work, from, to), 0.3, 1);
  while (work.f < ofFresh.length) putFresh(work);
  return { net: joined, ofNet, ofFresh };
}

/** A net in the making, with so many edges, and so many of the fresh ones. */
interface Splicing {
  readonly net: Net;
  readonly isOut: Uint8Array;
  readonly fresh: NewEdges;
  readonly nodes: JoinedNodes;
  readonly joined: Net;
  readonly ofNet: Int32Array;
  readonly ofFresh: Int32Array;
  n: number;
  f: number;
}

/** Puts some edges of the old net that stay, with the fresh ones that come before them. */
function mergeEdges(work: Splicing, from: number, to: number): void {
  const { net, isOut, fresh, nodes, joined, ofNet, ofFresh } = work;
  const isNext = (e: number): boolean => work.f < ofFresh.length && comesFirst(nodes, fresh, work.f, net, e);
  let e = from;
  while (e < to) {
    if (isOut[e] === 1) {
      e++;
      continue;
    }
    while (isNext(e)) putFresh(work);
    const first = e;
    do {
      ofNet[e] = work.n + e - first;
      e++;
    } while (e < to && isOut[e] === 0 && !isNext(e));
    putEdges(joined, work.n, nodes.ofNet, net, first, e);
    work.n += e - first;
  }
}

function putFresh(work: Splicing): void {
  work.ofFresh[work.f] = work.n;
  putEdges(work.joined, work.n++, work.nodes.ofFresh, work.fresh, work.f, work.f + 1);
  work.f++;
}

/** The nodes of both, sorted by y, then x, equal ones once; and the number there of each node. */
interface JoinedNodes {
  readonly nodeX: Int32Array;
  readonly nodeY: Int32Array;
  readonly ofNet: Int32Array;
  readonly ofFresh: Int32Array;
}

function joinNodes(net: Net, fresh: NewEdges): JoinedNodes {
  const ofNet = new Int32Array(net.nodeX.length);
  const ofFresh = new Int32Array(fresh.nodeX.length);
  const nodeX = new Int32Array(ofNet.length + ofFresh.length);
  const nodeY = new Int32Array(ofNet.length + ofFresh.length);
  let n = 0;
  let f = 0;
  for (let v = 0; v <= ofNet.length; v++) {
    const isEnd = v === ofNet.length;
    for (; f < ofFresh.length; f++) {
      const order = isEnd ? -1 : fresh.nodeY[f] - net.nodeY[v] || fresh.nodeX[f] - net.nodeX[v];
      if (order > 0) break;
      ofFresh[f] = n;
      if (order === 0) continue;
      nodeX[n] = fresh.nodeX[f];
      nodeY[n++] = fresh.nodeY[f];
    }
    if (isEnd) break;
    ofNet[v] = n;
    nodeX[n] = net.nodeX[v];
    nodeY[n++] = net.nodeY[v];
  }
  return { nodeX: nodeX.slice(0, n), nodeY: nodeY.slice(0, n), ofNet, ofFresh };
}

function comesFirst(nodes: JoinedNodes, fresh: NewEdges, f: number, net: Net, e: number): boolean {
  const order =
    nodes.ofFresh[fresh.edgeFrom[f]] - nodes.ofNet[net.edgeFrom[e]] ||
    nodes.ofFresh[fresh.edgeTo[f]] - nodes.ofNet[net.edgeTo[e]];
  return order < 0;
}
