import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ellipseArcs } from '../../src/geometry/arc.js';
import type { Curve } from '../../src/geometry/curve.js';
import { curveArea } from '../../src/geometry/curve-area.js';
import { curveLength } from '../../src/geometry/curve-length.js';
import type { Point } from '../../src/geometry/point.js';

// Reference: exact rational arithmetic on polynomials (Green's theorem integrated term by term in BigInt), and
// the trapezoid rule on periodic integrands, which converges faster than any power (Trefethen and Weideman,
// SIAM Review 56, 2014).

const BINOMIAL: Record<number, readonly number[]> = { 1: [1, 1], 2: [1, 2, 1], 3: [1, 3, 3, 1] };

/** Power coefficients of a Bézier coordinate with integer control values. */
function powers(controls: readonly bigint[]): bigint[] {
  const n = controls.length - 1;
  return Array.from({ length: n + 1 }, (_, k) => {
    let sum = 0n;
    for (let i = 0; i <= k; i++) {
      const sign = (k - i) % 2 === 0 ? 1n : -1n;
      sum += sign * BigInt(k === 0 ? 1 : (BINOMIAL[k]?.[i] ?? 0)) * controls[i];
    }
    return BigInt(BINOMIAL[n][k]) * sum;
  });
}

/** 60 · ½∫(x y′ − y x′) over [0, 1]: all denominators up to degree 6 divide 60. */
function exactArea(points: readonly (readonly [bigint, bigint])[]): bigint {
  const x = powers(points.map((p) => p[0]));
  const y = powers(points.map((p) => p[1]));
  let sum = 0n;
  for (let i = 0; i < x.length; i++) {
    for (let j = 1; j < y.length; j++) {
      const factor = BigInt(j) * (x[i] * y[j] - y[i] * x[j]);
      sum += (factor * 60n) / BigInt(i + j);
    }
  }
  return sum / 2n;
}

const whole = fc.integer({ min: -1000, max: 1000 });
const corner = fc.tuple(whole, whole);

function bezier(points: readonly Point[]): Curve {
  const [a, b, c, d] = points;
  if (points.length === 2) return { kind: 'line', from: a, to: b };
  if (points.length === 3) return { kind: 'quadratic', from: a, control: b, to: c };
  return { kind: 'cubic', from: a, control1: b, control2: c, to: d };
}

describe('areas', () => {
  test('Béziers with whole control points, against exact rational integration', () => {
    fc.assert(
      fc.property(fc.array(corner, { minLength: 2, maxLength: 4 }), (points) => {
        const exact = Number(exactArea(points.map(([x, y]) => [BigInt(x), BigInt(y)]))) / 60;
        expect(Math.abs(curveArea(bezier(points)) - exact)).toBeLessThan(1e-9);
      }),
    );
  });

  test('an ellipse at the edge of the grid: π a b', () => {
    for (const centre of [
      [0, 0],
      [16000, -16000],
    ] as const) {
      const area = ellipseArcs(centre, 8, 3, 0.3).reduce((sum, c) => sum + curveArea(c, 0, 1, centre), 0);
      expect(Math.abs(area / (24 * Math.PI) - 1)).toBeLessThan(1e-12);
    }
  });
});

describe('lengths', () => {
  test('ellipses, against the periodic trapezoid rule', () => {
    for (const ratio of [0.9, 0.5, 0.1]) {
      const n = 2000;
      let sum = 0;
      for (let i = 0; i < n; i++) {
        const angle = (2 * Math.PI * i) / n;
        sum += Math.hypot(10 * Math.sin(angle), 10 * ratio * Math.cos(angle));
      }
      const exact = (sum * 2 * Math.PI) / n;
      const length = ellipseArcs([0, 0], 10, 10 * ratio).reduce((all, c) => all + curveLength(c), 0);
      expect(Math.abs(length / exact - 1)).toBeLessThan(1e-10);
    }
  });

  test('quadratics, against the closed form', () => {
    fc.assert(
      fc.property(corner, corner, corner, (from, control, to) => {
        const c: Curve = { kind: 'quadratic', from, control, to };
        // ∫ √(A t² + B t + C) dt (Gradshteyn and Ryzhik 2.262), written for B′ = 2 (d + t e).
        const d = [control[0] - from[0], control[1] - from[1]];
        const e = [from[0] - 2 * control[0] + to[0], from[1] - 2 * control[1] + to[1]];
        const [a, b, k] = [e[0] ** 2 + e[1] ** 2, 2 * (d[0] * e[0] + d[1] * e[1]), d[0] ** 2 + d[1] ** 2];
        const area = 4 * a * k - b * b;
        fc.pre(a > 0 && area > 1e-3 * a * k && k > 0);
        const at = (t: number) => {
          const root = Math.sqrt(a * t * t + b * t + k);
          return (
            ((2 * a * t + b) * root) / (4 * a) +
            (area / (8 * a ** 1.5)) * Math.asinh((2 * a * t + b) / Math.sqrt(area))
          );
        };
        expect(Math.abs(curveLength(c) / (2 * (at(1) - at(0))) - 1)).toBeLessThan(1e-9);
      }),
    );
  });
});
