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
export function chordMeetsBox(ax: number, ay: number, bx: number, by: number, box: Bounds): boolean {
  const x0 = box[0];
  const y0 = box[1];
  const x1 = box[2];
  const y1 = box[3];
  // All of it lies to one side.
  if ((ax < x0 && bx < x0) || (ax > x1 && bx > x1) || (ay < y0 && by < y0) || (ay > y1 && by > y1)) {
    return false;
  }
  const dx = bx - ax;
  const dy = by - ay;
  let enter = 0;
  let leave = 1;
  if (dx !== 0) {
    enter = Math.max(enter, ((dx > 0 ? x0 : x1) - ax) / dx);
    leave = Math.min(leave, ((dx > 0 ? x1 : x0) - ax) / dx);
  }
  if (dy !== 0) {
    enter = Math.max(enter, ((dy > 0 ? y0 : y1) - ay) / dy);
    leave = Math.min(leave, ((dy > 0 ? y1 : y0) - ay) / dy);
  }
  return enter <= leave;
}
