import { describe, expect, it } from 'vitest';
import { BLADES, bladeDiagonal } from '../../shared/tables/blades.js';

describe('blades', () => {
  it('grow in width, thickness and height with their number', () => {
    for (let i = 1; i < BLADES.length; i++) {
      const [small, large] = [BLADES[i - 1], BLADES[i]];
      expect(large.width).toBeGreaterThan(small.width);
      expect(large.thickness).toBeGreaterThan(small.thickness);
      expect(large.height[0]).toBeGreaterThan(small.height[0]);
      expect(large.height[1]).toBeGreaterThan(small.height[1]);
    }
  });

  it('No. 5 is 0.038 by 0.016 in and cuts a stack of 5/8 in (common practice, no source)', () => {
    const five = BLADES.find((b) => b.name === 'No. 5')!;
    expect(five.width).toBeCloseTo(0.9652, 4);
    expect(five.thickness).toBeCloseTo(0.4064, 4);
    expect(five.height[0]).toBeLessThan(15.875);
    expect(five.height[1]).toBeGreaterThan(15.875);
  });

  it('pass a hole as wide as their diagonal', () => {
    expect(bladeDiagonal({ width: 3, thickness: 4 })).toBe(5);
  });
});
