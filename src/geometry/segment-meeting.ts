import type { Bounds, Point } from './point.js';

/** Twice the area of the triangle: its sign tells the side of the line through `a` and `b` that `p` lies on. */
const side = (a: Point, b: Point, p: Point): number =>
  (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);

/** Whether two segments cross or touch, by signs in floating point: not exact; what lies in one line counts as touching. */
export function segmentsMeet(a: Point, b: Point, c: Point, d: Point): boolean {
  return side(a, b, c) * side(a, b, d) <= 0 && side(c, d, a) * side(c, d, b) <= 0;
}

/** Clips the segment to the box (Liang and Barsky 1984) and tells whether anything is left. */
export function segmentMeetsBox(a: Point, b: Point, [x0, y0, x1, y1]: Bounds): boolean {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  let enter = 0;
  let leave = 1;
  const sides = [
    [-dx, a[0] - x0],
    [dx, x1 - a[0]],
    [-dy, a[1] - y0],
    [dy, y1 - a[1]],
  ];
  for (const [p, q] of sides) {
    if (p === 0) {
      if (q < 0) return false;
    } else if (p < 0) {
      enter = Math.max(enter, q / p);
    } else {
      leave = Math.min(leave, q / p);
    }
  }
  return enter <= leave;
}
