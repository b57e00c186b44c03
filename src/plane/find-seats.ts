import { pointAt } from '../geometry/curve.js';
import { curveLength } from '../geometry/curve-length.js';
import type { Point } from '../geometry/point.js';
import { loopCurves } from './edge-curves.js';
import { isInside } from './region-at.js';
import type { Region, RegionMap } from './region-map.js';
import { mapInTurns } from './steps.js';

/** Outlines of add-ons are followed in steps of this, mm: no seat narrower than it is looked for. */
const STEP = 0.25;
const MOST_STEPS = 4000;

type Drawn = Pick<RegionMap, 'curves' | 'nodes' | 'edges'>;

/**
 * Fills in the regions that each add-on rests on: those under its outline, and those wholly inside it.
 * `under` gives the region of the layer below at a point, -1 for none.
 */
export function* findSeats(
  regions: readonly Region[],
  map: Drawn,
  under: (p: Point) => number,
): Generator<number, Region[]> {
  if (!regions.some(({ addOn }) => addOn)) return [...regions];
  const seat = (region: Region): Region => {
    if (!region.addOn) return region;
    const seats = new Set<number>();
    const runs = region.loops.map((loop) => loopCurves(map, loop));
    for (const curve of runs.flat()) {
      const steps = Math.min(MOST_STEPS, Math.max(4, Math.ceil(curveLength(curve) / STEP)));
      for (let i = 0; i < steps; i++) seats.add(under(pointAt(curve, i / steps)));
    }
    const [x0, y0, x1, y1] = region.bounds;
    regions.forEach(({ labelPoint: [x, y], addOn }, i) => {
      if (addOn || x < x0 || x > x1 || y < y0 || y > y1) return;
      if (isInside(runs, [x, y])) seats.add(i);
    });
    seats.delete(-1);
    return { ...region, seats: [...seats].sort((a, b) => a - b) };
  };
  return yield* mapInTurns(regions, seat);
}
