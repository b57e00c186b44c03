import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Curve, derivativeAt, pointAt } from '../../src/geometry/curve.js';
import { refineMeeting } from '../../src/geometry/curve-meeting.js';
import { distance } from '../../src/geometry/point.js';
import { arcOf, curve, uniform } from './arbitrary-curves.js';

const inside = uniform(0.05, 0.95);

/** A curve moved so that its point at `tb` lies on `a` at `ta`. */
function through(a: Curve, ta: number, b: Curve, tb: number): Curve {
  const [p, q] = [pointAt(a, ta), pointAt(b, tb)];
  const shift = (r: readonly [number, number]) => [r[0] + p[0] - q[0], r[1] + p[1] - q[1]] as const;
  const from = shift(b.from);
  const to = shift(b.to);
  if (b.kind === 'line') return { ...b, from, to };
  if (b.kind === 'quadratic') return { ...b, from, to, control: shift(b.control) };
  if (b.kind === 'cubic') return { ...b, from, to, control1: shift(b.control1), control2: shift(b.control2) };
  return { ...b, from, to, centre: shift(b.centre) };
}

describe('refineMeeting', () => {
  test('finds a crossing again from a place beside it', () => {
    fc.assert(
      fc.property(curve, inside, curve, inside, (a, ta, b, tb) => {
        const crossing = through(a, ta, b, tb);
        const [da, db] = [derivativeAt(a, ta), derivativeAt(crossing, tb)];
        const [la, lb] = [Math.hypot(...da), Math.hypot(...db)];
        fc.pre(la > 5 && lb > 5 && Math.abs(da[0] * db[1] - da[1] * db[0]) > 0.2 * la * lb);
        const found = refineMeeting(a, ta + 0.004 / la, crossing, tb - 0.004 / lb);
        expect(found).not.toBeNull();
        expect(found?.gap).toBeLessThan(1e-11);
        expect(distance(found?.point ?? [0, 0], pointAt(a, found?.ta ?? 0))).toBeLessThan(1e-11);
      }),
    );
  });

  test('two circles that touch: the place is found to a rounding error, not to its root', () => {
    const a = arcOf([0, 0], 10, 10, 0, -1, 2);
    const outside = arcOf([15, 0], 5, 5, 0, 2, 2);
    const within = arcOf([6, 0], 4, 4, 0, -1, 2);
    for (const [b, tb] of [
      [outside, 0.572],
      [within, 0.502],
    ] as const) {
      const found = refineMeeting(a, 0.501, b, tb);
      expect(found?.gap).toBeLessThan(1e-13);
      expect(distance(found?.point ?? [0, 0], [10, 0])).toBeLessThan(1e-9);
    }
  });

  test('two circles that just miss: the nearest approach, with its gap', () => {
    const found = refineMeeting(
      arcOf([0, 0], 10, 10, 0, -1, 2),
      0.503,
      arcOf([15.003, 0], 5, 5, 0, 2, 2),
      0.574,
    );
    expect(found?.gap).toBeCloseTo(0.003, 11);
    expect(distance(found?.point ?? [0, 0], [10.0015, 0])).toBeLessThan(1e-7);
  });

  test('a curve that ends short of the other: the gap from that end', () => {
    const a: Curve = { kind: 'line', from: [0, 0], to: [0, 9.99] };
    const b: Curve = { kind: 'quadratic', from: [-10, 10], control: [0, 10], to: [10, 10] };
    const found = refineMeeting(a, 0.999, b, 0.5003);
    expect(found?.ta).toBe(1);
    expect(found?.gap).toBeCloseTo(0.01, 12);
    expect(found?.tb).toBeCloseTo(0.5, 9);
  });

  test('coinciding curves: stays where it is', () => {
    const a = arcOf([0, 0], 10, 10, 0, 0, 2);
    const b = arcOf([0, 0], 10, 10, 0, 0.5, 2);
    const found = refineMeeting(a, 0.5, b, 0.2501);
    expect(found?.gap).toBeLessThan(1e-12);
    expect(Math.abs((found?.ta ?? 0) - 0.5)).toBeLessThan(1e-3);
  });

  test('null when the crossing is farther off than the reach', () => {
    const a: Curve = { kind: 'line', from: [0, 0], to: [100, 1] };
    const b: Curve = { kind: 'line', from: [0, 1], to: [100, 0] };
    expect(refineMeeting(a, 0.45, b, 0.45)).toBeNull();
    expect(refineMeeting(a, 0.45, b, 0.45, 10)?.ta).toBeCloseTo(0.5, 12);
    expect(refineMeeting(a, Number.NaN, b, 0.45)).toBeNull();
  });

  test('never ends farther apart than it started', () => {
    fc.assert(
      fc.property(curve, inside, curve, inside, uniform(-1e-3, 1e-3), (a, ta, b, tb, d) => {
        const near = through(a, ta, b, tb);
        const start = distance(pointAt(a, ta + d), pointAt(near, tb));
        const found = refineMeeting(a, ta + d, near, tb);
        fc.pre(found !== null);
        expect(found?.gap).toBeLessThanOrEqual(start + 1e-12);
        expect(found?.ta).toBeGreaterThanOrEqual(0);
        expect(found?.tb).toBeLessThanOrEqual(1);
      }),
    );
  });
});
