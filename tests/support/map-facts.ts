import { GRID_STEP } from '../../src/geometry/grid.js';
import type { RegionMap } from '../../src/plane/region-map.js';

/** Region areas, ascending, mm². */
export function regionAreas(map: RegionMap): number[] {
  return map.regions.map((region) => region.area).sort((a, b) => a - b);
}

/** Pairs of regions that share border of positive length. */
export function neighbourPairs(map: RegionMap): number {
  return map.regions.reduce((sum, region) => sum + region.neighbours.length, 0) / 2;
}

/**
 * How far the area of a region may be off where its nodes are not on the grid: each node lies within half the
 * diagonal of a step of the true one, and drags a border as long as the region with it.
 */
export function areaBound(map: RegionMap, size: number): number {
  return Math.SQRT1_2 * GRID_STEP * map.nodes.length * size;
}
