import { type NearestPoint, nearestOnCurve } from '../geometry/nearest-on-curve.js';
import { distance, lerp, type Point } from '../geometry/point.js';
import type { RegionMap } from '../plane/region-map.js';

/** How far a point is from an edge, and the point of the edge that is nearest. */
export interface NearEdge {
  readonly edge: number;
  readonly point: Point;
  /** mm */
  readonly distance: number;
}

/**
 * The nearest place of an edge's true line to a point, among the places that count: one for each curve that
 * the edge was drawn with. At infinity where none counts.
 */
export function nearestOnEdge(
  map: RegionMap,
  edge: number,
  p: Point,
  counts: (place: Point) => boolean = () => true,
): NearEdge {
  const { from, to, pieces } = map.edges[edge];
  let best: NearEdge = { edge, point: p, distance: Number.POSITIVE_INFINITY };
  for (const { curve, t0, t1 } of pieces) {
    const near =
      curve < 0
        ? nearestOnChord(map.nodes[from].at, map.nodes[to].at, p)
        : nearestOnCurve(map.curves[curve], p, Math.min(t0, t1), Math.max(t0, t1));
    if (near.distance < best.distance && counts(near.point)) {
      best = { edge, point: near.point, distance: near.distance };
    }
  }
  return best;
}

/** All edges on the border of a region or inside it. */
export function edgesOf(map: RegionMap, region: number): Set<number> {
  const { loops, veins } = map.regions[region];
  return new Set([...loops.flat().map((step) => step.edge), ...veins]);
}

function nearestOnChord(a: Point, b: Point, p: Point): Pick<NearestPoint, 'point' | 'distance'> {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square;
  const point = lerp(a, b, Math.min(1, Math.max(0, t)));
  return { point, distance: distance(point, p) };
}
