import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/point.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import type { RegionMap } from '../../src/plane/region-map.js';
import { verifyRegionMap } from '../../src/plane/verify-region-map.js';
import { type CurveWork, drawingOf, ellipse, line, polyline } from '../support/curve-drawing.js';
import { box } from '../support/line-work.js';

function mapped(lines: CurveWork): RegionMap {
  const map = mapRegions(drawingOf(lines));
  expect(verifyRegionMap(map)).toEqual([]);
  return map;
}

const kinds = (map: RegionMap): string[] => map.edges.map(({ kind }) => kind).sort();
const rules = (map: RegionMap): string[] => map.findings.map(({ rule }) => rule);
const strip = (x: number, y: number, width: number, height: number): CurveWork[number] =>
  polyline(box(x, y, width, height));

describe('merging a sliver', () => {
  it('leaves one side of a closed strip, as a vein', () => {
    const map = mapped([strip(0, 0, 40, 0.04)]);
    expect(map.regions).toHaveLength(0);
    expect(kinds(map)).toEqual(['vein']);
    expect(map.edges[0].length).toBeGreaterThan(39.9);
    expect(rules(map)).toEqual(['sliver-merged', 'no-region']);
  });

  it('leaves a vein of a closed line that is small all over', () => {
    const map = mapped([strip(-30, -30, 60, 60), ellipse([0, 0], 0.1, 0.02)]);
    expect(map.regions).toHaveLength(1);
    expect(kinds(map)).toEqual(['border', 'vein']);
    expect(map.edges.find(({ kind }) => kind === 'vein')!.length).toBeGreaterThan(0.1);
  });

  it('leaves one of two rings', () => {
    const map = mapped([ellipse([0, 0], 10, 10), ellipse([0, 0], 10.04, 10.04)]);
    expect(map.regions).toHaveLength(1);
    expect(map.edges).toHaveLength(1);
  });

  it('leaves one leg of a line that runs out and back', () => {
    const hairpin: Point[] = [
      [0, 0],
      [20, 0.02],
      [0, 0.045],
    ];
    const map = mapped([strip(-10, -10, 10, 20), polyline(hairpin)]);
    expect(map.regions).toHaveLength(1);
    const vein = map.edges.filter(({ kind }) => kind === 'vein');
    expect(Math.max(...vein.map(({ length }) => length))).toBeGreaterThan(19.9);
  });

  it('keeps the lines that end on either side of it', () => {
    const ends: CurveWork = [-3, 1, 4].flatMap((y) => [
      [line([-10, y], [0, y])],
      [line([0.03, y + 1], [10, y + 1])],
    ]);
    const sides: CurveWork = [[line([0, -10], [0, 10])], [line([0.03, -10], [0.03, 10])]];
    const map = mapped([strip(-10, -10, 20, 20), ...sides, ...ends]);
    expect(map.regions).toHaveLength(8);
    expect(map.regions.reduce((sum, { area }) => sum + area, 0)).toBeCloseTo(400, 6);
    // Every one of the lines that end at the strip still bounds two regions.
    expect(map.edges.filter(({ kind, length }) => kind === 'border' && length > 9.9).length).toBeGreaterThan(
      5,
    );
  });

  it('stays where a line crosses the strip', () => {
    const map = mapped([
      strip(-20, -20, 40, 40),
      [line([0.02, 5], [-5, 5])],
      [line([0.02, 5.001], [-5, 5])],
      [line([20.02, -20], [-15, 20])],
    ]);
    const veins = map.edges.filter(({ kind }) => kind === 'vein');
    expect(veins.reduce((sum, { length }) => sum + length, 0)).toBeGreaterThan(5);
  });

  it('of a fan of lines drops none that others, dropped before, are near', () => {
    const fan: CurveWork = Array.from({ length: 12 }, (_, i) => [line([-10, 0.03 * i], [10, 0.03 * i])]);
    const map = mapped([strip(-10, -10, 20, 20), ...fan]);
    const heights = map.nodes.filter(({ at }) => Math.abs(at[0]) > 9.9).map(({ at }) => at[1]);
    for (let i = 0; i < 12; i++) {
      const nearest = Math.min(...heights.map((y) => Math.abs(y - 0.03 * i)));
      expect(nearest).toBeLessThan(0.055);
    }
    expect(map.counts.mergedSlivers + 1).toBeGreaterThan(5);
    expect(rules(map).every((rule) => rule === 'sliver-merged' || rule === 'sliver-kept')).toBe(true);
  });
});
