import { describe, expect, it } from 'vitest';
import type { Joint } from '../../src/relief/relief.js';
import { cellRelief } from '../support/cells.js';

/**
 * Trade facts, common practice, no source: a stack of one quarter-inch and three eighth-inch sheets is 5/8 in
 * high; its pieces, quarter-inch sheet in front, are 1/4, 3/8, 1/2 and 5/8 in, and as continuous sheets the
 * levels stand at 1/8, 1/4, 3/8 and 5/8 in. 1 in = 25.4 mm (CSS Values and Units, W3C).
 */
const STACK = '1/4 in poplar, 3x 1/8 in basswood';
const INCH = 25.4;

function heights(joint: Joint): number[] {
  const { relief, of } = cellRelief(['abcd'], { a: '1', b: '2', c: '3', d: '4' }, STACK, { joint });
  return [...'abcd'].map((letter) => relief.regions[of(letter)].height! / INCH);
}

describe('heights of the 5/8 in stack', () => {
  it('as pieces are 1/4, 3/8, 1/2 and 5/8 in', () => {
    [1 / 4, 3 / 8, 1 / 2, 5 / 8].forEach((inches, k) => {
      expect(heights('pieces')[k]).toBeCloseTo(inches, 12);
    });
  });

  it('as continuous sheets are 1/8, 1/4, 3/8 and 5/8 in', () => {
    [1 / 8, 1 / 4, 3 / 8, 5 / 8].forEach((inches, k) => {
      expect(heights('continuous')[k]).toBeCloseTo(inches, 12);
    });
  });

  it('fall with each recess by the sheets taken from the face', () => {
    const rows = ['aaaaa', 'abbba', 'abcba', 'abbba', 'aaaaa'];
    const { relief, of } = cellRelief(rows, { a: '4', b: '-1', c: '-1' }, STACK);
    expect(relief.regions[of('b')].height! / INCH).toBeCloseTo(3 / 8, 12);
    expect(relief.regions[of('c')].height! / INCH).toBeCloseTo(1 / 4, 12);
  });
});
