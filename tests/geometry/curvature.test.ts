import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ellipseArcs } from '../../src/geometry/arc.js';
import { curvatureAt, radiusAt, secondDerivativeAt, tightestTurn } from '../../src/geometry/curvature.js';
import { type Curve, derivativeAt } from '../../src/geometry/curve.js';
import { curve, uniform } from './arbitrary-curves.js';

describe('curvature', () => {
  test('the second derivative is the slope of the first', () => {
    fc.assert(
      fc.property(curve, uniform(0.1, 0.9), (c, t) => {
        const h = 1e-4;
        const [a, b] = [derivativeAt(c, t - h), derivativeAt(c, t + h)];
        const second = secondDerivativeAt(c, t);
        for (const k of [0, 1] as const) {
          expect((b[k] - a[k]) / (2 * h)).toBeCloseTo(second[k], 1);
        }
      }),
    );
  });

  test('circle, ellipse, parabola, line', () => {
    const [quarter] = ellipseArcs([0, 0], 8, 8);
    expect(curvatureAt(quarter, 0.3)).toBeCloseTo(1 / 8, 14);
    const [, second] = ellipseArcs([3, 3], 6, 2, 0.4);
    expect(tightestTurn(second)).toEqual({ t: 1, radius: expect.closeTo(4 / 6, 12), turn: 1 });
    const parabola: Curve = { kind: 'quadratic', from: [-3, 9], control: [0, -9], to: [3, 9] };
    const turn = tightestTurn(parabola);
    expect([turn.t, turn.radius, turn.turn]).toEqual([0.5, 0.5, 1]);
    expect(tightestTurn(parabola, 0.5, 1, -1).radius).toBe(Number.POSITIVE_INFINITY);
    expect(radiusAt({ kind: 'line', from: [0, 0], to: [1, 1] }, 0.5)).toBe(Number.POSITIVE_INFINITY);
  });

  test('no sample turns tighter than the tightest turn', () => {
    fc.assert(
      fc.property(curve, fc.constantFrom(-1, 0, 1), (c, sense) => {
        // Ends with a vanishing derivative do not count, so samples beside them may turn tighter.
        fc.pre([0, 1].every((t) => Math.hypot(...derivativeAt(c, t)) > 1e-2));
        const best = tightestTurn(c, 0, 1, sense as -1 | 0 | 1);
        for (let i = 4; i <= 396; i++) {
          if (Math.hypot(...derivativeAt(c, i / 400)) < 1e-3) continue;
          const k = curvatureAt(c, i / 400);
          // A radius of a kilometre is a straight line and rounding.
          if (!(Math.abs(k) > 1e-6) || (sense !== 0 && Math.sign(k) !== sense)) continue;
          expect(1 / Math.abs(k)).toBeGreaterThanOrEqual(best.radius * (1 - 1e-6) - 1e-9);
        }
      }),
      { numRuns: 300 },
    );
  });

  test('a cusp has radius 0', () => {
    const c: Curve = {
      kind: 'cubic',
      from: [1, -1],
      control1: [-1 / 3, 1],
      control2: [-1 / 3, -1],
      to: [1, 1],
    };
    expect(tightestTurn(c).radius).toBeLessThan(1e-9);
    expect(tightestTurn(c).t).toBeCloseTo(0.5, 6);
  });
});
