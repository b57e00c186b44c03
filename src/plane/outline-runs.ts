import { GRID_STEP } from '../geometry/grid.js';
import { hypotenuse } from '../geometry/point.js';
import type { PlanarEdges } from './noded-edges.js';

/** A run of edges on the outline of a face, in order, between two nodes where other lines meet it. */
export interface OutlineRun {
  readonly edges: readonly number[];
  /** It closes on itself without a node. */
  readonly closed: boolean;
  /** Grid steps. */
  readonly length: number;
}

/**
 * The maximal runs of a face's outline, the longest first, ties by the smallest edge. `border` holds the edges that
 * have the face on one side only; `degree` counts the edges left at each node.
 */
export function outlineRuns(net: PlanarEdges, border: readonly number[], degree: Uint32Array): OutlineRun[] {
  const at = edgesAt(net, border);
  const used = new Set<number>();
  /** Walks on from an edge over a node, as long as nothing else meets there. */
  const follow = (first: number, start: number): { edges: number[]; end: number } => {
    const edges: number[] = [];
    let e = first;
    let end = start;
    while (degree[end] === 2) {
      const next = at.get(end)?.find((other) => other !== e);
      if (next === undefined || used.has(next)) break;
      used.add(next);
      edges.push(next);
      end = net.edgeFrom[next] === end ? net.edgeTo[next] : net.edgeFrom[next];
      e = next;
    }
    return { edges, end };
  };
  const runs: OutlineRun[] = [];
  for (const e of [...border].sort((a, b) => a - b)) {
    if (used.has(e)) continue;
    used.add(e);
    const onward = follow(e, net.edgeTo[e]);
    const closed = onward.end === net.edgeFrom[e] && degree[onward.end] === 2;
    const edges = [...follow(e, net.edgeFrom[e]).edges.reverse(), e, ...onward.edges];
    runs.push({ edges, closed, length: lengthOf(net, edges) });
  }
  // Rounded: the sum depends on the order of its terms.
  return runs.sort(
    (a, b) => Math.round(b.length) - Math.round(a.length) || Math.min(...a.edges) - Math.min(...b.edges),
  );
}

/** The length of edges, grid steps. */
export function lengthOf({ nodeX, nodeY, edgeFrom, edgeTo }: PlanarEdges, edges: readonly number[]): number {
  return edges.reduce(
    (sum, e) =>
      sum + hypotenuse(nodeX[edgeTo[e]] - nodeX[edgeFrom[e]], nodeY[edgeTo[e]] - nodeY[edgeFrom[e]]),
    0,
  );
}

/** Outlines made of edges, as rings of points, mm (x, y, stride 2), split into closed walks in whatever way. */
export function ringsOf(net: PlanarEdges, border: readonly number[]): Float64Array[] {
  const at = edgesAt(net, border);
  const used = new Set<number>();
  const rings: Float64Array[] = [];
  for (const first of border) {
    if (used.has(first)) continue;
    const ring: number[] = [];
    let v = net.edgeFrom[first];
    for (let e: number | undefined = first; e !== undefined; ) {
      used.add(e);
      ring.push(net.nodeX[v] * GRID_STEP, net.nodeY[v] * GRID_STEP);
      v = net.edgeFrom[e] === v ? net.edgeTo[e] : net.edgeFrom[e];
      e = at.get(v)?.find((other) => !used.has(other));
    }
    rings.push(Float64Array.from(ring));
  }
  return rings;
}

/** The edges of a list at each of their nodes. */
function edgesAt(net: PlanarEdges, list: readonly number[]): Map<number, number[]> {
  const at = new Map<number, number[]>();
  for (const e of list) {
    for (const v of [net.edgeFrom[e], net.edgeTo[e]]) {
      const known = at.get(v);
      if (known === undefined) at.set(v, [e]);
      else known.push(e);
    }
  }
  return at;
}
