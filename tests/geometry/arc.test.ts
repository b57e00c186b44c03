import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arcFromEndpoints, ellipseArcs, makeArc } from '../../src/geometry/arc.js';
import { type ArcCurve, arcPoint, pointAt, reverseCurve } from '../../src/geometry/curve.js';
import { distance } from '../../src/geometry/point.js';
import { arc, point, uniform } from './arbitrary-curves.js';

describe('arcFromEndpoints', () => {
  test('finds any arc again from its ends, radii, rotation and flags', () => {
    fc.assert(
      fc.property(arc, (c) => {
        // Near half a turn the centre is ill-conditioned: rounding moves it by its root.
        fc.pre(Math.abs(Math.abs(c.sweep) - Math.PI) > 0.05);
        const large = Math.abs(c.sweep) > Math.PI;
        const degrees = (c.rotation * 180) / Math.PI;
        const found = arcFromEndpoints(c.from, c.rx, c.ry, degrees, large, c.sweep > 0, c.to) as ArcCurve;
        const slack = 1e-7 * (1 + Math.max(c.rx / c.ry, c.ry / c.rx));
        for (const t of [0.2, 0.5, 0.9])
          expect(distance(pointAt(found, t), pointAt(c, t))).toBeLessThan(slack);
      }),
    );
  });

  test('the formula passes through the drawn ends', () => {
    const radius = uniform(-200, 200).filter((r) => Math.abs(r) > 1);
    fc.assert(
      fc.property(
        point,
        point,
        radius,
        radius,
        fc.boolean(),
        fc.boolean(),
        (from, to, rx, ry, large, sweep) => {
          fc.pre(distance(from, to) > 0.1);
          const c = arcFromEndpoints(from, rx, ry, 30, large, sweep, to) as ArcCurve;
          expect(distance(arcPoint(c, c.start), from)).toBeLessThan(1e-8);
          expect(distance(arcPoint(c, c.start + c.sweep), to)).toBeLessThan(1e-8);
          expect(c.sweep > 0).toBe(sweep);
          expect(Math.abs(c.sweep) <= 2 * Math.PI).toBe(true);
        },
      ),
    );
  });

  test('out-of-range rules: radii by absolute value, scaled up, zero radius, equal ends', () => {
    const half = arcFromEndpoints([0, 0], -1, 2, 0, false, true, [10, 0]) as ArcCurve;
    expect([half.rx, half.ry]).toEqual([5, 10]);
    expect(half.centre).toEqual([5, 0]);
    expect(Math.abs(half.sweep)).toBeCloseTo(Math.PI, 12);
    expect(arcFromEndpoints([0, 0], 0, 2, 0, false, true, [10, 0])).toEqual({
      kind: 'line',
      from: [0, 0],
      to: [10, 0],
    });
    expect(arcFromEndpoints([3, 4], 1, 2, 0, true, true, [3, 4])).toBeNull();
  });

  test('the four flag pairs of one pair of ends', () => {
    const at = (large: boolean, sweep: boolean) => {
      const c = arcFromEndpoints([0, 0], 5, 5, 0, large, sweep, [8, 0]) as ArcCurve;
      return [Math.round(c.centre[1]), Math.round(pointAt(c, 0.5)[1])];
    };
    expect(at(false, true)).toEqual([3, -2]);
    expect(at(false, false)).toEqual([-3, 2]);
    expect(at(true, true)).toEqual([-3, -8]);
    expect(at(true, false)).toEqual([3, 8]);
  });
});

describe('makeArc and ellipseArcs', () => {
  test('reversing twice gives the same bits', () => {
    fc.assert(
      fc.property(arc, (c) => {
        expect(reverseCurve(reverseCurve(c))).toEqual(c);
      }),
    );
  });

  test('a turned circle is a circle: the rotation goes into the start', () => {
    const c = makeArc([5, 0], [0, 5], [0, 0], 5, 5 * (1 + 1e-14), -0.5, 0.5, Math.PI / 2);
    expect([c.rotation, c.rx === c.ry]).toEqual([0, true]);
    expect(c.start).toBeCloseTo(0, 12);
  });

  test('quarters meet on the axes and close', () => {
    const quarters = ellipseArcs([10, 20], 4, 3);
    expect(quarters.map((c) => c.from)).toEqual([
      [14, 20],
      [10, 23],
      [6, 20],
      [10, 17],
    ]);
    quarters.forEach((c, i) => {
      expect(c.to).toEqual(quarters[(i + 1) % 4].from);
      expect(distance(arcPoint(c, c.start + c.sweep), c.to)).toBeLessThan(1e-12);
    });
  });
});
