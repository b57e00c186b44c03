/**
 * Regions with areas known in closed form: elementary geometry, and Green's theorem for a cubic Bézier. Where
 * all nodes lie on the grid the area must be right to 1e-9; elsewhere to what rounding the nodes can do.
 */
import { describe, expect, it } from 'vitest';
import type { Curve } from '../../src/geometry/curve.js';
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
import { closed } from '../support/line-work.js';
import { areaBound, regionAreas } from '../support/map-facts.js';

function mapped(lines: CurveWork): RegionMap {
  const map = mapRegions(drawingOf(lines));
  expect(verifyRegionMap(map)).toEqual([]);
  expect(map.findings).toEqual([]);
  return map;
}

/** All areas, ascending, each within `relative` of what is meant. */
function expectAreas(map: RegionMap, meant: readonly number[], relative: number): void {
  const found = regionAreas(map);
  expect(found.length).toBe(meant.length);
  const ordered = [...meant].sort((a, b) => a - b);
  for (const [i, area] of found.entries())
    expect(Math.abs(area - ordered[i])).toBeLessThanOrEqual(relative * ordered[i]);
}

/** Twice the area between a cubic and the origin: Green's theorem, ½∮(x dy − y dx) in Bernstein form. */
function cubicArea([p, q, r, s]: readonly Point[]): number {
  const cross = (a: Point, b: Point): number => a[0] * b[1] - a[1] * b[0];
  const sum =
    6 * cross(p, q) + 3 * cross(p, r) + cross(p, s) + 3 * cross(q, r) + 3 * cross(q, s) + 6 * cross(r, s);
  return sum / 20;
}

describe('nodes on the grid: right to 1e-9', () => {
  const EXACT = 1e-9;

  it('lens of two circles', () => {
    // Radius 5, centres 6 apart: they cross at (3, ±4).
    const [r, d] = [5, 6];
    const lens = 2 * r * r * Math.acos(d / (2 * r)) - (d / 2) * Math.sqrt(4 * r * r - d * d);
    const lune = Math.PI * r * r - lens;
    expectAreas(mapped([circle([0, 0], r), circle([d, 0], r)]), [lens, lune, lune], EXACT);
  });

  it('annulus', () => {
    const map = mapped([circle([0, 0], 10), circle([1, 2], 4)]);
    expectAreas(map, [Math.PI * 16, Math.PI * 84], EXACT);
    const hole = map.regions.findIndex((region) => region.area < 100);
    expect(map.regions[hole].inside).toBe(1 - hole);
    expect(map.regions[hole].outsideLength).toBe(0);
    expect(map.regions[hole].neighbours[0].length).toBeCloseTo(8 * Math.PI, 9);
    expect(map.regions[1 - hole].outsideLength).toBeCloseTo(20 * Math.PI, 9);
  });

  it('ellipse', () => {
    expectAreas(mapped([ellipse([3, -2], 12, 7)]), [Math.PI * 84], EXACT);
    // The major axis of a turned ellipse ends on the grid: 13 mm along (5, 12).
    const turn = (Math.atan2(12, 5) * 180) / Math.PI;
    const [a, b] = ellipse([0, 0], 13, 4, turn);
    const onGrid: Curve[] = [
      { ...a, from: [5, 12], to: [-5, -12] },
      { ...b, from: [-5, -12], to: [5, 12] },
    ];
    expectAreas(mapped([onGrid]), [Math.PI * 52], EXACT);
  });

  it('segment and half disc cut by a chord', () => {
    // The chord x = 3 of a circle of radius 5 ends at (3, ±4).
    const chord = line([3, -4], [3, 4]);
    const segment = 25 * Math.acos(3 / 5) - 3 * 4;
    expectAreas(mapped([circle([0, 0], 5), [chord]]), [segment, 25 * Math.PI - segment], EXACT);
    const half = [ellipseArc([0, 0], 8, 8, 0, 180), line([-8, 0], [8, 0])];
    const pinned: Curve[] = [{ ...half[0], from: [8, 0], to: [-8, 0] }, half[1]];
    expectAreas(mapped([pinned]), [32 * Math.PI], EXACT);
  });

  it('cubic and its chord', () => {
    const points: Point[] = [
      [0, 0],
      [10, 30],
      [35, 25],
      [40, 5],
    ];
    const [p, q, r, s] = points;
    const area = Math.abs(cubicArea(points) + (s[0] * p[1] - s[1] * p[0]) / 2);
    expectAreas(mapped([[cubic(p, q, r, s), line(s, p)]]), [area], EXACT);
    expectAreas(mapped([[cubic(p, q, r, s)], [line(p, s)]]), [area], EXACT);
  });

  it('lines in a frame: one region a line, one more a crossing', () => {
    const frame = polyline(
      closed([
        [-64, -64],
        [64, -64],
        [64, 64],
        [-64, 64],
      ]),
    );
    // n lines through the frame at distinct slopes: 3 + k crossings inside.
    const lines = [
      line([-64, -32], [64, 32]),
      line([-64, 32], [64, -32]),
      line([-64, 8], [64, 8]),
      line([-24, -64], [-24, 64]),
    ];
    const map = mapped([frame, ...lines.map((l) => [l])]);
    // Crossings inside: the two slanted lines at (0, 0), each with the level line and the upright one, and
    // those two with each other.
    expect(map.regions.length).toBe(1 + 4 + 6);
    expect(map.regions.reduce((sum, region) => sum + region.area, 0)).toBeCloseTo(128 * 128, 8);
  });
});

describe('nodes off the grid: right to what rounding can do', () => {
  it.each([2, 3, 4, 5, 6])('%i circles in general position bound n² − n + 1 regions', (n) => {
    const radius = 50;
    const centres = Array.from({ length: n }, (_, i): Point => {
      const angle = 2.4 * i + 0.3;
      const away = 14 + 3.7 * i;
      return [away * Math.cos(angle), away * Math.sin(angle)];
    });
    const map = mapped(centres.map((at) => circle(at, radius)));
    expect(map.regions.length).toBe(n * n - n + 1);
    // The areas weighted with how many discs cover them are n discs.
    let covered = 0;
    for (const { area, labelPoint } of map.regions) {
      const discs = centres.filter((c) => Math.hypot(c[0] - labelPoint[0], c[1] - labelPoint[1]) < radius);
      covered += area * discs.length;
    }
    const meant = n * Math.PI * radius * radius;
    expect(Math.abs(covered - meant)).toBeLessThan(areaBound(map, 2 * radius));
    // True sub-curves keep nearly all of it: far below what chords of 0.005 mm would lose (about 1e-4).
    expect(Math.abs(covered - meant) / meant).toBeLessThan(1e-6);
  });

  it('lens of circles that cross off the grid', () => {
    const [r, d] = [7, 4.3];
    const lens = 2 * r * r * Math.acos(d / (2 * r)) - (d / 2) * Math.sqrt(4 * r * r - d * d);
    const map = mapped([circle([0, 0], r), circle([d, 0], r)]);
    const [, , found] = regionAreas(map);
    expect(Math.abs(found - lens)).toBeLessThan(areaBound(map, 2 * r));
  });

  it('a cubic that crosses itself: its loop', () => {
    // x and y are those of the classic loop; the loop's area is found by Green between the two parameters.
    const points: Point[] = [
      [0, 0],
      [60, 40],
      [-20, 40],
      [40, 0],
    ];
    const map = mapRegions(drawingOf([[cubic(points[0], points[1], points[2], points[3])]]));
    expect(verifyRegionMap(map)).toEqual([]);
    expect(map.regions.length).toBe(1);
    expect(Math.abs(map.regions[0].area - loopArea(points))).toBeLessThan(areaBound(map, 40));
  });
});

/** Area of the loop of a cubic that is its own mirror image about x = 20: between t and 1 − t with equal points. */
function loopArea(points: readonly Point[]): number {
  const [p, q, r, s] = points;
  const at = (t: number): Point => {
    const u = 1 - t;
    const w = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
    return [
      w[0] * p[0] + w[1] * q[0] + w[2] * r[0] + w[3] * s[0],
      w[0] * p[1] + w[1] * q[1] + w[2] * r[1] + w[3] * s[1],
    ];
  };
  // x(t) = 20 at the crossing, by bisection on the way from the start to the middle.
  let [low, high] = [0.01, 0.45];
  for (let i = 0; i < 100; i++) {
    const middle = (low + high) / 2;
    if (at(middle)[0] < 20) low = middle;
    else high = middle;
  }
  let twice = 0;
  const steps = 200_000;
  for (let i = 0; i < steps; i++) {
    const a = at(low + ((1 - 2 * low) * i) / steps);
    const b = at(low + ((1 - 2 * low) * (i + 1)) / steps);
    twice += a[0] * b[1] - a[1] * b[0];
  }
  return Math.abs(twice) / 2;
}
