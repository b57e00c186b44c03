import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { poleOf } from '../../src/geometry/pole.js';
import { labelPlace } from '../../src/plane/label-place.js';

/** A closed ring of points on a wavy circle, the inside on its left (y down). */
function wavy(radius: number, wave: number, waves: number, count: number): Float64Array {
  return Float64Array.from(
    Array.from({ length: count }, (_, i) => {
      const angle = (-2 * Math.PI * i) / count;
      const r = radius * (1 + wave * Math.sin(waves * angle));
      return [r * Math.cos(angle), r * Math.sin(angle)];
    }).flat(),
  );
}

const reversed = (ring: Float64Array): Float64Array =>
  Float64Array.from({ length: ring.length }, (_, i) => ring[ring.length - 2 - i + 2 * (i & 1)]);

describe('label place', () => {
  it('lies inside a frame, however thin', () => {
    for (const width of [20, 8, 4, 2, 1, 0.4, 0.1]) {
      const outline = wavy(150, 0, 1, 4);
      const hole = reversed(wavy(150 - width, 0, 1, 4));
      const { room } = labelPlace([outline, hole], 300 / Math.SQRT2);
      // Between two squares on their corners the sides are width/√2 apart; half of the room is promised.
      expect(room).toBeGreaterThan((0.5 * width) / Math.SQRT2 / 2);
    }
  });

  it('has nearly as much room as any', () => {
    const share = fc.double({ min: 0, max: 0.6, noNaN: true });
    fc.assert(
      fc.property(
        share,
        fc.integer({ min: 2, max: 9 }),
        share,
        fc.integer({ min: 16, max: 300 }),
        (wave, waves, inner, count) => {
          const outline = wavy(20, wave, waves, count);
          const rings =
            inner < 0.1 ? [outline] : [outline, reversed(wavy(20 * inner * (1 - wave), 0.2, 3, 40))];
          const { room } = labelPlace(rings, 20);
          expect(room).toBeGreaterThan(poleOf(rings, 1e-3).room - 0.03 * 20 - 1e-3);
        },
      ),
      { numRuns: 60 },
    );
  });
});
