import { borderDistance } from '../geometry/border-runs.js';
import type { Point } from '../geometry/point.js';
import type { RegionMap } from '../plane/region-map.js';
import { regionRings } from '../plane/region-rings.js';
import type { Locate } from './locate-regions.js';

/** Points that are looked at along the longer side of a region, coarsest first: a fine grid only where needed. */
const GRIDS = [24, 96, 384] as const;

/** Digits after the point of a written place: a thousandth of a mm. */
const DIGITS = 1000;

/**
 * The place, to 0.001 mm, at which a number for a region is read back as one for this region and no other: its label
 * point, or, where an add-on lies over that, the roomiest place of the region that no add-on covers. Null where there
 * is none: the region is covered wholly, or too thin.
 */
export function numberPlace(map: RegionMap, region: number, locate: Locate): Point | null {
  const label = rounded(map.regions[region].labelPoint);
  if (locate(label) === region) return label;
  const room = uncoveredRoom(map, region);
  const [x0, y0, x1, y1] = map.regions[region].bounds;
  for (const count of GRIDS) {
    const step = Math.max(x1 - x0, y1 - y0) / count;
    let best: Point | null = null;
    let most = 0;
    for (let x = x0 + step / 2; x < x1; x += step) {
      for (let y = y0 + step / 2; y < y1; y += step) {
        const at = rounded([x, y]);
        const here = room(at);
        if (here <= most || locate(at) !== region) continue;
        best = at;
        most = here;
      }
    }
    if (best !== null) return best;
  }
  return null;
}

/** How far a point is from the border of the part of a region that lies bare; 0 or less outside of it. */
function uncoveredRoom(map: RegionMap, region: number): (at: Point) => number {
  const inside = distanceTo(map, region);
  const covers = map.regions.flatMap(({ addOn, seats }, r) =>
    addOn && seats.includes(region) ? [distanceTo(map, r)] : [],
  );
  return (at) => covers.reduce((least, cover) => Math.min(least, -cover(at)), inside(at));
}

/** Distance to the border of one region, positive inside it. */
function distanceTo(map: RegionMap, region: number): (at: Point) => number {
  const rings = regionRings(map, region).map((ring) =>
    Float64Array.from(ring.slice(0, -1).flatMap(([x, y]) => [x, -y])),
  );
  const distance = borderDistance(rings);
  return ([x, y]) => distance(x, y, Number.NEGATIVE_INFINITY);
}

const rounded = ([x, y]: Point): Point => [Math.round(x * DIGITS) / DIGITS, Math.round(y * DIGITS) / DIGITS];
