import { distance, lerp, type Point } from '../geometry/point.js';

/** Places along a way where another one may begin are this far apart, mm. */
const BRANCHES = 1.5;

export function lengthOf(points: readonly Point[]): number {
  return points.slice(1).reduce((sum, p, i) => sum + distance(points[i], p), 0);
}

/** The place lies on the way from the one point to the other: rounding only. */
export function isBetween(a: Point, b: Point, place: Point): boolean {
  return distance(a, place) + distance(place, b) - distance(a, b) < ON_WAY;
}

/** mm */
const ON_WAY = 1e-9;

/** Places along a way where another one may branch off, its ends left out. */
export function pointsOn(way: readonly Point[]): Point[] {
  return way.slice(1).flatMap((to, i) => {
    const from = way[i];
    const count = Math.max(2, Math.ceil(distance(from, to) / BRANCHES));
    const last = i === way.length - 2;
    return Array.from({ length: last ? count - 1 : count }, (_, k) => lerp(from, to, (k + 1) / count));
  });
}
