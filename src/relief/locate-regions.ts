import type { Point } from '../geometry/point.js';
import { countCrossings, loopPoints } from '../plane/edge-points.js';
import { OUTSIDE, type RegionMap } from '../plane/region-map.js';

/** Finds the region at a point, add-ons first; OUTSIDE where there is none. */
export type Locate = (at: Point) => number;

/** Distance between outlines and the chords on which points are told inside or outside, mm. */
const FLATNESS = 0.001;

/**
 * A locator for many points of one map: outlines are flattened when they are first met and kept for as long as
 * the locator. Each look-up goes through the boxes of all regions.
 */
export function locateRegions(map: RegionMap): Locate {
  const outlines = new Map<number, Point[][]>();
  const holds = (index: number, at: Point): boolean => {
    const { bounds, loops } = map.regions[index];
    if (at[0] < bounds[0] || at[0] > bounds[2] || at[1] < bounds[1] || at[1] > bounds[3]) return false;
    let outline = outlines.get(index);
    if (outline === undefined) {
      outline = loops.map((loop) => loopPoints(map, loop, FLATNESS));
      outlines.set(index, outline);
    }
    return countCrossings(outline, at) % 2 === 1;
  };
  const order = [...map.regions.keys()].sort(
    (a, b) => Number(map.regions[b].addOn) - Number(map.regions[a].addOn),
  );
  return (at) => order.find((index) => holds(index, at)) ?? OUTSIDE;
}
