import { describe, expect, it } from 'vitest';
import { describePair, foundBy } from '../support/check-pair.js';

describePair('duplicate-line');

const find = (d: string, more = '') =>
  foundBy(
    'duplicate-line',
    `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40" fill="none" stroke="black"><rect width="60" height="40"/><path id="own" d="${d}"/>${more}</svg>`,
    { stack: '2x 3 mm birch' },
  );

/** Length of the wave below, by chords. */
const WAVE = [...Array(1000).keys()].reduce((sum, k) => {
  const y = (t: number): number => 20 * ((1 - t) ** 3 + 6 * (1 - t) * t * t + t ** 3);
  return sum + Math.hypot(0.06, y((k + 1) / 1000) - y(k / 1000));
}, 0);

describe('duplicate-line, one path', () => {
  it.each([
    ['there and back', 'M0 20 H60 H0', 60],
    ['there and back along a curve', 'M0 20 C20 0 40 40 60 20 C40 40 20 0 0 20', WAVE],
    ['twice round', 'M10 10 H30 V30 H10 Z M10 10 H30 V30 H10 Z', 80],
    ['twice round, the other way, begun elsewhere', 'M10 10 H30 V30 H10 Z M20 10 H10 V30 H30 V10 Z', 80],
    ['a part only', 'M0 20 H60 H45', 15],
    ['a part in other pieces', 'M0 20 H60 M20 20 H33 H40', 20],
  ])('%s', (_, d, length) => {
    const [finding, ...rest] = find(d);
    expect(rest).toEqual([]);
    const [, value] = finding.message.match(/along ([\d.]+) mm of its own line/) ?? [];
    expect(Math.abs(Number(value) - length)).toBeLessThan(0.6);
    expect(finding.source?.element).toBe('path#own');
  });

  it.each([
    ['a path that touches itself', 'M0 20 H60 M30 0 V20 M30 20 V40'],
    ['a path that crosses itself', 'M0 0 L60 40 M60 0 L0 40'],
    ['a hairpin that stays apart', 'M0 20 H50 V20.2 H0'],
    ['a very sharp wedge', 'M0 20 L60 20 L0 20.8'],
    ['a circle of arcs', 'M20 20 a8 8 0 1 1 16 0 a8 8 0 1 1 -16 0'],
    ['tiny steps', `M0 20 ${'l0.03 0.01 l0.03 -0.01 '.repeat(300)} L60 20`],
  ])('not: %s', (_, d) => {
    expect(find(d)).toEqual([]);
  });

  it('leaves a border that two shapes share alone', () => {
    expect(find('M10 10 H30 V30 H10 Z', '<path d="M30 10 H50 V30 H30 Z"/>')).toEqual([]);
  });
});

describe('duplicate-line, many copies', () => {
  it('tells of each copy but the first, without comparing each with each', () => {
    const copies = '<circle cx="20" cy="20" r="9"/>'.repeat(6000);
    expect(find('M0 20 H5', copies)).toHaveLength(5999);
  }, 15_000);
});
