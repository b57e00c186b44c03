import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type Bounds, distanceToSegment, type Point } from '../../src/geometry/point.js';
import { distanceToField, segmentField, segmentsInBox, wayIsFree } from '../../src/geometry/segment-field.js';
import { segmentMeetsBox, segmentsMeet } from '../../src/geometry/segment-meeting.js';

const coordinate = fc.oneof(
  fc.integer({ min: -20, max: 120 }),
  fc.double({ min: -20, max: 120, noNaN: true }),
);
const point = fc.tuple(coordinate, coordinate);
const segments = fc.array(fc.tuple(point, point), { maxLength: 60 });
const fieldOf = (list: readonly (readonly [Point, Point])[]) =>
  segmentField(Float64Array.from(list.flatMap(([a, b]) => [...a, ...b])));
const boxOf = ([ax, ay]: Point, [bx, by]: Point): Bounds => [
  Math.min(ax, bx),
  Math.min(ay, by),
  Math.max(ax, bx),
  Math.max(ay, by),
];
const boxesTouch = (a: Bounds, b: Bounds): boolean =>
  a[0] <= b[2] && b[0] <= a[2] && a[1] <= b[3] && b[1] <= a[3];

it('counts the segments in a box as a plain search does', () => {
  fc.assert(
    fc.property(segments, point, point, fc.integer({ min: 1, max: 70 }), (list, a, b, most) => {
      const box = boxOf(a, b);
      const expected = list.filter(([from, to]) => segmentMeetsBox(from, to, box)).length;
      expect(segmentsInBox(fieldOf(list), box, most)).toBe(Math.min(expected, most));
    }),
  );
});

it('knows whether a way is free as a plain search does', () => {
  fc.assert(
    fc.property(segments, point, point, (list, a, b) => {
      const near = list.filter(([from, to]) => boxesTouch(boxOf(from, to), boxOf(a, b)));
      expect(wayIsFree(fieldOf(list), a, b)).toBe(!near.some(([from, to]) => segmentsMeet(a, b, from, to)));
    }),
  );
});

it('finds the distance to the nearest segment within reach', () => {
  fc.assert(
    fc.property(segments, point, fc.integer({ min: 1, max: 80 }), (list, at, most) => {
      const least = Math.min(
        Number.POSITIVE_INFINITY,
        ...list.map(([from, to]) => distanceToSegment(at, from, to)),
      );
      const found = distanceToField(fieldOf(list), at, most);
      if (least <= most) expect(found).toBeCloseTo(least, 9);
      else expect(found).toBeGreaterThan(most);
    }),
  );
});

it('takes lines that all lie in one, and a single point', () => {
  const level = fieldOf([
    [
      [0, 5],
      [100, 5],
    ],
    [
      [20, 5],
      [20, 5],
    ],
  ]);
  expect(segmentsInBox(level, [19, 4, 21, 6], 9)).toBe(2);
  expect(segmentsInBox(level, [19, 6, 21, 8], 9)).toBe(0);
  const dot = fieldOf([
    [
      [3, 3],
      [3, 3],
    ],
  ]);
  expect(segmentsInBox(dot, [2, 2, 4, 4], 9)).toBe(1);
  expect(segmentsInBox(segmentField(new Float64Array(0)), [0, 0, 1, 1], 1)).toBe(0);
});
