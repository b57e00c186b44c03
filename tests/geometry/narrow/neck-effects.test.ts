import { describe, expect, test } from 'vitest';
import type { Curve } from '../../../src/geometry/curve.js';
import { areaBoundary } from '../../../src/geometry/narrow/area-boundary.js';
import { type Neck, narrowPlaces } from '../../../src/geometry/narrow-places.js';
import type { Point } from '../../../src/geometry/point.js';
import { box, circle, circleArc, polygon } from './shapes.js';

const necks = (loops: Curve[][], needed: number): Neck[] => narrowPlaces(areaBoundary(loops), needed);

/** A ring-shaped moat of radii 20 and 26 about (50, 50), cut by n bridges of 3 mm: n holes. */
function moat(n: number): Curve[][] {
  const [inner, outer, half] = [20, 26, 1.5];
  const at = (r: number, angle: number): Point => [50 + r * Math.cos(angle), 50 + r * Math.sin(angle)];
  return Array.from({ length: n }, (_, k): Curve[] => {
    const [a, b] = [k, k + 1].map((i) => (2 * Math.PI * i) / n);
    const [i0, i1] = [a + Math.asin(half / inner), b - Math.asin(half / inner)];
    const [o0, o1] = [a + Math.asin(half / outer), b - Math.asin(half / outer)];
    const large = (2 * Math.PI) / n > Math.PI;
    return [
      circleArc(at(outer, o0), at(outer, o1), outer, large, true),
      { kind: 'line', from: at(outer, o1), to: at(inner, i1) },
      circleArc(at(inner, i1), at(inner, i0), inner, large, false),
      { kind: 'line', from: at(inner, i0), to: at(outer, o0) },
    ];
  });
}

describe('what a cut along a neck does', () => {
  test('an island on one bridge falls out, on more it hangs on the others', () => {
    const one = necks([box(0, 0, 100, 100), ...moat(1)], 5);
    expect(one.map((n) => [n.effect, n.others])).toEqual([['parts', 0]]);
    for (const n of [2, 3, 5]) {
      const found = necks([box(0, 0, 100, 100), ...moat(n)], 5);
      expect(found.map((f) => [f.effect, f.others])).toEqual(Array(n).fill(['hangs', n - 1]));
      for (const f of found) expect(f.width).toBeCloseTo(3, 9);
    }
  });

  test('a bridge that is not alone with its two holes only opens a ring', () => {
    const found = necks([box(0, 0, 100, 60), box(20, 20, 40, 40), box(42, 20, 70, 40)], 5);
    expect(found.map((n) => [n.effect, n.others, n.side])).toEqual([['opens', null, null]]);
  });

  test('three holes in a row from edge to edge: four necks, each parts with the three others', () => {
    const found = necks(
      [box(0, 0, 30, 100), circle(10, 50, 8), circle(28 - 8, 50, 0.5), circle(25, 50, 2)],
      6,
    );
    const across = found.filter((n) => n.effect === 'hangs');
    expect(across.length).toBe(found.length);
    expect(new Set(across.map((n) => n.others))).toEqual(new Set([3]));
  });

  test('several outlines are areas of their own', () => {
    const waist = (x: number): Curve[] =>
      polygon([
        [x, 0],
        [x + 20, 0],
        [x + 20, 20],
        [x + 12, 30],
        [x + 20, 40],
        [x + 20, 60],
        [x, 60],
        [x, 40],
        [x + 8, 30],
        [x, 20],
      ]);
    const found = necks([waist(0), waist(30), box(70, 0, 90, 20)], 6);
    expect(found.map((n) => [n.width, n.effect, n.side?.area])).toEqual(
      Array(2).fill([4, 'parts', expect.closeTo(400 + 120, 9)]),
    );
  });

  test('an outline in a hole is an area of its own', () => {
    const found = necks([box(0, 0, 100, 100), box(10, 10, 90, 90), box(12, 12, 88, 88)], 5);
    // The frame between the outer two is 10 wide, and between hole and inner area there is nothing.
    expect(found).toEqual([]);
  });
});

describe('what comes off', () => {
  const tab = (loops: Curve[][]): Neck[] =>
    necks(
      [
        polygon([
          [0, 0],
          [60, 0],
          [60, 28],
          [66, 28],
          [66, 10],
          [96, 10],
          [96, 50],
          [66, 50],
          [66, 32],
          [60, 32],
          [60, 60],
          [0, 60],
        ]),
        ...loops,
      ],
      6,
    ).filter((n) => n.effect === 'parts');

  test('the smaller side, holes taken off, with its centre of gravity', () => {
    const [plain] = tab([]);
    expect(plain.width).toBeCloseTo(4, 12);
    expect(plain.side?.area).toBeCloseTo(30 * 40 + 4 * 3, 9);
    const [pierced] = tab([box(75, 20, 95, 40), box(5, 5, 25, 25)]);
    expect(pierced.side?.area).toBeCloseTo(30 * 40 + 12 - 400, 9);
    const x = (1200 * 81 + 12 * 64.5 - 400 * 85) / 812;
    expect(pierced.side?.centroid[0]).toBeCloseTo(x, 9);
    expect(pierced.side?.centroid[1]).toBeCloseTo(30, 9);
    expect(pierced.side?.lever).toBeCloseTo(x - 63, 9);
  });

  test('the other side when a hole makes that the smaller one', () => {
    const [n] = tab([box(2, 2, 58, 58)]);
    expect(n.side?.area).toBeCloseTo(3600 + 12 - 56 * 56, 9);
    expect(n.side?.centroid[0]).toBeLessThan(60);
  });

  test('an island held at one place, with a hole in it', () => {
    const [n] = necks([box(0, 0, 100, 100), ...moat(1), circle(50, 50, 10)], 5);
    // Island of radius 20 less its hole; half the bridge, between the arcs, comes with it.
    const island = Math.PI * (400 - 100);
    expect((n.side?.area ?? 0) - island).toBeGreaterThan(6);
    expect((n.side?.area ?? 0) - island).toBeLessThan(12);
    expect(n.effect).toBe('parts');
  });
});

describe('places where the boundary touches itself', () => {
  test('a hole that touches the edge in a point is a neck of width 0', () => {
    const touching = polygon([
      [40, 0],
      [50, 20],
      [30, 20],
    ]);
    const outline = polygon([
      [0, 0],
      [40, 0],
      [100, 0],
      [100, 60],
      [0, 60],
    ]);
    const found = necks([outline, touching], 5);
    expect(found.map((n) => [n.width, n.at, n.effect])).toEqual([[0, [40, 0], 'opens']]);
  });

  test('a hole that misses the edge by a hair is one of that width', () => {
    const [n, ...rest] = necks([box(0, 0, 100, 60), circle(50, 10 + 1e-5, 10)], 5);
    expect(rest).toEqual([]);
    expect(n.width).toBeCloseTo(1e-5, 12);
  });
});

describe('input that bounds nothing', () => {
  test('no loops, empty loops, points and slits', () => {
    const point: Curve = { kind: 'line', from: [5, 5], to: [5, 5] };
    const slit: Curve[] = [
      { kind: 'line', from: [30, 30], to: [40, 30] },
      { kind: 'line', from: [40, 30], to: [30, 30] },
    ];
    expect(necks([], 5)).toEqual([]);
    expect(necks([[]], 5)).toEqual([]);
    expect(necks([[point], []], 5)).toEqual([]);
    expect(necks([box(0, 0, 100, 60), [point], []], 5)).toEqual([]);
    expect(necks([box(0, 0, 100, 60), slit], 5).every((n) => n.width >= 0)).toBe(true);
    expect(necks([box(0, 0, 100, 60)], 0)).toEqual([]);
  });
});
