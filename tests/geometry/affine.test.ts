import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Affine,
  applyToCurve,
  applyToPoint,
  IDENTITY,
  invertAffine,
  multiplyAffine,
} from '../../src/geometry/affine.js';
import { ellipseArcs } from '../../src/geometry/arc.js';
import { type ArcCurve, arcPoint, pointAt } from '../../src/geometry/curve.js';
import { distance } from '../../src/geometry/point.js';
import { arc, curve, point, uniform } from './arbitrary-curves.js';

const factor = uniform(-3, 3);
const affine: fc.Arbitrary<Affine> = fc.tuple(factor, factor, factor, factor, factor, factor);

describe('affine maps', () => {
  test('a curve maps point by point, with its parameter', () => {
    fc.assert(
      fc.property(affine, curve, uniform(0, 1), (m, c, t) => {
        expect(distance(pointAt(applyToCurve(m, c), t), applyToPoint(m, pointAt(c, t)))).toBeLessThan(1e-9);
      }),
    );
  });

  test('an arc stays one ellipse, also under a reflection or a map that flattens', () => {
    const flat: Affine = [2, 1, 4, 2, 0, 0];
    fc.assert(
      fc.property(fc.oneof(affine, fc.constant(flat)), arc, (m, c) => {
        const mapped = applyToCurve(m, c) as ArcCurve;
        for (const t of [0, 0.3, 1]) {
          const there = arcPoint(mapped, mapped.start + t * mapped.sweep);
          expect(distance(there, applyToPoint(m, pointAt(c, t)))).toBeLessThan(1e-9);
        }
        const determinant = m[0] * m[3] - m[1] * m[2];
        if (Math.abs(determinant) > 1e-9) expect(mapped.sweep > 0).toBe(c.sweep > 0 === determinant > 0);
      }),
    );
  });

  test('a turned and evenly scaled circle stays a circle of the exact radius', () => {
    const [c] = ellipseArcs([1, 2], 10, 10);
    const mapped = applyToCurve([0, 2, -2, 0, 5, 5], c) as ArcCurve;
    expect([mapped.rx, mapped.ry, mapped.rotation]).toEqual([20, 20, 0]);
    expect(mapped.centre).toEqual([1, 7]);
  });

  test('multiplying applies the second map first; the inverse undoes', () => {
    fc.assert(
      fc.property(affine, affine, point, (m, n, p) => {
        const both = applyToPoint(multiplyAffine(m, n), p);
        expect(distance(both, applyToPoint(m, applyToPoint(n, p)))).toBeLessThan(1e-9);
        const back = invertAffine(m);
        fc.pre(back !== null && Math.abs(m[0] * m[3] - m[1] * m[2]) > 1e-2);
        expect(distance(applyToPoint(back as Affine, applyToPoint(m, p)), p)).toBeLessThan(1e-8);
      }),
    );
    expect(multiplyAffine(IDENTITY, [1, 2, 3, 4, 5, 6])).toEqual([1, 2, 3, 4, 5, 6]);
    expect(invertAffine([1, 2, 2, 4, 0, 0])).toBeNull();
  });
});
