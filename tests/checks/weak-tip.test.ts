import { describe, expect, it } from 'vitest';
import { weakTip } from '../../src/checks/weak-tip.js';
import type { Joint } from '../../src/relief/relief.js';
import { describePair, foundBy } from '../support/check-pair.js';

describePair('weak-tip');

const STACK = '2x 3 mm birch';

/** A triangle of 40 mm with a tip of some degrees, on a ground. */
function triangle(degrees: number): string {
  const half = 40 * Math.tan((degrees * Math.PI) / 360);
  return drawing(`<path data-depth="2" d="M10 ${30 - half} L50 30 L10 ${30 + half} Z"/>`);
}

function drawing(shapes: string): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60" fill="none" stroke="black"><rect width="60" height="60" data-depth="1"/>${shapes}</svg>`;
}

describe('weak-tip', () => {
  it.each([10, 15, 20])('measures the thin length of a tip of %i degrees', (degrees) => {
    const [only, ...more] = foundBy('weak-tip', triangle(degrees), { stack: STACK });
    expect(more).toEqual([]);
    // The disc of radius r that touches both sides, touches them r cos²(a/2) / sin(a/2) from the point.
    const half = (degrees * Math.PI) / 360;
    const thin = ((weakTip.defaults.width / 2) * Math.cos(half) ** 2) / Math.sin(half);
    expect(only.measured).toEqual({
      value: expect.closeTo(thin, 1),
      needed: weakTip.defaults.longest,
      unit: 'mm',
    });
    expect(only.at![0]).toBeCloseTo(50, 2);
  });

  it.each([35, 60, 90])('lets a tip of %i degrees pass', (degrees) => {
    expect(foundBy('weak-tip', triangle(degrees), { stack: STACK })).toEqual([]);
  });

  it('finds the end of a thin finger, and passes a wide one', () => {
    const finger = (width: number): string =>
      drawing(`<path data-depth="2" d="M10 10 H40 V${20} H54 v${width} H40 V50 H10 Z"/>`);
    expect(foundBy('weak-tip', finger(1), { stack: STACK })).toHaveLength(1);
    expect(foundBy('weak-tip', finger(2), { stack: STACK })).toEqual([]);
  });

  it('looks at the sheets where they are continuous: a line inside a level makes no tip', () => {
    const split = drawing('<path d="M0 24 L60 36 M0 36 L60 24"/>').replace(
      'data-depth="1"',
      'data-depth="2"',
    );
    const found = (joint: Joint) => foundBy('weak-tip', split, { stack: STACK, joint }).length;
    expect(found('pieces')).toBeGreaterThan(0);
    expect(found('continuous')).toBe(0);
  });
});
