import { describe, expect, it } from 'vitest';
import { describePair, foundBy } from '../support/check-pair.js';

describePair('tight-turn');

const STACK = '2x 3 mm birch';

function withLine(d: string): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60" fill="none" stroke="black"><rect width="60" height="60"/><path d="${d}"/></svg>`;
}

const blade = { name: 'test', width: 1, thickness: 0.4 };
const find = (d: string, options = {}) =>
  foundBy('tight-turn', withLine(d), {
    stack: STACK,
    workshop: { blade },
    checks: { rules: { 'tight-turn': options } },
  });

/** A hairpin: in along one line, round a half circle, and out again. */
const hairpin = (radius: number): string => `M0 20 H30 a${radius} ${radius} 0 0 1 0 ${2 * radius} H0`;

describe('tight-turn', () => {
  it.each([0.2, 0.5, 0.9])('measures a half circle of radius %f mm', (radius) => {
    const [only] = find(hairpin(radius));
    expect(only.measured!.value).toBeGreaterThan(radius * 0.97);
    expect(only.measured!.value).toBeLessThan(radius * 1.03);
    expect(only.at![0]).toBeGreaterThan(30);
  });

  it('lets a turn as wide as the blade pass', () => {
    expect(find(hairpin(1.05))).toEqual([]);
  });

  it('leaves sharp corners and short bends to the saw', () => {
    expect(find('M0 20 H30 V22 H0')).toEqual([]);
    expect(find('M0 20 H30 a0.4 0.4 0 0 1 0.2828 0.1172 L60 50')).toEqual([]);
  });

  it('sees a small curve that is drawn as many short lines', () => {
    const points = [...Array(13).keys()].map((k) => {
      const angle = (k / 12) * Math.PI - Math.PI / 2;
      return `L${30 + 0.5 * Math.cos(angle)} ${20.5 + 0.5 * Math.sin(angle)}`;
    });
    expect(find(`M0 20 ${points.join('')} L0 21`)).toHaveLength(1);
  });

  it('follows a line through the places where others end on it', () => {
    // A half circle of 0.5 mm, cut into quarters by a line to its middle, and one cut in three.
    const middle = find(`${hairpin(0.5)} M30.5 20.5 H60`);
    expect(middle).toHaveLength(1);
    expect(Math.abs(middle[0].measured!.value - 0.5)).toBeLessThan(0.03);
    expect(find(`${hairpin(0.5)} M30.25 20.067 L60 0 M30.25 20.933 L60 40`)).toHaveLength(1);
    expect(find(`${hairpin(1.05)} M31.05 21.05 H60`)).toEqual([]);
  });

  it('does not turn round where lines meet in a corner', () => {
    expect(find('M0 20 H30 V0 M30 20 L60 50')).toEqual([]);
    expect(find('M0 20 L30 20.5 L0 21 M30 20.5 H60')).toEqual([]);
    expect(find('M0 0 L60 60 M60 0 L0 60 M0 30 H60')).toEqual([]);
  });

  it('takes its numbers from the settings', () => {
    expect(find(hairpin(0.9), { widths: 0.8 })).toEqual([]);
    expect(find(hairpin(1.5), { widths: 2 })).toHaveLength(1);
    expect(find(hairpin(0.5), { turn: 200 })).toEqual([]);
  });
});
