import Flatbush from 'flatbush';
import type { Bounds, Point } from '../geometry/point.js';

/**
 * All lines of a picture as straight segments, to ask whether a box is free of them.
 * `ends`: x0, y0, x1, y1 per segment, mm.
 */
export interface SegmentField {
  readonly ends: Float64Array;
  readonly index: Flatbush | null;
}

/** Indexes segments given as x0, y0, x1, y1 one after the other. */
export function segmentField(ends: Float64Array): SegmentField {
  const count = ends.length / 4;
  if (count === 0) return { ends, index: null };
  const index = new Flatbush(count);
  for (let i = 0; i < count; i++) {
    const [x0, y0, x1, y1] = ends.subarray(4 * i, 4 * i + 4);
    index.add(Math.min(x0, x1), Math.min(y0, y1), Math.max(x0, x1), Math.max(y0, y1));
  }
  index.finish();
  return { ends, index };
}

/** How many segments of the field touch the box; counting stops at `most`. */
export function segmentsInBox(field: SegmentField, box: Bounds, most: number): number {
  if (field.index === null) return 0;
  let count = 0;
  for (const i of field.index.search(box[0], box[1], box[2], box[3])) {
    if (segmentMeetsBox(field.ends, 4 * i, box)) count++;
    if (count >= most) break;
  }
  return count;
}

/** Whether the straight way from `a` to `b` meets no segment of the field. */
export function wayIsFree(field: SegmentField, a: Point, b: Point): boolean {
  if (field.index === null) return true;
  const [x0, x1] = a[0] < b[0] ? [a[0], b[0]] : [b[0], a[0]];
  const [y0, y1] = a[1] < b[1] ? [a[1], b[1]] : [b[1], a[1]];
  return field.index.search(x0, y0, x1, y1).every((i) => {
    const [px, py, qx, qy] = field.ends.subarray(4 * i, 4 * i + 4);
    const apart = (ux: number, uy: number, vx: number, vy: number, s: Point, t: Point): boolean => {
      const side = ([x, y]: Point): number => (vx - ux) * (y - uy) - (vy - uy) * (x - ux);
      return side(s) * side(t) > 0;
    };
    return apart(a[0], a[1], b[0], b[1], [px, py], [qx, qy]) || apart(px, py, qx, qy, a, b);
  });
}

/** Clips the segment to the box (Liang and Barsky 1984) and tells whether anything is left. */
function segmentMeetsBox(ends: Float64Array, at: number, [x0, y0, x1, y1]: Bounds): boolean {
  const ax = ends[at];
  const ay = ends[at + 1];
  const dx = ends[at + 2] - ax;
  const dy = ends[at + 3] - ay;
  let enter = 0;
  let leave = 1;
  const sides = [
    [-dx, ax - x0],
    [dx, x1 - ax],
    [-dy, ay - y0],
    [dy, y1 - ay],
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
