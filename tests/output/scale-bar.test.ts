import fc from 'fast-check';
import { expect, it } from 'vitest';
import { roundLength } from '../../src/output/scale-bar.js';

it('takes the roundest length that fits', () => {
  expect([1, 1.9, 2, 4.9, 5, 9, 10, 44, 66, 0.3].map(roundLength)).toEqual([
    1, 1, 2, 2, 5, 5, 10, 20, 50, 0.2,
  ]);
});

it('fills at least two fifths of what is allowed', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-3, max: 1e6, noNaN: true }), (most) => {
      expect(roundLength(most)).toBeLessThanOrEqual(most);
      expect(roundLength(most)).toBeGreaterThan(most * 0.4);
    }),
  );
});
