import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ellipseArcs } from '../../src/geometry/arc.js';
import { type Curve, derivativeAt, pointAt } from '../../src/geometry/curve.js';
import { nearestOnCurve } from '../../src/geometry/nearest-on-curve.js';
import { distance } from '../../src/geometry/point.js';
import { curve, point, uniform } from './arbitrary-curves.js';

describe('nearestOnCurve', () => {
  test('no sample of the curve is nearer, and the way is perpendicular inside', () => {
    fc.assert(
      fc.property(curve, point, (c, p) => {
        const found = nearestOnCurve(c, p);
        expect(found.point).toEqual(pointAt(c, found.t));
        expect(found.distance).toBe(distance(found.point, p));
        for (let i = 0; i <= 500; i++) {
          expect(distance(pointAt(c, i / 500), p)).toBeGreaterThanOrEqual(found.distance - 1e-9);
        }
        if (found.t > 0 && found.t < 1) {
          const [x, y] = derivativeAt(c, found.t);
          const along = (found.point[0] - p[0]) * x + (found.point[1] - p[1]) * y;
          expect(Math.abs(along)).toBeLessThan(1e-6 * (1 + Math.hypot(x, y) * found.distance));
        }
      }),
      { numRuns: 300 },
    );
  });

  test('a range of parameters, in either order', () => {
    fc.assert(
      fc.property(curve, point, uniform(0, 1), (c, p, t) => {
        const whole = nearestOnCurve(c, p);
        const parts = [nearestOnCurve(c, p, 0, t), nearestOnCurve(c, p, 1, t)];
        expect(parts[0].t).toBeLessThanOrEqual(t);
        expect(parts[1].t).toBeGreaterThanOrEqual(t);
        expect(Math.min(parts[0].distance, parts[1].distance)).toBeCloseTo(whole.distance, 9);
      }),
    );
  });

  test('points on the curve are found to a rounding error', () => {
    fc.assert(
      fc.property(curve, uniform(0, 1), (c, t) => {
        expect(nearestOnCurve(c, pointAt(c, t)).distance).toBeLessThan(1e-7);
      }),
    );
  });

  test('centre of a circle, and of curvature of a parabola', () => {
    const [quarter] = ellipseArcs([0, 0], 5, 5);
    expect(nearestOnCurve(quarter, [0, 0])).toEqual({ t: 0, point: [5, 0], distance: 5 });
    const parabola: Curve = { kind: 'quadratic', from: [-1, 1], control: [0, -1], to: [1, 1] };
    const found = nearestOnCurve(parabola, [0, 0.5]);
    expect(found.distance).toBeCloseTo(0.5, 12);
    expect(found.t).toBeCloseTo(0.5, 3);
  });
});
