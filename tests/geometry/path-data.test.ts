import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ellipseArcs } from '../../src/geometry/arc.js';
import type { Curve } from '../../src/geometry/curve.js';
import { pathData } from '../../src/geometry/path-data.js';
import { arcOf, curve } from './arbitrary-curves.js';

describe('pathData', () => {
  test('writes each kind, joined, closed, compact', () => {
    const run: Curve[] = [
      { kind: 'line', from: [0, 0], to: [10, 0] },
      { kind: 'line', from: [10, 0], to: [10, -2.5] },
      { kind: 'quadratic', from: [10, -2.5], control: [11, 4], to: [10, 5] },
      { kind: 'cubic', from: [10, 5], control1: [9, 6], control2: [8, 6], to: [7, 5.00004] },
      { kind: 'line', from: [7, 5.00004], to: [0, 0] },
    ];
    expect(pathData([run])).toBe('M0 0L10 0 10-2.5Q11 4 10 5C9 6 8 6 7 5Z');
    expect(pathData([run.slice(0, 2), run.slice(2, 3)])).toBe('M0 0L10 0 10-2.5M10-2.5Q11 4 10 5');
  });

  test('a circle becomes two commands a half, never one with coinciding ends', () => {
    const text = pathData([ellipseArcs([0, 0], 5, 5)]);
    expect(text).toBe('M5 0A5 5 0 0 1 0 5 5 5 0 0 1-5 0 5 5 0 0 1 0-5 5 5 0 0 1 5 0Z');
    expect(pathData([[arcOf([0, 0], 5, 5, 0, 0, 2 * Math.PI)]])).toMatch(/^M5 0A5 5 .* 5 0Z$/);
  });

  test('an arc smaller than the rounding is left out, a gap is joined by a line', () => {
    const spot = arcOf([1, 1], 1e-6, 1e-6, 0, 0, 3);
    expect(pathData([[spot]])).toBe('');
    const parts: Curve[] = [
      { kind: 'line', from: [0, 0], to: [1, 0] },
      spot,
      { kind: 'line', from: [2, 0], to: [3, 0] },
    ];
    expect(pathData([parts])).toBe('M0 0L1 0 1 1 2 0 3 0');
  });

  test('an arc without width is written as the lines that it runs along', () => {
    const c: Curve = { ...arcOf([0, 0], 10, 1, 0, 0, Math.PI), ry: 0, from: [10, 0], to: [-10, 0] };
    expect(pathData([[c]])).toMatch(/^M10 0L.*-10 0$/);
  });

  test('rounds to the digits asked for, without exponents or negative zeros', () => {
    const c: Curve = { kind: 'line', from: [-0.00001, 1e-7], to: [1.23456, 0.5] };
    expect(pathData([[c]])).toBe('M0 0L1.2346 0.5');
    expect(pathData([[c]], { digits: 7 })).toBe('M-0.00001 0.0000001L1.23456 0.5');
    expect(pathData([[c]], { digits: 0 })).toBe('M0 0L1 1');
  });

  test('holds nothing but what the grammar knows, for any curves', () => {
    fc.assert(
      fc.property(fc.array(curve, { maxLength: 6 }), (run) => {
        expect(pathData([run])).toMatch(/^(M[-0-9. ]+([LQCA][-0-9. ]+)+Z?)?$/);
      }),
    );
  });
});
