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

describe('narrowPlaces on curves', () => {
  test('has the necks of fine polygons, but for shallow ones', () => {
    fc.assert(
      fc.property(area, (loops) => {
        const curves = loops.map(rounded);
        // 40 chords miss a quadratic by |P0 − 2 P1 + P2| / 4 / 1600, here under 0.004 mm.
        const fine = curves.map((loop) =>
          polygon(loop.flatMap((c) => Array.from({ length: 40 }, (_, i) => pointAt(c, i / 40)))),
        );
        const list = (of: readonly Curve[][], rise: number, width: number): Neck[] =>
          narrowPlaces(areaBoundary(of), width, { rise });
        const near = (some: readonly Neck[], all: readonly Neck[]): boolean =>
          some.every(
            (n) =>
              n.depth < 0.1 ||
              all.some((m) => distance(n.at, m.at) < 0.8 && Math.abs(n.width - m.width) < 0.01),
          );
        expect(near(list(fine, 0.1, 5.98), list(curves, 0.02, 6))).toBe(true);
        expect(near(list(curves, 0.1, 5.98), list(fine, 0.02, 6))).toBe(true);
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

/**
 * The same necks of two areas, the one the image of the other under a map. Flattened otherwise, a neck that lies about
 * one `rise` below its surroundings may be put together with its neighbour in one and not in the other, so each
 * list of deep necks must be among the other's list of deep and less deep ones.
 */
function expectSame(moved: readonly Curve[][], original: readonly Curve[][], m: Affine): void {
  const back = invertAffine(m) as Affine;
  const list = (curves: readonly Curve[][], rise: number): Neck[] =>
    narrowPlaces(areaBoundary(curves), 6, { rise });
  expectAmong(list(original, 0.03), list(moved, 0.01), m);
  expectAmong(list(moved, 0.03), list(original, 0.01), back);
}

function expectAmong(some: readonly Neck[], all: readonly Neck[], m: Affine): void {
  for (const n of some.filter(({ depth }) => depth > 0.03)) {
    const [p, q] = [applyToPoint(m, n.from), applyToPoint(m, n.to)];
    const same = all.filter(
      (f) =>
        distanceToSegment(f.from, p, q) + distanceToSegment(f.to, p, q) < 1e-5 &&
        Math.abs(f.width - n.width) < 1e-7,
    );
    expect(same.length).toBe(1);
    expect(same[0].effect === 'parts').toBe(n.effect === 'parts');
    if (n.side !== null) expect(same[0].side?.area).toBeCloseTo(n.side.area, 6);
  }
}
