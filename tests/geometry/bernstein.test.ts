import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  bernsteinFromPowers,
  bernsteinRoots,
  evaluateBernstein,
  multiplyBernstein,
} from '../../src/geometry/bernstein.js';
import { uniform } from './arbitrary-curves.js';

describe('polynomials in Bernstein form', () => {
  test('products and powers evaluate as they should', () => {
    const coefficients = fc.array(uniform(-5, 5), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(coefficients, coefficients, uniform(0, 1), (a, b, t) => {
        const product = evaluateBernstein(multiplyBernstein(a, b), t);
        expect(product).toBeCloseTo(evaluateBernstein(a, t) * evaluateBernstein(b, t), 9);
        const v = 2 * t - 1;
        const direct = a.reduceRight((sum, c) => sum * v + c, 0);
        expect(evaluateBernstein(bernsteinFromPowers(a), t)).toBeCloseTo(direct, 9);
      }),
    );
  });

  test('all roots are found, each once', () => {
    const roots = fc.uniqueArray(fc.integer({ min: 1, max: 99 }), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(roots, (hundredths) => {
        const sorted = hundredths.map((k) => k / 100).sort((a, b) => a - b);
        const polynomial = sorted.reduce<number[]>((b, r) => multiplyBernstein(b, [-r, 1 - r]), [1]);
        const found = bernsteinRoots(polynomial);
        expect(found.length).toBe(sorted.length);
        sorted.forEach((r, i) => {
          expect(found[i]).toBeCloseTo(r, 7);
        });
      }),
    );
  });

  test('no root, a double root, nothing at all', () => {
    expect(bernsteinRoots([1, 0.5, 1])).toEqual([]);
    expect(bernsteinRoots([0, 0, 0])).toEqual([]);
    const double = multiplyBernstein([-0.3, 0.7], [-0.3, 0.7]);
    for (const r of bernsteinRoots(double)) expect(r).toBeCloseTo(0.3, 6);
    expect(bernsteinRoots(double).length).toBeGreaterThan(0);
  });
});
