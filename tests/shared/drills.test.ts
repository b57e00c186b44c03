import { describe, expect, it } from 'vitest';
import {
  FRACTIONAL_DRILLS,
  METRIC_DRILLS,
  MM_PER_INCH,
  NUMBER_DRILLS,
  NUMBER_DRILLS_INCH,
  STANDARD_BITS,
} from '../../shared/tables/drills.js';

const ascending = (values: readonly number[]): boolean =>
  values.every((v, i) => i === 0 || values[i - 1] <= v);

describe('number drills', () => {
  it('are eighty, each smaller than the one before', () => {
    expect(NUMBER_DRILLS_INCH).toHaveLength(80);
    expect(NUMBER_DRILLS_INCH.every((d, i) => i === 0 || d < NUMBER_DRILLS_INCH[i - 1])).toBe(true);
  });

  it('add up to the sum of the printed table', () => {
    // The sum of the eighty values as printed, in ten-thousandths of an inch: one wrong digit changes it.
    const sum = NUMBER_DRILLS_INCH.reduce((total, d) => total + Math.round(d * 10_000), 0);
    expect(sum).toBe(82_637);
  });

  it('are named ascending from #80 to #1', () => {
    expect(NUMBER_DRILLS[0]).toEqual({ name: '#80', diameter: 0.3429 });
    expect(NUMBER_DRILLS[79]).toEqual({ name: '#1', diameter: 5.7912 });
    expect(ascending(NUMBER_DRILLS.map((b) => b.diameter))).toBe(true);
  });
});

describe('fractional and metric drills', () => {
  it('are whole multiples of their step', () => {
    for (const [i, bit] of FRACTIONAL_DRILLS.entries()) {
      expect((bit.diameter / MM_PER_INCH) * 64).toBeCloseTo(i + 1, 3);
    }
    for (const bit of METRIC_DRILLS) expect(Number.parseFloat(bit.name)).toBe(bit.diameter);
  });

  it('write fractions in lowest terms', () => {
    expect(FRACTIONAL_DRILLS.map((b) => b.name)).toEqual([
      ...['1/64 in', '1/32 in', '3/64 in', '1/16 in', '5/64 in', '3/32 in', '7/64 in', '1/8 in'],
      ...['9/64 in', '5/32 in', '11/64 in', '3/16 in', '13/64 in', '7/32 in', '15/64 in', '1/4 in'],
    ]);
  });
});

describe('all bits', () => {
  it('are the three series in ascending order, each name once', () => {
    expect(STANDARD_BITS).toHaveLength(80 + 16 + 63);
    expect(ascending(STANDARD_BITS.map((b) => b.diameter))).toBe(true);
    expect(new Set(STANDARD_BITS.map((b) => b.name)).size).toBe(STANDARD_BITS.length);
  });
});
