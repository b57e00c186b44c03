import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { poleOf } from '../../src/geometry/pole.js';

const box = (x0: number, y0: number, x1: number, y1: number): Float64Array =>
  Float64Array.of(x0, y0, x1, y0, x1, y1, x0, y1);

/** A star-shaped ring: radii at even angles about the origin. */
function starOf(radii: readonly number[]): Float64Array {
  return Float64Array.from(
    radii.flatMap((r, i) => {
      const angle = (2 * Math.PI * i) / radii.length;
      return [r * Math.cos(angle), r * Math.sin(angle)];
    }),
  );
}

/** Distance to the nearest segment by brute force, negative outside. */
function roomAt(rings: readonly Float64Array[], x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  let turns = 0;
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 2) {
      const j = (i + 2) % ring.length;
      const [ax, ay, bx, by] = [ring[i], ring[i + 1], ring[j], ring[j + 1]];
      const square = (bx - ax) ** 2 + (by - ay) ** 2;
      const t = Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / square));
      least = Math.min(least, Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay)));
      turns += Math.atan2(
        (ax - x) * (by - y) - (ay - y) * (bx - x),
        (ax - x) * (bx - x) + (ay - y) * (by - y),
      );
    }
  }
  return Math.round(turns / (2 * Math.PI)) % 2 === 0 ? -least : least;
}

describe('pole of inaccessibility', () => {
  it('is the centre of the inscribed disc', () => {
    expect(poleOf([box(1, 2, 9, 10)], 1e-6)).toEqual({ x: 5, y: 6, room: 4 });
    const triangle = poleOf([Float64Array.of(0, 0, 4, 0, 0, 3)], 1e-9);
    // The incircle of a 3-4-5 triangle has the radius 1.
    expect(triangle.x).toBeCloseTo(1, 8);
    expect(triangle.y).toBeCloseTo(1, 8);
    expect(triangle.room).toBeCloseTo(1, 8);
  });

  it('keeps out of holes', () => {
    const pole = poleOf([box(0, 0, 30, 10), box(1, 1, 20, 9)], 1e-6);
    expect(pole.room).toBeCloseTo(5, 5);
    expect(pole.x).toBeCloseTo(25, 5);
  });

  it('has no room where there is no inside', () => {
    expect(poleOf([], 0.1)).toEqual({ x: 0, y: 0, room: 0 });
    expect(poleOf([Float64Array.of(0, 0, 5, 0)], 0.1).room).toBeLessThanOrEqual(0);
    expect(poleOf([Float64Array.of(3, 3)], 0.1).room).toBeLessThanOrEqual(0);
  });

  it('is within the precision of the best place, and its room is true', () => {
    const radii = fc.array(fc.double({ min: 5, max: 20, noNaN: true }), { minLength: 3, maxLength: 90 });
    const hole = fc.array(fc.double({ min: 0.5, max: 3, noNaN: true }), { minLength: 3, maxLength: 30 });
    fc.assert(
      fc.property(radii, hole, (outline, inner) => {
        const rings = [starOf(outline), starOf(inner)];
        const precision = 0.05;
        const { x, y, room } = poleOf(rings, precision);
        expect(room).toBeCloseTo(roomAt(rings, x, y), 9);
        for (let i = -20; i <= 20; i += 2) {
          for (let j = -20; j <= 20; j += 2)
            expect(roomAt(rings, i + 0.1, j + 0.2)).toBeLessThanOrEqual(room + precision);
        }
      }),
      { numRuns: 40 },
    );
  });
});
