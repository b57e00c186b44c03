import { pointAt } from '../geometry/curve.js';
import { flattenParameters } from '../geometry/flatten.js';
import type { Point } from '../geometry/point.js';
import type { Loop, RegionMap } from './region-map.js';

/** The points of an edge's true line from node to node; chords between them are within `tolerance` mm of it. */
export function edgePoints(map: RegionMap, edge: number, tolerance: number): Point[] {
  const { from, to, pieces } = map.edges[edge];
  const points: Point[] = [map.nodes[from].at];
  for (const { curve, t0, t1 } of pieces) {
    const c = map.curves[curve];
    if (c === undefined) continue;
    if (c.kind !== 'line') {
      const all = flattenParameters(c, tolerance);
      const forward = t0 < t1;
      for (let k = 0; k < all.length; k++) {
        const t = all[forward ? k : all.length - 1 - k];
        if ((t - t0) * (t - t1) < 0) points.push(pointAt(c, t));
      }
    }
    points.push(pointAt(c, t1));
  }
  points[points.length > 1 ? points.length - 1 : 1] = map.nodes[to].at;
  return points;
}

/** The points of a loop, without repeating the first at the end. */
export function loopPoints(map: RegionMap, loop: Loop, tolerance: number): Point[] {
  const chain: Point[] = [];
  for (const { edge, forward } of loop) {
    const points = edgePoints(map, edge, tolerance);
    const last = points.length - 1;
    for (let k = 0; k < last; k++) chain.push(points[forward ? k : last - k]);
  }
  return chain;
}

/** How often a ray from a point towards +x crosses closed chains of points: odd inside, even outside. */
export function countCrossings(loops: readonly (readonly Point[])[], [x, y]: Point): number {
  let count = 0;
  for (const points of loops) {
    let [ax, ay] = points[points.length - 1];
    for (const [bx, by] of points) {
      if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) count++;
      ax = bx;
      ay = by;
    }
  }
  return count;
}
