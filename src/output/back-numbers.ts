import type { Point } from '../geometry/point.js';
import { distanceToChords, isBackShown, partMark, pointAlong } from './plan-marks.js';

/** Places along a way that are tried for its number, in parts of its length, the middle first. */
const PLACES = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9];

/** How far a number stays off other marks, and off other ways, in units. */
const OFF_MARKS = 5.6;
const OFF_WAYS = 3;

/**
 * The numbers of the parts that the ways back of a step lead to, each on its way, near the middle of it; none where a
 * single way is drawn.
 *
 * @param ways one for each part but the first, null where there is none
 * @param marks where other marks stand; those of the numbers are added
 */
export function backNumbers(
  ways: readonly (readonly Point[] | null)[],
  unit: number,
  marks: Point[],
): string[] {
  const shown = ways.flatMap((way, i) =>
    way !== null && isBackShown(way, unit) ? [{ way, number: i + 2 }] : [],
  );
  if (shown.length < 2) return [];
  return shown.map(({ way, number }) => {
    const length = way.slice(1).reduce((sum, [x, y], i) => sum + Math.hypot(x - way[i][0], y - way[i][1]), 0);
    const others = shown.filter((other) => other.way !== way);
    // 1 and more: free of all marks and other ways.
    const room = (at: Point): number =>
      Math.min(
        ...marks.map(([x, y]) => Math.hypot(at[0] - x, at[1] - y) / (OFF_MARKS * unit)),
        ...others.map((other) => distanceToChords(at, other.way) / (OFF_WAYS * unit)),
      );
    const places = PLACES.flatMap((part) => {
      const found = pointAlong(way, part * length);
      return found === null ? [] : [found[0]];
    });
    const at =
      places.find((place) => room(place) >= 1) ??
      places.reduce((a, b) => (room(b) > room(a) ? b : a), way[0]);
    marks.push(at);
    return partMark(at, number, unit, 'to-part');
  });
}
