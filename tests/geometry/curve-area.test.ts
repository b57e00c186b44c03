import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ellipseArcs } from '../../src/geometry/arc.js';
import { type Curve, pointAt, reverseCurve, subCurve } from '../../src/geometry/curve.js';
import { curveArea, polygonArea } from '../../src/geometry/curve-area.js';
import type { Point } from '../../src/geometry/point.js';
import { curve, point, uniform } from './arbitrary-curves.js';

const part = fc.tuple(uniform(0, 1), uniform(0, 1));

describe('curveArea', () => {
  test('agrees with a fine polygon on any part of any curve', () => {
    fc.assert(
      fc.property(curve, part, point, (c, [t0, t1], origin) => {
        const n = 4000;
        const points: Point[] = [origin];
        for (let i = 0; i <= n; i++) points.push(pointAt(c, t0 + ((t1 - t0) * i) / n));
        // A polygon of n chords misses at most the length times the deviation of a chord, here under 1e-5 × size².
        expect(Math.abs(curveArea(c, t0, t1, origin) - polygonArea(points))).toBeLessThan(0.5);
      }),
    );
  });

  test('changes its sign with the direction and adds up over parts', () => {
    fc.assert(
      fc.property(curve, uniform(0.01, 0.99), (c, t) => {
        const size = 1e6;
        expect(Math.abs(curveArea(c) + curveArea(reverseCurve(c)))).toBeLessThan(1e-13 * size);
        expect(curveArea(c, 1, 0)).toBe(-curveArea(c));
        expect(Math.abs(curveArea(c, 0, t) + curveArea(c, t, 1) - curveArea(c))).toBeLessThan(1e-12 * size);
        expect(Math.abs(curveArea(subCurve(c, 0, t)) - curveArea(c, 0, t))).toBeLessThan(1e-12 * size);
      }),
    );
  });

  test('a circle far from the origin, measured from near it: π r² to rounding of the coordinates', () => {
    for (const centre of [
      [0, 0],
      [9000, -7000],
      [16000, 16000],
    ] as const) {
      const area = ellipseArcs(centre, 3, 3).reduce((sum, c) => sum + curveArea(c, 0, 1, centre), 0);
      expect(Math.abs(area / (9 * Math.PI) - 1)).toBeLessThan(1e-12);
    }
  });

  test('is positive for a loop that turns from +x towards +y', () => {
    expect(
      polygonArea([
        [0, 0],
        [2, 0],
        [2, 1],
        [0, 1],
      ]),
    ).toBe(2);
    expect(curveArea(ellipseArcs([0, 0], 2, 1)[0])).toBeCloseTo((2 * Math.PI) / 4, 12);
  });

  test('the drawn ends of an arc count', () => {
    const [quarter] = ellipseArcs([0, 0], 10, 10);
    const moved: Curve = { ...quarter, from: [10, -1] };
    expect(curveArea(moved) - curveArea(quarter)).toBeCloseTo(5, 12);
  });
});
