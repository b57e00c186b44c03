import Flatbush from 'flatbush';
import { type Bounds, distanceToSegment, type Point } from './point.js';
import { chordMeetsBox, segmentsMeet } from './segment-meeting.js';

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
  const { ends } = field;
  let count = 0;
  // Each is looked at as it is found, and none is kept.
  field.index.search(box[0], box[1], box[2], box[3], (i) => {
    const at = 4 * i;
    if (count < most && chordMeetsBox(ends[at], ends[at + 1], ends[at + 2], ends[at + 3], box)) count++;
    return false;
  });
  return count;
}

/** Whether the straight way from `a` to `b` meets no segment of the field. */
export function wayIsFree(field: SegmentField, a: Point, b: Point): boolean {
  if (field.index === null) return true;
  const [x0, y0, x1, y1] = boxOfWay(a, b);
  return field.index.search(x0, y0, x1, y1).every((i) => {
    const [from, to] = segmentOf(field, i);
    return !segmentsMeet(a, b, from, to);
  });
}

/** From a point to the nearest segment, or Infinity where none is within `most`. */
export function distanceToField(field: SegmentField, at: Point, most: number): number {
  if (field.index === null) return Number.POSITIVE_INFINITY;
  const near = field.index.search(at[0] - most, at[1] - most, at[0] + most, at[1] + most);
  return near.reduce(
    (least, i) => Math.min(least, distanceToSegment(at, ...segmentOf(field, i))),
    Number.POSITIVE_INFINITY,
  );
}

/** The box around two points. */
export function boxOfWay(a: Point, b: Point): Bounds {
  return [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[0], b[0]), Math.max(a[1], b[1])];
}

function segmentOf({ ends }: SegmentField, i: number): [Point, Point] {
  const at = 4 * i;
  return [
    [ends[at], ends[at + 1]],
    [ends[at + 2], ends[at + 3]],
  ];
}
