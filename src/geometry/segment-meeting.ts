import type { Bounds, Point } from './point.js';

/** Twice the area of the triangle: its sign tells the side of the line through `a` and `b` that `p` lies on. */
const side = (a: Point, b: Point, p: Point): number =>
  (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);

/** Whether two segments cross or touch, by signs in floating point: not exact; what lies in one line counts as touching. */
export function segmentsMeet(a: Point, b: Point, c: Point, d: Point): boolean {
  return side(a, b, c) * side(a, b, d) <= 0 && side(c, d, a) * side(c, d, b) <= 0;
}

/** Clips the segment to the box (Liang and Barsky 1984) and tells whether anything is left. */
export function segmentMeetsBox(a: Point, b: Point, box: Bounds): boolean {
  return chordMeetsBox(a[0], a[1], b[0], b[1], box);
}

/** The same by coordinates, for loops over many segments. */
export function chordMeetsBox(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  [x0, y0, x1, y1]: Bounds,
): boolean {
  const dx = bx - ax;
  const dy = by - ay;
  let enter = 0;
  let leave = 1;
  if (dx === 0) {
    if (ax < x0 || ax > x1) return false;
  } else {
    const [near, far] = dx > 0 ? [x0, x1] : [x1, x0];
    enter = Math.max(enter, (near - ax) / dx);
    leave = Math.min(leave, (far - ax) / dx);
  }
  if (dy === 0) {
    if (ay < y0 || ay > y1) return false;
  } else {
    const [near, far] = dy > 0 ? [y0, y1] : [y1, y0];
    enter = Math.max(enter, (near - ay) / dy);
    leave = Math.min(leave, (far - ay) / dy);
  }
  return enter <= leave;
}
