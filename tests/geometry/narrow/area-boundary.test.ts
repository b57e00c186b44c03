import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Curve, pointAt, reverseCurve } from '../../../src/geometry/curve.js';
import { type AreaBoundary, areaBoundary } from '../../../src/geometry/narrow/area-boundary.js';
import { alongOf, placeOf, spotAhead, spotOf, walkedLength } from '../../../src/geometry/narrow/spot.js';
import { areaSums, walkedArea } from '../../../src/geometry/narrow/walked-area.js';
import { distance } from '../../../src/geometry/point.js';
import { uniform } from '../arbitrary-curves.js';
import { area, rounded } from './random-areas.js';
import { box, circle } from './shapes.js';

const turned = (loop: readonly Curve[]): Curve[] => loop.map(reverseCurve).reverse();

describe('areaBoundary', () => {
  test('walks every loop with the inside to its right, however it is given', () => {
    fc.assert(
      fc.property(area, fc.array(fc.boolean(), { minLength: 10, maxLength: 10 }), (loops, flip) => {
        const curves = loops.map(rounded).map((loop, k) => (flip[k] ? turned(loop) : loop));
        const b = areaBoundary(curves);
        const holes = curves.length - 1;
        for (let k = 0; k < curves.length; k++) {
          expect(b.sense[k] * b.area[k] > 0).toBe(k === holes);
          expect(b.outline[k]).toBe(holes);
        }
        for (let i = 0; i < b.x.length; i++) {
          expect(b.prev[b.next[i]]).toBe(i);
          const c = curves[b.loop[i]][b.curve[i]];
          expect(distance(pointAt(c, b.t0[i]), [b.x[i], b.y[i]])).toBeLessThan(1e-9);
          const end = b.next[i];
          expect(distance(pointAt(c, b.t1[i]), [b.x[end], b.y[end]])).toBeLessThan(1e-9);
        }
      }),
      { numRuns: 60 },
    );
  });

  test('nested boxes, in any order', () => {
    const boxes = [0, 1, 2, 3, 4, 5].map((k) => box(5 * k, 5 * k, 100 - 5 * k, 100 - 5 * k));
    const order = [3, 0, 5, 1, 4, 2];
    const b = areaBoundary([...order.map((k) => boxes[k]), circle(200, 50, 9)]);
    const depth = (loop: number): number => order[loop];
    order.forEach((_, loop) => {
      expect(b.sense[loop]).toBe(depth(loop) % 2 === 0 ? 1 : -1);
      expect(depth(b.outline[loop])).toBe(depth(loop) - (depth(loop) % 2));
    });
    expect(b.outline[6]).toBe(6);
  });

  test('loops that look at each other over their own sides: a hook around a hook', () => {
    const hook = (x: number, y: number, s: number): Curve[] => {
      const p = [
        [0, 0],
        [60, 0],
        [60, 20],
        [20, 20],
        [20, 60],
        [60, 60],
        [60, 80],
        [0, 80],
      ].map(([u, v]) => [x + s * u, y + s * v] as const);
      return p.map((from, i): Curve => ({ kind: 'line', from, to: p[(i + 1) % p.length] }));
    };
    const outer = hook(0, 0, 1);
    // The second one hooks into the first, and a third lies inside its bar.
    const b = areaBoundary([hook(90, 85, -0.75), outer, box(4, 4, 16, 70), box(-10, -10, 110, 110)]);
    expect([...b.outline]).toEqual([3, 3, 2, 3]);
    expect([...b.sense]).toEqual([-1, -1, 1, 1]);
  });

  test('twenty thousand loops in each other, innermost first', () => {
    const count = 20_000;
    const b = areaBoundary(Array.from({ length: count }, (_, k) => box(-k - 1, -k - 1, k + 1, k + 1)));
    // The outermost is an outline, and by turns those inside are holes and outlines.
    const isHole = (k: number): boolean => (count - 1 - k) % 2 === 1;
    expect(b.outline.every((outline, k) => outline === (isHole(k) ? k + 1 : k))).toBe(true);
  });

  test('spots and places lead back to each other, in loops walked either way', () => {
    fc.assert(
      fc.property(area, uniform(0, 1), uniform(0, 1), (loops, where, t) => {
        const b: AreaBoundary = areaBoundary(loops.map(rounded));
        const loop = Math.min(loops.length - 1, Math.floor(where * loops.length));
        const curve = Math.min(loops[loop].length - 1, Math.floor(t * loops[loop].length));
        const place = { loop, curve, t };
        const back = placeOf(b, spotOf(b, place));
        expect([back.loop, back.curve]).toEqual([loop, curve]);
        expect(back.t).toBeCloseTo(t, 9);
        const spot = spotOf(b, place);
        const ahead = spotAhead(b, spot, 0.4 * b.loopLength[loop]);
        expect(walkedLength(b, loop, alongOf(b, spot), alongOf(b, ahead))).toBeCloseTo(
          0.4 * b.loopLength[loop],
          6,
        );
      }),
    );
  });

  test('areas walked there and back add up to the whole loop', () => {
    fc.assert(
      fc.property(area, uniform(0, 1), uniform(0, 1), (loops, s, t) => {
        fc.pre(Math.abs(s - t) > 1e-6);
        const b = areaBoundary(loops.map(rounded));
        const sums = areaSums(b);
        loops.forEach((points, loop) => {
          const [p, q] = [s, t].map((v) => ({
            loop,
            curve: Math.min(points.length - 1, Math.floor(v * points.length)),
            t: v,
          }));
          const whole = walkedArea(b, sums, p, q) + walkedArea(b, sums, q, p);
          expect(whole).toBeCloseTo(b.sense[loop] * b.area[loop], 7);
        });
      }),
      { numRuns: 60 },
    );
  });
});
