import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ellipseArcs } from '../../src/geometry/arc.js';
import { type Curve, pointAt, reverseCurve } from '../../src/geometry/curve.js';
import { flattenParameters, flattenPoints, flattenRoom, MAX_CHORDS } from '../../src/geometry/flatten.js';
import { distanceToSegment } from '../../src/geometry/point.js';
import { arcOf, curve, point, uniform } from './arbitrary-curves.js';

const tolerance = fc.constantFrom(0.001, 0.005, 0.05, 1);

describe('flattenParameters', () => {
  test('runs from 0 to 1, and no chord is farther from the curve than the tolerance', () => {
    fc.assert(
      fc.property(curve, tolerance, (c, limit) => {
        const t = flattenParameters(c, limit);
        expect([t[0], t[t.length - 1]]).toEqual([0, 1]);
        for (let i = 1; i < t.length; i++) {
          expect(t[i]).toBeGreaterThan(t[i - 1]);
          const [a, b] = [pointAt(c, t[i - 1]), pointAt(c, t[i])];
          for (let k = 1; k < 8; k++) {
            const p = pointAt(c, t[i - 1] + ((t[i] - t[i - 1]) * k) / 8);
            expect(distanceToSegment(p, a, b)).toBeLessThanOrEqual(limit * (1 + 1e-6));
          }
        }
      }),
    );
  });

  test('the reversed curve gives 1 − t exactly, and the same points', () => {
    fc.assert(
      fc.property(curve, tolerance, (c, limit) => {
        const t = flattenParameters(c, limit);
        const back = reverseCurve(c);
        const s = flattenParameters(back, limit);
        expect([...s].reverse()).toEqual([...t].map((v) => 1 - v));
        const points = flattenPoints(c, t, limit);
        const mirrored = flattenPoints(back, s, limit);
        const n = t.length;
        for (let i = 0; i < n; i++) {
          expect(mirrored[2 * i]).toBe(points[2 * (n - 1 - i)]);
          expect(mirrored[2 * i + 1]).toBe(points[2 * (n - 1 - i) + 1]);
        }
      }),
    );
  });

  test('room that was used before leaves no trace', () => {
    fc.assert(
      fc.property(fc.array(curve, { maxLength: 8 }), tolerance, (curves, limit) => {
        const room = flattenRoom();
        for (const c of curves)
          expect(flattenParameters(c, limit, room)).toEqual(flattenParameters(c, limit));
      }),
    );
  });

  test('the points lie on the curve at the parameters', () => {
    fc.assert(
      fc.property(curve, (c) => {
        const t = flattenParameters(c, 0.005);
        const xy = flattenPoints(c, t, 0.005);
        t.forEach((v, i) => {
          const [x, y] = pointAt(c, v);
          expect(Math.hypot(xy[2 * i] - x, xy[2 * i + 1] - y)).toBeLessThan(1e-9);
        });
      }),
    );
  });

  test('pieces of one circle share their interior points, bit for bit', () => {
    const angle = uniform(-7, 7);
    fc.assert(
      fc.property(point, uniform(0.5, 200), angle, angle, (centre, r, s, turned) => {
        const whole = new Set<string>();
        for (const start of [0.1, 3.1]) collect(arcOf(centre, r, r, 0, start, 3.4), whole, true);
        const piece = new Set<string>();
        collect(arcOf(centre, r, r, turned, s, 2.5), piece, true);
        for (const key of piece) expect(whole).toContain(key);
        expect(piece.size).toBeGreaterThan(2);
      }),
    );
    function collect(c: Curve, into: Set<string>, inner = false): void {
      const xy = flattenPoints(c, flattenParameters(c, 0.005), 0.005);
      for (let i = inner ? 2 : 0; i < xy.length - (inner ? 2 : 0); i += 2) into.add(`${xy[i]} ${xy[i + 1]}`);
    }
  });

  test('a straight curve is one chord; one without extent too', () => {
    const straight: Curve = { kind: 'cubic', from: [0, 0], control1: [1, 1], control2: [8, 8], to: [9, 9] };
    const spot: Curve = { kind: 'quadratic', from: [3, 3], control: [3, 3], to: [3, 3] };
    const flat: Curve = { ...arcOf([5, 5], 1, 0.5, 0, 0, 1), rx: 0, ry: 0 };
    for (const c of [straight, spot, flat]) expect([...flattenParameters(c, 0.005)]).toEqual([0, 1]);
  });

  test('an arc flattened to a line keeps its turning points', () => {
    const c: Curve = { ...arcOf([0, 0], 10, 5, 0, 0.3, 4), ry: 0 };
    const xs = [...flattenParameters(c, 0.005)].map((t) => pointAt(c, t)[0]);
    expect(Math.min(...xs)).toBeCloseTo(-10, 12);
  });

  test('the number of chords is bounded, and grows with the root of the tolerance', () => {
    const big: Curve = {
      kind: 'cubic',
      from: [0, 0],
      control1: [1e4, 9e3],
      control2: [-1e4, 9e3],
      to: [0, 1],
    };
    expect(flattenParameters(big, 1e-12).length).toBeLessThanOrEqual(MAX_CHORDS + 1);
    expect(flattenParameters(arcOf([0, 0], 1e4, 1e4, 0, 0, 6), 1e-13).length).toBeLessThanOrEqual(
      MAX_CHORDS + 1,
    );
    const [coarse, fine] = [0.04, 0.01].map((limit) => flattenParameters(big, limit).length);
    expect(fine / coarse).toBeCloseTo(2, 1);
  });

  test('a circle takes hardly more chords than the closed form of its sagitta, the same in every quarter', () => {
    const r = 100;
    for (const limit of [0.5, 0.05, 0.005]) {
      const needed = Math.PI / Math.acos(1 - limit / r);
      const got = ellipseArcs([0, 0], r, r).reduce((n, c) => n + flattenParameters(c, limit).length - 1, 0);
      expect(got).toBeGreaterThanOrEqual(needed);
      expect(got).toBeLessThanOrEqual(1.16 * needed + 8);
      const quarter = flattenParameters(arcOf([0, 0], r, r, 0, 0, Math.PI / 2), limit);
      expect(4 * (quarter.length - 1)).toBe(got);
    }
  });

  test('a curve that speeds up along itself takes no chords for that', () => {
    // Nearly straight: the second derivative runs along it.
    const control1 = [1, 0.02] as const;
    const control2 = [30, 0.02] as const;
    const fast: Curve = { kind: 'cubic', from: [0, 0], control1, control2, to: [100, 0] };
    expect(flattenParameters(fast, 0.001).length - 1).toBeLessThanOrEqual(12);
  });
});
