import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { borderRuns, borderWinding } from '../../src/geometry/border-runs.js';

const coordinate = fc.integer({ min: -10, max: 10 });

/** Winding number by turned angles, an arithmetic of its own. */
function turnsAround(rings: readonly Float64Array[], x: number, y: number): number {
  let angle = 0;
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 2) {
      const j = (i + 2) % ring.length;
      const [ax, ay, bx, by] = [ring[i] - x, ring[i + 1] - y, ring[j] - x, ring[j + 1] - y];
      angle += Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
    }
  }
  return Math.round(angle / (2 * Math.PI));
}

describe('winding numbers of a border', () => {
  // Up to 90 runs: with and without the tree over them.
  const ring = fc.array(fc.tuple(coordinate, coordinate), { minLength: 1, maxLength: 240 });
  it('are those of the turned angles', () => {
    fc.assert(
      fc.property(fc.array(ring, { maxLength: 3 }), coordinate, coordinate, (lists, i, j) => {
        // Off every line through two points of the grid.
        const [x, y] = [i + Math.SQRT2 / 4, j + Math.PI / 7];
        const rings = lists.map((list) => Float64Array.from(list.flat()));
        expect(Math.abs(borderWinding(borderRuns(rings))(x, y))).toBe(Math.abs(turnsAround(rings, x, y)));
      }),
    );
  });

  it('are negative where the border turns from +x towards +y', () => {
    const square = borderRuns([Float64Array.of(0, 0, 4, 0, 4, 4, 0, 4)]);
    expect(Math.sign(turnsAround([Float64Array.of(0, 0, 4, 0, 4, 4, 0, 4)], 2, 2))).toBe(1);
    expect(borderWinding(square)(2, 2)).toBe(-1);
    expect(borderWinding(square)(5, 2)).toBe(0);
  });
});
