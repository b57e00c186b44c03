import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Affine, applyToCurve, applyToPoint, invertAffine } from '../../../src/geometry/affine.js';
import { type Curve, derivativeAt, pointAt, reverseCurve, subCurve } from '../../../src/geometry/curve.js';
import { areaBoundary } from '../../../src/geometry/narrow/area-boundary.js';
import { type Neck, narrowPlaces } from '../../../src/geometry/narrow-places.js';
import { nearestOnCurve } from '../../../src/geometry/nearest-on-curve.js';
import { distance, distanceToSegment, type Point } from '../../../src/geometry/point.js';
import { plainNecks } from './plain-necks.js';
import { area, rounded } from './random-areas.js';
import { polygon } from './shapes.js';

interface Ends {
  readonly from: Point;
  readonly to: Point;
  readonly width: number;
}

const middle = ({ from, to }: Ends): Point => [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];

/** Whether each of the one is among the other. */
function among(some: readonly Ends[], all: readonly Ends[], slack: number): boolean {
  return some.every((n) =>
    all.some((m) => distance(middle(n), middle(m)) < slack && Math.abs(n.width - m.width) < slack),
  );
}

const needed = fc.constantFrom(1, 4, 12);

describe('narrowPlaces, against the plain search over all pairs', () => {
  test('straight sides: exactly the same', () => {
    fc.assert(
      fc.property(area, needed, (loops, width) => {
        const found = narrowPlaces(areaBoundary(loops.map(polygon)), width, { rise: 0 });
        expect(among(plainNecks(loops, width, 1e-12), found, 1e-7)).toBe(true);
        expect(among(found, plainNecks(loops, width, 1e-7), 1e-6)).toBe(true);
        expect(new Set(found.map((n) => middle(n).join())).size).toBe(found.length);
      }),
      { numRuns: 150 },
    );
  });
});

describe('narrowPlaces, minima of one place', () => {
  /** A bar over a ground of three peaks, widths 5, 5.58 and 5.05, with hollows of 5.6 beside the middle one. */
  const peaks = polygon([
    [0, 0],
    [40, 0],
    [40, 20],
    [30, 20],
    [25, 5.05],
    [21, 5.6],
    [20, 5.58],
    [19, 5.6],
    [15, 5],
    [10, 20],
    [0, 20],
  ]);

  test('a shallow minimum goes to one of its neighbours, which stay apart', () => {
    const widths = (rise: number): number[] =>
      narrowPlaces(areaBoundary([peaks]), 6, { rise })
        .map((n) => n.width)
        .sort();
    expect(widths(0)).toEqual([5, 5.05, 5.58].map((w) => expect.closeTo(w, 9)));
    expect(widths(0.05)).toEqual([5, 5.05].map((w) => expect.closeTo(w, 9)));
    expect(widths(0.5)).toEqual([5, 5.05].map((w) => expect.closeTo(w, 9)));
    expect(widths(0.6)).toEqual([expect.closeTo(5, 9)]);
  });
});

describe('narrowPlaces, three holes about a point', () => {
  const about = (gaps: readonly number[]): Curve[][] => {
    // Three kites whose nearest corners are the corners of a triangle with these sides.
    const [a, b, c] = gaps;
    const x = (a * a + c * c - b * b) / (2 * a);
    const corners: Point[] = [
      [0, 0],
      [a, 0],
      [x, Math.sqrt(c * c - x * x)],
    ];
    const middle: Point = [(a + x) / 3, corners[2][1] / 3];
    return corners.map(([px, py]) => {
      const length = Math.hypot(px - middle[0], py - middle[1]);
      const [ux, uy] = [(px - middle[0]) / length, (py - middle[1]) / length];
      const at = (u: number, v: number): Point => [px + u * ux - v * uy, py + u * uy + v * ux];
      return polygon([at(0, 0), at(3, -1), at(6, 0), at(3, 1)]);
    });
  };
  const widths = (gaps: readonly number[]): number[] =>
    narrowPlaces(
      areaBoundary([
        polygon([
          [-50, -50],
          [50, -50],
          [50, 50],
          [-50, 50],
        ]),
        ...about(gaps),
      ]),
      2,
    )
      .map((n) => n.width)
      .sort();

  test('three as wide as each other, however narrow, are all there', () => {
    for (const w of [0.01, 0.05, 0.1, 0.5, 1.5]) {
      expect(widths([w, w, w]).length).toBe(3);
    }
  });

  test('the longest of three does not count where the others are beside it in a right angle', () => {
    expect(widths([0.5, 0.3, 0.4])).toEqual([expect.closeTo(0.3, 9), expect.closeTo(0.4, 9)]);
    expect(widths([0.9, 0.8, 0.7])).toHaveLength(3);
  });
});

describe('narrowPlaces on curves', () => {
  test('has the necks of fine polygons', () => {
    fc.assert(
      fc.property(area, (loops) => {
        const curves = loops.map(rounded);
        // 40 chords miss a quadratic by |P0 − 2 P1 + P2| / 4 / 1600, here under 0.004 mm.
        const fine = curves.map((loop) =>
          polygon(loop.flatMap((c) => Array.from({ length: 40 }, (_, i) => pointAt(c, i / 40)))),
        );
        const near = (n: Neck, m: Neck): boolean =>
          distance(n.at, m.at) < 0.3 && Math.abs(n.width - m.width) < 0.01;
        expectAmong(list(fine, 0.1, 5.98), curves, near);
        expectAmong(list(curves, 0.1, 5.98), fine, near);
      }),
      { numRuns: 30 },
    );
  });

  test('chords are square to both curves, with ends on them and an empty disc', () => {
    fc.assert(
      fc.property(area, (loops) => {
        const curves = loops.map(rounded);
        for (const n of narrowPlaces(areaBoundary(curves), 8)) {
          for (const [place, end] of [
            [n.fromPlace, n.from],
            [n.toPlace, n.to],
          ] as const) {
            const c = curves[place.loop][place.curve];
            expect(distance(pointAt(c, place.t), end)).toBe(0);
            const [x, y] = derivativeAt(c, place.t);
            const along = Math.abs(x * n.across[0] + y * n.across[1]) / Math.hypot(x, y);
            expect(along * n.width).toBeLessThan(1e-9);
          }
          for (const c of curves.flat()) {
            expect(nearestOnCurve(c, n.at).distance).toBeGreaterThan(n.width / 2 - 1e-6);
          }
        }
      }),
      { numRuns: 40 },
    );
  });

  test('direction, order and splitting of the curves do not count', () => {
    fc.assert(
      fc.property(area, uniformPart, (loops, t) => {
        const curves = loops.map(rounded);
        const other = curves
          .map((loop) => loop.flatMap((c) => [subCurve(c, 0, t), subCurve(c, t, 1)]))
          .map((loop) => loop.map(reverseCurve).reverse())
          .map((loop) => [...loop.slice(3), ...loop.slice(0, 3)])
          .reverse();
        expectSame(other, curves, [1, 0, 0, 1, 0, 0]);
      }),
      { numRuns: 30 },
    );
  });

  test('turned, mirrored and moved areas have the same necks', () => {
    const maps: Affine[] = [
      [0, 1, -1, 0, 0, 0],
      [-1, 0, 0, 1, 0, 0],
      [0.6, 0.8, -0.8, 0.6, 12.5, -700],
    ];
    fc.assert(
      fc.property(area, fc.constantFrom(...maps), (loops, m) => {
        const curves = loops.map(rounded);
        const moved = curves.map((loop) => loop.map((c): Curve => applyToCurve(m, c)));
        expectSame(moved, curves, m);
      }),
      { numRuns: 30 },
    );
  });
});

const uniformPart = fc.constantFrom(0.5, 0.3, 0.71);

const list = (curves: readonly Curve[][], rise: number, needed = 6, tolerance = 0.005): Neck[] =>
  narrowPlaces(areaBoundary(curves, { tolerance }), needed, { rise });

/** The same necks of two areas, the one the image of the other under a map. */
function expectSame(moved: readonly Curve[][], original: readonly Curve[][], m: Affine): void {
  const same =
    (map: Affine) =>
    (n: Neck, f: Neck): boolean => {
      const [p, q] = [applyToPoint(map, n.from), applyToPoint(map, n.to)];
      const off = distanceToSegment(f.from, p, q) + distanceToSegment(f.to, p, q);
      return off < 1e-5 && Math.abs(f.width - n.width) < 1e-7 && isAlike(n, f);
    };
  expectAmong(list(original, 0.03), moved, same(m));
  expectAmong(list(moved, 0.03), original, same(invertAffine(m) as Affine));
}

function isAlike(n: Neck, f: Neck): boolean {
  if ((n.effect === 'parts') !== (f.effect === 'parts')) return false;
  return n.side === null || (f.side !== null && Math.abs(n.side.area - f.side.area) < 1e-5);
}

/**
 * Whether each of some necks is among those of an area. Flattened otherwise, one that is hardly deeper than its
 * surroundings may be put together with its neighbour, or be none: so less deep ones count too, and in the end those of
 * much finer chords.
 */
function expectAmong(
  some: readonly Neck[],
  curves: readonly Curve[][],
  same: (n: Neck, m: Neck) => boolean,
): void {
  const all = list(curves, 0.01, 6.02);
  const missing = some.filter((n) => !all.some((m) => same(n, m)));
  if (missing.length === 0) return;
  const fine = list(curves, 0.0001, 6.02, 0.00001);
  expect(missing.filter((n) => !fine.some((m) => same(n, m)))).toEqual([]);
}
