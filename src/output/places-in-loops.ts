import type { Bounds, Point } from '../geometry/point.js';

/** How many lines across an area are tried for places. */
const TRIES = 24;

/** Places in a stretch that are tried, in parts of it, the middle first. */
const ACROSS = [0.5, 0.3, 0.7];

/**
 * Places in an area, as far as a picture shows it: in the middle of the stretches across it, the widest first, then
 * aside of the middle. Empty: the picture does not show it.
 *
 * @param loops closed chains of chords, by the even-odd rule
 */
export function placesInLoops(loops: readonly (readonly Point[])[], view: Bounds): Point[] {
  const [x0, , x1] = view;
  let [top, bottom] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const loop of loops) {
    for (const [, y] of loop) {
      top = Math.min(top, y);
      bottom = Math.max(bottom, y);
    }
  }
  const [y0, y1] = [Math.max(view[1], top), Math.min(view[3], bottom)];
  if (y1 <= y0) return [];
  const stretches: { width: number; from: number; y: number }[] = [];
  for (let i = 1; i < TRIES; i++) {
    const y = y0 + ((y1 - y0) * i) / TRIES;
    const hits = loops.flatMap((loop) => crossings(loop, y)).sort((a, b) => a - b);
    for (let k = 0; k + 1 < hits.length; k += 2) {
      const [from, to] = [Math.max(x0, hits[k]), Math.min(x1, hits[k + 1])];
      if (to > from) stretches.push({ width: to - from, from, y });
    }
  }
  stretches.sort((a, b) => b.width - a.width || a.y - b.y);
  return ACROSS.flatMap((part) => stretches.map(({ width, from, y }): Point => [from + part * width, y]));
}

/** Where a closed chain of chords crosses a level line. */
function crossings(loop: readonly Point[], y: number): number[] {
  return loop.flatMap(([ax, ay], i): number[] => {
    const [bx, by] = loop[(i + 1) % loop.length];
    return ay > y === by > y ? [] : [ax + ((y - ay) / (by - ay)) * (bx - ax)];
  });
}
