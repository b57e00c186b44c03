import { runBounds } from '../geometry/curve-bounds.js';
import type { Bounds } from '../geometry/point.js';
import { loopCurves } from '../plane/edge-curves.js';
import type { LoopStep, RegionMap } from '../plane/region-map.js';

/** A run of edges to be drawn with one movement of the pen. */
export interface Chain {
  readonly steps: readonly LoopStep[];
  readonly closed: boolean;
}

/**
 * Joins edges to the longest runs that do not pass a branching: a run goes on where exactly two of the given
 * edges meet. Each edge is drawn once. Closed runs of small extent come first, so that what lies inside is cut
 * before what lies around it; ties keep the order of the edges.
 */
export function chainEdges(map: RegionMap, edges: readonly number[]): Chain[] {
  const at = edgesByNode(map, edges);
  const used = new Set<number>();
  const chains: Chain[] = [];
  const start = (edge: number, node: number): void => {
    if (!used.has(edge)) chains.push(walk(map, at, used, edge, node));
  };
  for (const edge of edges) {
    const { from, to } = map.edges[edge];
    if (branches(at, from)) start(edge, from);
    else if (branches(at, to)) start(edge, to);
  }
  for (const edge of edges) start(edge, map.edges[edge].from);
  const sizes = new Map(chains.map((chain) => [chain, extent(runBounds(loopCurves(map, chain.steps)))]));
  return chains.sort((a, b) => Number(b.closed) - Number(a.closed) || sizes.get(a)! - sizes.get(b)!);
}

function edgesByNode(map: RegionMap, edges: readonly number[]): Map<number, number[]> {
  const at = new Map<number, number[]>();
  for (const edge of edges) {
    for (const node of [map.edges[edge].from, map.edges[edge].to]) {
      const list = at.get(node);
      if (list === undefined) at.set(node, [edge]);
      else list.push(edge);
    }
  }
  return at;
}

const branches = (at: ReadonlyMap<number, readonly number[]>, node: number): boolean =>
  at.get(node)!.length !== 2;

function walk(
  map: RegionMap,
  at: ReadonlyMap<number, readonly number[]>,
  used: Set<number>,
  first: number,
  origin: number,
): Chain {
  const steps: LoopStep[] = [];
  let node = origin;
  let edge: number | undefined = first;
  while (edge !== undefined) {
    used.add(edge);
    const { from, to } = map.edges[edge];
    steps.push({ edge, forward: from === node });
    node = from === node ? to : from;
    edge = branches(at, node) ? undefined : at.get(node)!.find((next) => !used.has(next));
  }
  return { steps, closed: node === origin };
}

const extent = ([x0, y0, x1, y1]: Bounds): number => (x1 - x0) * (y1 - y0);
