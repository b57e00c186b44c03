import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type ArcCurve, type Curve, pointAt, reverseCurve } from '../../src/geometry/curve.js';
import { curveArea } from '../../src/geometry/curve-area.js';
import { curveBounds } from '../../src/geometry/curve-bounds.js';
import { curveLength } from '../../src/geometry/curve-length.js';
import { refineMeeting } from '../../src/geometry/curve-meeting.js';
import { nearestOnCurve } from '../../src/geometry/nearest-on-curve.js';
import type { Point } from '../../src/geometry/point.js';
import { arcOf, line, point, uniform } from '../geometry/arbitrary-curves.js';

// Reference: @flatten-js/core (MIT), which knows segments and circle arcs. Its tolerance is 1e-6 on coordinates.
const circleArc: fc.Arbitrary<ArcCurve> = fc
  .tuple(point, uniform(60, 250), uniform(-3, 3), uniform(0.3, 6))
  .map(([centre, r, start, sweep]) => arcOf(centre, r, r, 0, start, sweep));

function theirs(c: Curve): Flatten.Segment | Flatten.Arc {
  if (c.kind === 'arc') {
    const centre = new Flatten.Point(...c.centre);
    const [start, end] = [c.start, c.start + c.sweep].map(
      (a) => a - 2 * Math.PI * Math.floor(a / (2 * Math.PI)),
    );
    return new Flatten.Arc(centre, c.rx, start, end, true);
  }
  return new Flatten.Segment(new Flatten.Point(...c.from), new Flatten.Point(...c.to));
}

describe('against @flatten-js/core', () => {
  test('crossings of arcs and segments', () => {
    let met = 0;
    fc.assert(
      fc.property(circleArc, fc.oneof(circleArc, line), (a, b) => {
        for (const p of theirs(a).intersect(theirs(b))) {
          const at: Point = [p.x, p.y];
          const [na, nb] = [nearestOnCurve(a, at), nearestOnCurve(b, at)];
          const found = refineMeeting(a, na.t + 1e-4 * (0.5 - na.t), b, nb.t + 1e-4 * (0.5 - nb.t));
          expect(found).not.toBeNull();
          expect(found?.gap).toBeLessThan(1e-6);
          // Nearly touching curves meet anywhere within the root of the tolerance.
          expect(Math.hypot((found?.point[0] ?? 0) - p.x, (found?.point[1] ?? 0) - p.y)).toBeLessThan(1e-2);
          met++;
        }
      }),
      { numRuns: 600 },
    );
    expect(met).toBeGreaterThan(50);
  });

  test('distance from a point, lengths, boxes', () => {
    fc.assert(
      fc.property(fc.oneof(circleArc, line), point, (c, p) => {
        const other = theirs(c);
        fc.pre(other.length > 1e-3);
        const [d] = new Flatten.Point(...p).distanceTo(other);
        expect(nearestOnCurve(c, p).distance).toBeCloseTo(d, 5);
        expect(curveLength(c)).toBeCloseTo(other.length, 8);
        const box = other.box;
        const [x0, y0, x1, y1] = curveBounds(c);
        [box.xmin - x0, box.ymin - y0, box.xmax - x1, box.ymax - y1].forEach((v) => {
          expect(Math.abs(v)).toBeLessThan(1e-6);
        });
      }),
    );
  });

  test('areas of shapes with arcs', () => {
    fc.assert(
      fc.property(circleArc, (c) => {
        const chord: Curve = { kind: 'line', from: c.to, to: c.from };
        const polygon = new Flatten.Polygon();
        polygon.addFace([theirs(c) as Flatten.Arc, theirs(chord) as Flatten.Segment]);
        const area = curveArea(c) + curveArea(chord);
        expect(Math.abs(area / polygon.area() - 1)).toBeLessThan(1e-6);
        expect(curveArea(reverseCurve(c)) + curveArea(reverseCurve(chord))).toBeCloseTo(-area, 6);
        expect(pointAt(c, 1)).toEqual(c.to);
      }),
    );
  });
});
