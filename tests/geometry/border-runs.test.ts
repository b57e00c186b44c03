import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BorderRuns, borderDistance } from '../../src/geometry/border-runs.js';
import { roomAt, starOf } from '../support/rings.js';

const radii = fc.array(fc.double({ min: 4, max: 20, noNaN: true }), { minLength: 3, maxLength: 200 });
const hole = fc.array(fc.double({ min: 0.5, max: 3, noNaN: true }), { minLength: 3, maxLength: 40 });
const place = fc.tuple(
  fc.double({ min: -25, max: 25, noNaN: true }),
  fc.double({ min: -25, max: 25, noNaN: true }),
);

describe('distance from a border', () => {
  it('is that to the nearest segment, negative outside', () => {
    fc.assert(
      fc.property(radii, hole, fc.array(place, { minLength: 1, maxLength: 20 }), (outline, inner, places) => {
        const rings = [starOf(outline), starOf(inner)];
        const distance = borderDistance(rings);
        for (const [x, y] of places) {
          const room = roomAt(rings, x, y);
          expect(distance(x, y, Number.NEGATIVE_INFINITY)).toBeCloseTo(room, 9);
          const far = distance(x, y, Math.abs(room) - 1e-6);
          expect(far).toBeCloseTo(room, 9);
          expect(distance(x, y, Math.abs(room) + 1e-6)).toBe(Number.NEGATIVE_INFINITY);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('knows points that lie on each other, and lines without width', () => {
    const distance = borderDistance([Float64Array.of(0, 0, 0, 0, 4, 0, 4, 0, 4, 3, 4, 3)]);
    expect(distance(3, 1, 0)).toBeCloseTo(1, 12);
    expect(distance(0, -2, 0)).toBeCloseTo(-2, 12);
    expect(borderDistance([Float64Array.of(1, 1, 5, 1)])(3, 2, 0)).toBeCloseTo(-1, 12);
    expect(borderDistance([Float64Array.of(1, 1)])(4, 5, 0)).toBeCloseTo(-5, 12);
  });

  it('is off by no more than the slack, the side never beyond it, with a fraction of the spans', () => {
    const border = new BorderRuns();
    const shape = fc.tuple(fc.double({ min: 0, max: 0.4, noNaN: true }), fc.integer({ min: 2, max: 7 }));
    fc.assert(
      fc.property(shape, fc.array(place, { minLength: 1, maxLength: 20 }), ([wave, waves], places) => {
        const rings = [
          starOf(
            Array.from({ length: 300 }, (_, i) => 20 * (1 + wave * Math.sin((waves * i * Math.PI) / 150))),
          ),
        ];
        const slack = 0.1;
        border.take(rings, slack);
        expect(border.runs).toBeLessThan(300 / 8 / 2);
        for (const [x, y] of places) {
          Object.assign(border, { x, y, stop: 0 });
          border.find();
          const room = roomAt(rings, x, y);
          expect(Math.abs(border.found - Math.abs(room))).toBeLessThanOrEqual(slack);
          if (Math.abs(room) > slack) expect(border.isInside()).toBe(room > 0);
          border.findFoot();
          expect(Math.hypot(border.footX - x, border.footY - y)).toBeCloseTo(border.found, 9);
        }
      }),
      { numRuns: 60 },
    );
  });
});
