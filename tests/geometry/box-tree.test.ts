import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildBoxTree, nearestItem, searchBoxes } from '../../src/geometry/box-tree.js';

const coordinate = fc.double({ min: -50, max: 50, noNaN: true });
const boxes = fc
  .array(fc.tuple(coordinate, coordinate, fc.nat(20), fc.nat(20)), { maxLength: 200 })
  .map((list) => Float64Array.from(list.flatMap(([x, y, w, h]) => [x, y, x + w, y + h])));

describe('box tree', () => {
  it('finds the boxes that meet a box', () => {
    fc.assert(
      fc.property(boxes, coordinate, coordinate, fc.nat(30), (all, x, y, size) => {
        const found: number[] = [];
        searchBoxes(buildBoxTree(all), x, y, x + size, y + size, (item) => {
          found.push(item);
          return false;
        });
        const met = Array.from({ length: all.length / 4 }, (_, i) => i).filter(
          (i) =>
            all[4 * i] <= x + size &&
            all[4 * i + 2] >= x &&
            all[4 * i + 1] <= y + size &&
            all[4 * i + 3] >= y,
        );
        expect(found.sort((a, b) => a - b)).toEqual(met);
      }),
    );
  });

  it('has the same order however many items there are, equal ones as they come', () => {
    // A lattice of 30 × 30 with each place twice, whole and as its first 512 boxes.
    const many = Float64Array.from({ length: 4 * 1800 }, (_, k) => {
      const place = Math.floor(k / 8);
      return (k & 1) === 0 ? place % 30 : Math.floor(place / 30);
    });
    for (const count of [512, 513, 1800]) {
      const { items } = buildBoxTree(many.subarray(0, 4 * count));
      expect([...items].sort((a, b) => a - b)).toEqual(Array.from({ length: count }, (_, i) => i));
      // Twins lie side by side, the first of them first.
      const twins = [...items].filter((item, i) => (item & 1) === 0 && items[i + 1] === item + 1);
      expect(twins).toHaveLength(Math.floor(count / 2));
    }
  });

  it('finds the nearest item', () => {
    fc.assert(
      fc.property(boxes, coordinate, coordinate, (all, x, y) => {
        // Items are the lower left to upper right diagonals of their boxes.
        const squareTo = (i: number): number => {
          const [ax, ay, bx, by] = all.subarray(4 * i, 4 * i + 4);
          const square = (bx - ax) ** 2 + (by - ay) ** 2;
          const t =
            square === 0
              ? 0
              : Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / square));
          return (x - ax - t * (bx - ax)) ** 2 + (y - ay - t * (by - ay)) ** 2;
        };
        const squares = Array.from({ length: all.length / 4 }, (_, i) => squareTo(i));
        const found = nearestItem(buildBoxTree(all), x, y, squareTo);
        expect(found < 0 ? Number.POSITIVE_INFINITY : squares[found]).toBe(Math.min(...squares));
      }),
    );
  });
});
