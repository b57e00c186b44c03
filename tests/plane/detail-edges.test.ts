import { describe, expect, it } from 'vitest';
import { mapSvg } from './map-svg.js';

const SQUARE = '<path d="M10 10H90V90H10Z"/>';
const dashed = (d: string): string => `<path d="${d}" stroke-dasharray="3 2"/>`;
const kinds = (body: string) => {
  const map = mapSvg(body);
  const rules = map.findings.map(({ rule }) => rule).filter((rule) => rule.startsWith('dashed-line-'));
  const veins = map.regions.flatMap((region) => region.veins).map((e) => map.edges[e].length);
  return { regions: map.regions.length, veins, rules, outside: map.outsideVeins.length };
};

describe('a dashed line', () => {
  it.each([
    ['inside a region is a vein', 'M20 50H80', [60]],
    ['from an outline is a vein', 'M10 50H60', [50]],
    ['on an outline is that outline', 'M10 20V80', []],
  ])('that lies %s', (_, d, veins) => {
    expect(kinds(SQUARE + dashed(d))).toEqual({ regions: 1, veins, rules: [], outside: 0 });
  });

  it.each([
    ['right through', 'M10 50H90', []],
    ['right through and beyond', 'M5 50H95', ['dashed-line-outside']],
    ['in a ring', 'M30 30H60V60H30Z', []],
    ['nearly through, with gaps that are healed', 'M10.3 50H89.7', []],
  ])('bounds nothing %s, and the finding says that it is not sawn', (_, d, more) => {
    const found = kinds(SQUARE + dashed(d));
    expect(found).toEqual({ regions: 1, veins: [], rules: ['dashed-line-closes', ...more], outside: 0 });
  });

  it('keeps what hangs on a part that is left out', () => {
    const { regions, veins } = kinds(SQUARE + dashed('M10 50H90') + dashed('M50 50V70'));
    expect([regions, veins]).toEqual([1, [20]]);
  });

  it('leaves the other lines as they are where it crosses them', () => {
    const plain = kinds(`${SQUARE}<path d="M50 10V90"/>`);
    const crossed = kinds(`${SQUARE}<path d="M50 10V90"/>${dashed('M30 50H70')}`);
    expect([crossed.regions, crossed.veins]).toEqual([plain.regions, [20, 20]]);
  });

  it('outside of all regions is no line', () => {
    expect(kinds(SQUARE + dashed('M2 2H8'))).toEqual({
      regions: 1,
      veins: [],
      rules: ['dashed-line-outside'],
      outside: 0,
    });
    expect(kinds(SQUARE + dashed('M2 2H98V98H2Z')).regions).toBe(1);
  });

  it('tells where it closes and in which element', () => {
    const map = mapSvg(SQUARE + dashed('M10 50H90'));
    const finding = map.findings.find(({ rule }) => rule === 'dashed-line-closes')!;
    expect(finding.message).toContain('80 mm');
    expect(finding.regions).toEqual(['r1']);
    expect(finding.source).toEqual(map.shapes[1].source);
  });
});
