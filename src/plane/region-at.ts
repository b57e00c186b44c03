import { demandPoint, demandStage } from '../arguments.js';
import { type Curve, pointAt } from '../geometry/curve.js';
import { flattenParameters } from '../geometry/flatten.js';
import type { Point } from '../geometry/point.js';
import { loopCurves } from './edge-curves.js';
import { OUTSIDE, type Region, type RegionMap } from './region-map.js';

/** Chords nearer to their curves than this, mm, are as good as the curves for telling sides. */
const CHORD_TOLERANCE = 0.001;

/** Index of the region that a point (mm) lies in, or OUTSIDE. Add-ons, which lie on top, come first. */
export function regionAt(map: RegionMap, point: Point): number {
  demandStage(map, ['region map'], 'regionAt');
  demandPoint(point, 'regionAt');
  for (const addOns of [true, false]) {
    const found = map.regions.findIndex((region) => region.addOn === addOns && holds(map, region, point));
    if (found >= 0) return found;
  }
  return OUTSIDE;
}

/** Whether a region holds a point, by the even-odd rule on its loops. */
function holds(map: RegionMap, region: Region, point: Point): boolean {
  const [x0, y0, x1, y1] = region.bounds;
  if (point[0] < x0 || point[0] > x1 || point[1] < y0 || point[1] > y1) return false;
  return isInside(
    region.loops.map((loop) => loopCurves(map, loop)),
    point,
  );
}

/** Whether a point lies inside closed runs of curves, by the even-odd rule. */
export function isInside(runs: readonly (readonly Curve[])[], point: Point): boolean {
  let crossings = 0;
  for (const run of runs) crossings += Math.abs(windingOf(run, point, (up) => (up ? 1 : 1)));
  return crossings % 2 === 1;
}

/** Winding number of a closed run of curves around a point. */
export function windingNumber(run: readonly Curve[], point: Point): number {
  return windingOf(run, point, (up) => (up ? 1 : -1));
}

function windingOf(run: readonly Curve[], [x, y]: Point, count: (up: boolean) => number): number {
  let sum = 0;
  const cross = (ax: number, ay: number, bx: number, by: number): void => {
    if (ay > y === by > y) return;
    if (x < ax + ((y - ay) / (by - ay)) * (bx - ax)) sum += count(by < ay);
  };
  for (const curve of run) {
    const t = curve.kind === 'line' ? [0, 1] : flattenParameters(curve, CHORD_TOLERANCE);
    let [ax, ay] = curve.from;
    for (let i = 1; i < t.length; i++) {
      const [bx, by] = pointAt(curve, t[i]);
      cross(ax, ay, bx, by);
      ax = bx;
      ay = by;
    }
  }
  const [first, last] = [run[0]?.from, run[run.length - 1]?.to];
  if (first !== undefined) cross(last[0], last[1], first[0], first[1]);
  return sum;
}
