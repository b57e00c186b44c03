/**
 * Curves that coincide, touch or cross themselves: how many regions they bound is plain from the drawing, and
 * the areas from elementary geometry. Nothing may be left of the doubled lines: no sliver, no vein.
 */
import { describe, expect, it } from 'vitest';
import { type Curve, subCurve } from '../../src/geometry/curve.js';
import type { Point } from '../../src/geometry/point.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import type { RegionMap } from '../../src/plane/region-map.js';
import { verifyRegionMap } from '../../src/plane/verify-region-map.js';
import {
  type CurveWork,
  circle,
  cubic,
  drawingOf,
  ellipse,
  ellipseArc,
  line,
  polyline,
} from '../support/curve-drawing.js';
import { box } from '../support/line-work.js';
import { neighbourPairs } from '../support/map-facts.js';

function mapped(lines: CurveWork): RegionMap {
  const map = mapRegions(drawingOf(lines));
  expect(verifyRegionMap(map)).toEqual([]);
  return map;
}

const kinds = (map: RegionMap): Record<string, number> => {
  const count: Record<string, number> = {};
  for (const { kind } of map.edges) count[kind] = (count[kind] ?? 0) + 1;
  return count;
};

const backwards = (curves: readonly Curve[]): Curve[] =>
  curves.map((curve) => subCurve(curve, 1, 0)).reverse();

describe('one border, however often it is drawn', () => {
  const wave = cubic([-40, 0], [-10, 45], [5, -38], [38, 6]);
  const box1 = polyline(box(-40, -60, 78, 120));
  const halves: CurveWork = [
    polyline([
      [-40, 0],
      [-40, -60],
      [38, -60],
      [38, 6],
    ]),
    polyline([
      [38, 6],
      [38, 60],
      [-40, 60],
      [-40, 0],
    ]),
  ];

  it.each<[string, CurveWork]>([
    ['once', [[wave]]],
    ['twice', [[wave], [wave]]],
    ['backwards', [[wave], backwards([wave])]],
    ['whole and in two pieces', [[wave], [subCurve(wave, 0, 0.37), subCurve(wave, 0.37, 1)]]],
    [
      'in pieces split in other places',
      [
        [subCurve(wave, 0, 0.37), subCurve(wave, 0.37, 1)],
        [subCurve(wave, 1, 0.71), subCurve(wave, 0.71, 0.2), subCurve(wave, 0.2, 0)],
      ],
    ],
    ['overlapping in part', [[subCurve(wave, 0, 0.7)], [subCurve(wave, 1, 0.3)]]],
    [
      'in three parts that overlap',
      [[subCurve(wave, 0, 0.55)], [subCurve(wave, 0.8, 0.25)], [subCurve(wave, 0.4, 1)], [wave]],
    ],
  ])('a wave across a box, %s', (_, lines) => {
    const map = mapped([...halves, ...lines]);
    expect(map.regions.length).toBe(2);
    expect(map.counts.mergedSlivers).toBe(0);
    expect(kinds(map).vein ?? 0).toBe(0);
    expect(neighbourPairs(map)).toBe(1);
    expect(map.regions[0].area + map.regions[1].area).toBeCloseTo(78 * 120, 6);
    expect(box1.length).toBe(4);
  });

  it.each<[string, CurveWork]>([
    ['twice', [circle([0, 0], 20), circle([0, 0], 20)]],
    ['the other way round', [circle([0, 0], 20), circle([0, 0], 20, 0, -1)]],
    ['started elsewhere', [circle([0, 0], 20), circle([0, 0], 20, 33)]],
    ['started elsewhere, the other way round', [circle([0, 0], 20, 10), circle([0, 0], 20, 277, -1)]],
    ['and in thirds', [circle([0, 0], 20), [0, 120, 240].map((at) => ellipseArc([0, 0], 20, 20, at, 120))]],
    ['as one path traced twice', [[...circle([0, 0], 20), ...circle([0, 0], 20)]]],
  ])('a circle drawn again: %s', (_, lines) => {
    const map = mapped(lines);
    expect(map.regions.length).toBe(1);
    expect(map.regions[0].area / (400 * Math.PI)).toBeCloseTo(1, 6);
    expect(kinds(map).vein ?? 0).toBe(0);
  });

  it('neighbours that each draw the border between them', () => {
    const left: Curve[] = [
      ...polyline([
        [0, -30],
        [-50, -30],
        [-50, 30],
        [0, 30],
      ]),
      cubic([0, 30], [20, 10], [-20, -10], [0, -30]),
    ];
    const right: Curve[] = [
      ...polyline([
        [0, -30],
        [50, -30],
        [50, 30],
        [0, 30],
      ]),
      cubic([0, 30], [20, 10], [-20, -10], [0, -30]),
    ];
    const map = mapped([left, right]);
    expect(map.regions.length).toBe(2);
    expect(neighbourPairs(map)).toBe(1);
    expect(map.regions.map(({ area }) => area / 3000)).toEqual([expect.closeTo(1, 9), expect.closeTo(1, 9)]);
  });
});

describe('touching in a point', () => {
  it.each<[string, number, number]>([
    ['on the grid', 20, 10],
    ['off the grid', 20.1234567, 9.8765432],
  ])('circles side by side, %s', (_, r, s) => {
    const map = mapped([circle([0, 0], r), circle([r + s, 0], s)]);
    expect(map.regions.length).toBe(2);
    expect(neighbourPairs(map)).toBe(0);
  });

  it('a circle inside another, tangent to it', () => {
    const map = mapped([circle([0, 0], 20), circle([12, 0], 8)]);
    expect(map.regions.length).toBe(2);
    expect(neighbourPairs(map)).toBe(1);
  });

  it('two ellipses tangent across a common tangent that is no axis', () => {
    const map = mapped([ellipse([0, 0], 13, 5, 30), ellipse([0, 0], 5, 5, 0)]);
    expect(map.regions.map(({ area }) => Math.round(area)).sort((a, b) => a - b)).toEqual([63, 63, 79]);
  });

  it('a line that touches a circle', () => {
    const map = mapped([circle([0, 0], 20), [line([-50, 20], [50, 20])]]);
    expect(map.regions.length).toBe(1);
    expect(map.regions[0].area).toBeCloseTo(400 * Math.PI, 6);
  });

  it('three circles through one point', () => {
    const at: Point[] = [0, 1, 2].map((i) => [10 * Math.cos(2.1 * i), 10 * Math.sin(2.1 * i)]);
    const map = mapped(at.map((centre) => circle(centre, 10)));
    // Nodes: the common point (six ends) and three more crossings (four each): 9 edges, 9 − 4 + 1 faces.
    expect(map.regions.length).toBe(6);
  });
});

describe('a curve on its own', () => {
  it('a cusp bounds nothing', () => {
    const map = mapped([[cubic([0, 0], [40, 40], [0, 40], [40, 0])]]);
    expect(map.regions.length).toBe(0);
    expect(map.outsideVeins.length).toBeGreaterThan(0);
  });

  it('a loop in a cubic bounds one region, its ends are veins', () => {
    const map = mapped([[cubic([0, 0], [60, 40], [-20, 40], [40, 0])]]);
    expect(map.regions.length).toBe(1);
    expect(kinds(map)).toEqual({ border: 1, vein: 2 });
  });

  it('a closed figure of eight bounds two regions that meet in a point', () => {
    const eight: Curve[] = [
      cubic([0, 0], [40, -40], [40, 40], [0, 0]),
      cubic([0, 0], [-40, -40], [-40, 40], [0, 0]),
    ];
    const map = mapped([eight]);
    expect(map.regions.length).toBe(2);
    expect(neighbourPairs(map)).toBe(0);
  });

  it('a five-pointed star drawn with one line', () => {
    const points = Array.from(
      { length: 6 },
      (_, i): Point => [30 * Math.cos((i * 4 * Math.PI) / 5), 30 * Math.sin((i * 4 * Math.PI) / 5)],
    );
    const map = mapped([polyline([...points.slice(0, 5), points[0]])]);
    expect(map.regions.length).toBe(6);
    expect(neighbourPairs(map)).toBe(5);
  });
});
