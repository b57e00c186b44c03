import { pointAt } from '../geometry/curve.js';
import { flattenParameters } from '../geometry/flatten.js';
import type { Point } from '../geometry/point.js';
import type { Loop, RegionMap } from '../plane/region-map.js';

/** The points of an edge's true line from node to node; chords between them are within `tolerance` mm of it. */
export function edgePoints(map: RegionMap, edge: number, tolerance: number): Point[] {
  const { from, to, pieces } = map.edges[edge];
  const points: Point[] = [map.nodes[from].at];
  for (const { curve, t0, t1 } of pieces) {
    if (curve < 0) continue;
    const c = map.curves[curve];
    const inner = [...flattenParameters(c, tolerance)].filter((t) => (t - t0) * (t - t1) < 0);
    if (t1 < t0) inner.reverse();
    for (const t of [...inner, t1]) points.push(pointAt(c, t));
  }
  points[points.length > 1 ? points.length - 1 : 1] = map.nodes[to].at;
  return points;
}

/** The points of a loop, without repeating the first at the end. */
export function loopPoints(map: RegionMap, loop: Loop, tolerance: number): Point[] {
  return loop.flatMap(({ edge, forward }) => {
    const points = edgePoints(map, edge, tolerance);
    if (!forward) points.reverse();
    return points.slice(0, -1);
  });
}
