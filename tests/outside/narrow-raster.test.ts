import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { areaBoundary } from '../../src/geometry/narrow/area-boundary.js';
import { narrowPlaces } from '../../src/geometry/narrow-places.js';
import type { Point } from '../../src/geometry/point.js';
import { polygon } from '../geometry/narrow/shapes.js';

// Reference: the saddles of SciPy's exact Euclidean distance transform on a raster, by narrow-raster.py.
interface Raster {
  readonly pixel: number;
  readonly prominence: number;
  readonly areas: readonly {
    readonly loops: Point[][];
    /** x, y, width */
    readonly necks: readonly (readonly [number, number, number])[];
  }[];
}

const raster = JSON.parse(readFileSync(new URL('./narrow-raster.json', import.meta.url), 'utf8')) as Raster;

/** Wider than any of the necks. */
const ALL = 40;

describe.each(raster.areas.map((area, k) => [k, area] as const))('raster area %i', (_, { loops, necks }) => {
  const boundary = areaBoundary(loops.map(polygon));
  // Heights are off by up to a pixel, and so is the place of a saddle across; along its ridge it is off by more.
  const slack = 3 * raster.pixel;
  const reach = 16 * raster.pixel;

  test('each saddle of the raster is a neck', () => {
    expect(necks.length).toBeGreaterThan(0);
    const found = narrowPlaces(boundary, ALL, { rise: raster.prominence - 2 * slack });
    for (const [x, y, width] of necks) {
      const near = found.filter(({ at }) => Math.hypot(at[0] - x, at[1] - y) < reach);
      expect(near.some((n) => Math.abs(n.width - width) < slack)).toBe(true);
    }
  });

  test('each neck that is deep enough is a saddle of the raster', () => {
    const deep = narrowPlaces(boundary, ALL, { rise: raster.prominence + 2 * slack });
    expect(deep.length).toBeGreaterThan(0);
    for (const { at, width } of deep) {
      const near = necks.filter(([x, y]) => Math.hypot(at[0] - x, at[1] - y) < reach);
      expect(near.some(([, , w]) => Math.abs(width - w) < slack)).toBe(true);
    }
  });
});
