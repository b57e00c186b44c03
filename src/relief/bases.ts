import type { RegionMap } from '../plane/region-map.js';
import type { DepthMark } from './depth-mark.js';

/**
 * What lies under each region: the region itself, or, for an add-on whose outline is shared lines, the
 * surround with the longest border, which goes on under it. An add-on among add-ons takes what lies under the
 * one with the longest border. Add-ons mapped on their own, and add-ons with nothing beside them, keep
 * themselves.
 */
export function findBases(map: RegionMap, marks: readonly (DepthMark | null)[]): Int32Array {
  const base = Int32Array.from(map.regions.keys());
  const open: number[] = [];
  marks.forEach((mark, index) => {
    if (mark?.kind === 'add-on' && !map.regions[index].addOn) open.push(index);
  });
  const waiting = new Set(open);
  while (waiting.size > 0) {
    const settled: [number, number][] = [];
    for (const index of waiting) {
      const under = longestBorder(map, index, waiting);
      if (under >= 0) settled.push([index, base[under]]);
    }
    if (settled.length === 0) break;
    for (const [index, under] of settled) {
      base[index] = under;
      waiting.delete(index);
    }
  }
  return base;
}

function longestBorder(map: RegionMap, index: number, without: ReadonlySet<number>): number {
  let best = -1;
  let length = 0;
  for (const neighbour of map.regions[index].neighbours) {
    if (neighbour.length > length && !without.has(neighbour.region)) {
      best = neighbour.region;
      length = neighbour.length;
    }
  }
  return best;
}

/**
 * Neighbours of each region with add-ons merged into what lies under them, and the outside as the last
 * index. Without add-ons it is the map's own neighbour relation.
 */
export function mergedNeighbours(map: RegionMap, base: Int32Array): number[][] {
  const outside = map.regions.length;
  const lists: number[][] = Array.from({ length: outside + 1 }, () => []);
  map.regions.forEach((region, index) => {
    if (region.addOn) return;
    const own = lists[base[index]];
    for (const neighbour of region.neighbours) {
      const other = base[neighbour.region];
      if (other !== base[index]) own.push(other);
    }
    if (region.outsideLength > 0) {
      own.push(outside);
      lists[outside].push(base[index]);
    }
  });
  return lists;
}
