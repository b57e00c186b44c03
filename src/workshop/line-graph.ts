import type { RegionMap } from '../plane/region-map.js';

/** The lines at every node: those of node `v` are `edges[start[v]]` … `edges[start[v + 1] - 1]`, ascending. */
export interface LineGraph {
  /** One more than there are nodes. */
  readonly start: Int32Array;
  /** A line whose two ends are one node is listed once. */
  readonly edges: Int32Array;
}

/** The graph of those lines that `counts` says yes to. */
export function lineGraph(map: RegionMap, counts: (edge: number) => boolean): LineGraph {
  const start = new Int32Array(map.nodes.length + 1);
  map.edges.forEach(({ from, to }, e) => {
    if (!counts(e)) return;
    start[from + 1]++;
    if (to !== from) start[to + 1]++;
  });
  for (let v = 0; v < map.nodes.length; v++) start[v + 1] += start[v];
  const next = start.slice();
  const edges = new Int32Array(start[map.nodes.length]);
  map.edges.forEach(({ from, to }, e) => {
    if (!counts(e)) return;
    edges[next[from]++] = e;
    if (to !== from) edges[next[to]++] = e;
  });
  return { start, edges };
}

/** Calls `visit` with every line at a node, until it returns true. */
export function someLineAt(graph: LineGraph, node: number, visit: (edge: number) => boolean): boolean {
  for (let i = graph.start[node]; i < graph.start[node + 1]; i++) if (visit(graph.edges[i])) return true;
  return false;
}
