import { OUTSIDE, type RegionMap } from '../plane/region-map.js';
import { type LineGraph, someLineAt } from './line-graph.js';

/** What is open at a moment of the job. */
export interface OpenPlaces {
  /** The line is sawn, or what lay beside it is gone. */
  readonly isOpenLine: (edge: number) => boolean;
  readonly isGone: (region: number) => boolean;
  /** The node lies on the outline of the picture. */
  readonly isOutline: (node: number) => boolean;
}

/** Whether open lines and gaps lead from a node to the outline. Cost: linear in what is open around it. */
export function leadsOut(
  map: RegionMap,
  graph: LineGraph,
  node: number,
  { isOpenLine, isGone, isOutline }: OpenPlaces,
): boolean {
  const reached = new Set<number>([node]);
  const crossed = new Set<number>();
  const pending = [node];
  const reach = (edge: number): void => {
    for (const end of [map.edges[edge].from, map.edges[edge].to]) {
      if (reached.has(end)) continue;
      reached.add(end);
      pending.push(end);
    }
  };
  for (let at = pending.pop(); at !== undefined; at = pending.pop()) {
    if (isOutline(at)) return true;
    someLineAt(graph, at, (edge) => {
      if (isOpenLine(edge)) reach(edge);
      for (const region of [map.edges[edge].left, map.edges[edge].right]) {
        if (region === OUTSIDE || crossed.has(region) || !isGone(region)) continue;
        crossed.add(region);
        for (const step of map.regions[region].loops.flat()) reach(step.edge);
      }
      return false;
    });
  }
  return false;
}
