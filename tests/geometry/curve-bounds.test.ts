import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ellipseArcs } from '../../src/geometry/arc.js';
import { pointAt } from '../../src/geometry/curve.js';
import { curveBounds, runBounds } from '../../src/geometry/curve-bounds.js';
import { curve } from './arbitrary-curves.js';

describe('curveBounds', () => {
  test('is the smallest box of the curve', () => {
    fc.assert(
      fc.property(curve, (c) => {
        const [x0, y0, x1, y1] = curveBounds(c);
        let [a0, b0, a1, b1] = [x1, y1, x0, y0];
        for (let i = 0; i <= 2000; i++) {
          const [x, y] = pointAt(c, i / 2000);
          a0 = Math.min(a0, x);
          b0 = Math.min(b0, y);
          a1 = Math.max(a1, x);
          b1 = Math.max(b1, y);
        }
        // Samples never leave the box, and come near each side (second order in the step of 1/2000).
        const slack = 1e-9;
        expect(a0).toBeGreaterThanOrEqual(x0 - slack);
        expect(b0).toBeGreaterThanOrEqual(y0 - slack);
        expect(a1).toBeLessThanOrEqual(x1 + slack);
        expect(b1).toBeLessThanOrEqual(y1 + slack);
        const room = 2e-3;
        expect(a0 - x0).toBeLessThan(room);
        expect(b0 - y0).toBeLessThan(room);
        expect(x1 - a1).toBeLessThan(room);
        expect(y1 - b1).toBeLessThan(room);
      }),
    );
  });

  test('part of a parabola, before and after its vertex', () => {
    const c = { kind: 'quadratic', from: [0, 0], control: [5, 10], to: [10, 0] } as const;
    expect(curveBounds(c)).toEqual([0, 0, 10, 5]);
    expect(curveBounds(c, 0, 0.5)).toEqual([0, 0, 5, 5]);
    expect(curveBounds(c, 0.25, 0)).toEqual([0, 0, 2.5, 3.75]);
  });

  test('a turned ellipse reaches √(a² cos² + b² sin²)', () => {
    const turn = 0.7;
    const reach = Math.hypot(30 * Math.cos(turn), 10 * Math.sin(turn));
    const [x0, , x1] = runBounds(ellipseArcs([100, 50], 30, 10, turn));
    expect(x0).toBeCloseTo(100 - reach, 12);
    expect(x1).toBeCloseTo(100 + reach, 12);
  });
});
