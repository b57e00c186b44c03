import type { Point } from '../geometry/point.js';
import { regionAt } from '../plane/region-at.js';
import { findRegionAt, indexRegions } from '../plane/region-index.js';
import type { RegionMap } from '../plane/region-map.js';

/** Finds the region at a point, add-ons first; OUTSIDE where there is none. */
export type Locate = (at: Point) => number;

/** From so many look-ups on, an index of the whole map is worth its while. */
const WORTH_AN_INDEX = 12;

/** A locator for about `count` look-ups on one map. */
export function locateRegions(map: RegionMap, count: number): Locate {
  if (count < WORTH_AN_INDEX) return (at) => regionAt(map, at);
  const index = indexRegions(map);
  return (at) => findRegionAt(map, index, at);
}
