import { OUTSIDE, type RegionMap } from '../plane/region-map.js';
import { DisjointSets } from './disjoint-sets.js';
import { acrossEdge } from './standing-stock.js';

/** Regions that hang together, and the lines around them. */
export interface Area {
  /** Ascending. */
  readonly regions: readonly number[];
  /** Border edges with the area on one side only, in the order of the regions and their loops. */
  readonly border: readonly number[];
  /** Some of its border is border with the outside. */
  readonly touchesOutside: boolean;
}

/**
 * Joins neighbouring regions with the same key into areas; regions with a key below 0 are left out. Areas come
 * in the order of their first regions.
 */
export function joinAreas(map: RegionMap, keys: ArrayLike<number>): Area[] {
  const sets = new DisjointSets(map.regions.length);
  map.regions.forEach((region, r) => {
    if (keys[r] < 0) return;
    for (const { region: other } of region.neighbours) if (keys[other] === keys[r]) sets.join(r, other);
  });
  const members = new Map<number, number[]>();
  map.regions.forEach((_, r) => {
    if (keys[r] < 0) return;
    const set = sets.find(r);
    const list = members.get(set);
    if (list === undefined) members.set(set, [r]);
    else list.push(r);
  });
  return [...members.values()].map((regions) => areaOf(map, regions));
}

/** The area made of the given regions. */
export function areaOf(map: RegionMap, regions: readonly number[]): Area {
  const inside = new Set(regions);
  const border: number[] = [];
  let touchesOutside = false;
  for (const r of regions) {
    for (const loop of map.regions[r].loops) {
      for (const { edge } of loop) {
        const other = acrossEdge(map, edge, r);
        if (inside.has(other)) continue;
        border.push(edge);
        if (other === OUTSIDE) touchesOutside = true;
      }
    }
  }
  return { regions, border, touchesOutside };
}

/** Splits lines into runs that share nodes, each in the given order; runs in the order of their first lines. */
export function splitByNodes(map: RegionMap, edges: readonly number[]): number[][] {
  if (edges.length < 2) return edges.length === 0 ? [] : [[...edges]];
  const local = new Map<number, number>();
  const idOf = (node: number): number => {
    const known = local.get(node);
    if (known !== undefined) return known;
    local.set(node, local.size);
    return local.size - 1;
  };
  for (const e of edges) {
    idOf(map.edges[e].from);
    idOf(map.edges[e].to);
  }
  const sets = new DisjointSets(local.size);
  for (const e of edges) sets.join(idOf(map.edges[e].from), idOf(map.edges[e].to));
  const runs = new Map<number, number[]>();
  for (const e of edges) {
    const set = sets.find(idOf(map.edges[e].from));
    const run = runs.get(set);
    if (run === undefined) runs.set(set, [e]);
    else run.push(e);
  }
  return [...runs.values()];
}
