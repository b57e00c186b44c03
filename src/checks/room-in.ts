import { poleOf } from '../geometry/pole.js';
import { loopPoints } from '../plane/edge-points.js';
import type { RegionMap } from '../plane/region-map.js';

/** How exactly `roomIn` knows a diameter, mm. */
export const ROOM_PRECISION = 0.01;

/** What the search for the middle and the chords of curves each leave open, mm. */
const STEP = ROOM_PRECISION / 8;

/**
 * Diameter of the largest disc in a region, mm. A region's own label room is meant for labels, and is a few parts in a
 * hundred less; so where it says less than `enough`, the disc is looked for again.
 */
export function roomIn(map: RegionMap, region: number, enough: number): number {
  const { loops, labelRoom } = map.regions[region];
  if (2 * labelRoom >= enough) return 2 * labelRoom;
  const rings = loops.map((loop) => Float64Array.from(loopPoints(map, loop, STEP).flat()));
  return Math.max(2 * labelRoom, 2 * poleOf(rings, STEP).room);
}
