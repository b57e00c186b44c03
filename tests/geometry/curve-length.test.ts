import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ellipseArcs } from '../../src/geometry/arc.js';
import { type Curve, pointAt } from '../../src/geometry/curve.js';
import { curveLength } from '../../src/geometry/curve-length.js';
import { distance } from '../../src/geometry/point.js';
import { curve, uniform } from './arbitrary-curves.js';

describe('curveLength', () => {
  test('lies between the chord length and the chord length plus its second-order error', () => {
    fc.assert(
      fc.property(curve, (c) => {
        let chords = 0;
        for (let i = 0; i < 3000; i++) chords += distance(pointAt(c, i / 3000), pointAt(c, (i + 1) / 3000));
        const length = curveLength(c);
        expect(length).toBeGreaterThanOrEqual(chords * (1 - 1e-9) - 1e-9);
        expect(length).toBeLessThanOrEqual(chords * (1 + 1e-4) + 1e-3);
      }),
    );
  });

  test('parts add up, either way round', () => {
    fc.assert(
      fc.property(curve, uniform(0, 1), (c, t) => {
        const whole = curveLength(c);
        expect(Math.abs(curveLength(c, 0, t) + curveLength(c, 1, t) - whole)).toBeLessThanOrEqual(
          2e-10 * whole,
        );
      }),
    );
  });

  test('parabola: closed form', () => {
    // y = x² from 0 to 1 as a quadratic Bézier: √5/2 + asinh(2)/4.
    const c: Curve = { kind: 'quadratic', from: [0, 0], control: [0.5, 0], to: [1, 1] };
    const exact = Math.sqrt(5) / 2 + Math.asinh(2) / 4;
    expect(Math.abs(curveLength(c) / exact - 1)).toBeLessThan(1e-10);
  });

  test('a cusp: the semicubical parabola (t², t³) has length (13√13 − 8)/27', () => {
    const c: Curve = { kind: 'cubic', from: [0, 0], control1: [0, 0], control2: [1 / 3, 0], to: [1, 1] };
    const exact = (13 * Math.sqrt(13) - 8) / 27;
    expect(Math.abs(curveLength(c) / exact - 1)).toBeLessThan(1e-10);
    // Through the cusp: from (1, −1) to (1, 1), t in [−1, 1].
    const both: Curve = {
      kind: 'cubic',
      from: [1, -1],
      control1: [-1 / 3, 1],
      control2: [-1 / 3, -1],
      to: [1, 1],
    };
    expect(Math.abs(curveLength(both) / (2 * exact) - 1)).toBeLessThan(1e-10);
  });

  test('a line walked to and fro', () => {
    const c: Curve = { kind: 'quadratic', from: [0, 0], control: [8, 0], to: [0, 0] };
    expect(curveLength(c)).toBeCloseTo(8, 9);
  });

  test('half a circle, and an ellipse against its elliptic integral', () => {
    const circle = ellipseArcs([5, 5], 7, 7);
    expect(curveLength(circle[0]) + curveLength(circle[1])).toBeCloseTo(7 * Math.PI, 12);
    // 4 a E(e) for a = 2, b = 1: E(√3/2) = 1.211056027568 (Abramowitz and Stegun, table 17.1 and 17.2).
    const ellipse = ellipseArcs([0, 0], 2, 1).reduce((sum, c) => sum + curveLength(c), 0);
    expect(Math.abs(ellipse / (8 * 1.211056027568459) - 1)).toBeLessThan(1e-10);
  });
});
