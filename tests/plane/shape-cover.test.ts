import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Shape } from '../../src/drawing/drawing.js';
import { type Curve, pointAt } from '../../src/geometry/curve.js';
import type { Point } from '../../src/geometry/point.js';
import { shapeCovers } from '../../src/plane/shape-cover.js';
import { finish } from '../../src/plane/steps.js';
import { type CurveWork, cubic, drawingOf, polyline } from '../support/curve-drawing.js';

type Rule = 'nonzero' | 'evenodd';

/** Whether a shape of these closed lines, filled by a rule, holds a point. */
function isHeld(lines: CurveWork, rule: Rule, p: Point): boolean {
  const drawing = drawingOf([lines.flat()]);
  const shape: Shape = {
    ...drawing.shapes[0],
    subpaths: lines.map((curves) => ({ curves, closed: true })),
    fill: { color: '#888888', rule, opacity: 1 },
  };
  const [cover] = finish(shapeCovers({ ...drawing, shapes: [shape] }, 0.005));
  return cover.holds(p);
}

/** Winding number by turned angles along many points, an arithmetic of its own. */
function turnsAround(rings: readonly (readonly Point[])[], [x, y]: Point): number {
  let angle = 0;
  for (const ring of rings) {
    ring.forEach(([px, py], i) => {
      const [qx, qy] = ring[(i + 1) % ring.length];
      const [ax, ay, bx, by] = [px - x, py - y, qx - x, qy - y];
      angle += Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
    });
  }
  return Math.round(angle / (2 * Math.PI));
}

const holds = (turns: number, rule: Rule): boolean => (rule === 'nonzero' ? turns !== 0 : turns % 2 !== 0);
const rules = fc.constantFrom<Rule>('nonzero', 'evenodd');
const coordinate = fc.integer({ min: -10, max: 10 });

describe('what a closed shape covers', () => {
  // Up to 200 lines: with and without the tree over them.
  const ring = fc.array(fc.tuple(coordinate, coordinate), { minLength: 2, maxLength: 100 });

  it('is told by the turned angles, straight lines', () => {
    fc.assert(
      fc.property(
        fc.array(ring, { minLength: 1, maxLength: 2 }),
        coordinate,
        coordinate,
        rules,
        (lists, i, j, rule) => {
          // Off every line through two points of the grid.
          const p: Point = [i + Math.SQRT2 / 4, j + Math.PI / 7];
          const lines = lists.map((list) => polyline([...list, list[0]]));
          expect(isHeld(lines, rule, p)).toBe(holds(turnsAround(lists, p), rule));
        },
      ),
    );
  });

  it('is told by the turned angles, curves', () => {
    const place = fc.tuple(coordinate, coordinate);
    fc.assert(
      fc.property(fc.array(place, { minLength: 6, maxLength: 12 }), place, rules, (points, [i, j], rule) => {
        const p: Point = [i + 0.31, j + 0.17];
        const loop: Curve[] = [];
        const count = points.length - (points.length % 3);
        for (let k = 0; k < count; k += 3)
          loop.push(cubic(points[k], points[k + 1], points[k + 2], points[(k + 3) % count]));
        const fine = loop.flatMap((c) => Array.from({ length: 2000 }, (_, n) => pointAt(c, n / 2000)));
        fc.pre(fine.every(([x, y]) => Math.hypot(x - p[0], y - p[1]) > 0.05));
        expect(isHeld([loop], rule, p)).toBe(holds(turnsAround([fine], p), rule));
      }),
    );
  });

  it('is closed by a straight line where a filled line is open', () => {
    const drawing = drawingOf([
      polyline([
        [0, 0],
        [10, 0],
        [10, 10],
      ]),
    ]);
    const shape: Shape = { ...drawing.shapes[0], fill: { color: '#888888', rule: 'nonzero', opacity: 1 } };
    const [cover] = finish(shapeCovers({ ...drawing, shapes: [shape] }, 0.005));
    expect([cover.holds([8, 3]), cover.holds([3, 8])]).toEqual([true, false]);
  });
});
