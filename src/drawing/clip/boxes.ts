import type { Bounds } from '../../geometry/point.js';

/** Whether `box` holds all of `inner`, or all but `slack` on any side. */
export function holds(box: Bounds, inner: Bounds, slack = 0): boolean {
  return (
    inner[0] >= box[0] - slack &&
    inner[1] >= box[1] - slack &&
    inner[2] <= box[2] + slack &&
    inner[3] <= box[3] + slack
  );
}

/** Whether two boxes, edges included, have a point in common, or come within `reach` of each other. */
export function meets(a: Bounds, b: Bounds, reach = 0): boolean {
  return a[0] <= b[2] + reach && a[2] >= b[0] - reach && a[1] <= b[3] + reach && a[3] >= b[1] - reach;
}
