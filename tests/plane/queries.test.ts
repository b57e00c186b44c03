import { describe, expect, it } from 'vitest';
import { polygonArea } from '../../src/geometry/curve-area.js';
import { curveLength } from '../../src/geometry/curve-length.js';
import { regionAt } from '../../src/plane/region-at.js';
import { findRegionAt, findRegionsIn, indexRegions } from '../../src/plane/region-index.js';
import { OUTSIDE } from '../../src/plane/region-map.js';
import {
  borderBetween,
  nestingLevel,
  pathOut,
  regionsAround,
  walkAround,
} from '../../src/plane/region-queries.js';
import { regionFeatures, regionRings } from '../../src/plane/region-rings.js';
import { mapSvg } from './map-svg.js';

/** A frame with a disc that holds a smaller one, halved by a line. */
const map = mapSvg(
  '<path d="M10 10H90V90H10Z"/><circle cx="50" cy="50" r="30"/><circle cx="50" cy="50" r="12"/><path d="M50 38V62"/>',
);
const index = indexRegions(map);
const at = (x: number, y: number): number => findRegionAt(map, index, [x, y]);

describe('queries on a region map', () => {
  it('the region at a point, with and without an index', () => {
    for (const [x, y] of [
      [15, 15],
      [50, 25],
      [45, 50],
      [55, 50],
      [5, 5],
      [95, 50],
    ] as const) {
      expect(at(x, y)).toBe(regionAt(map, [x, y]));
    }
    expect(at(5, 5)).toBe(OUTSIDE);
    expect(new Set([at(15, 15), at(50, 25), at(45, 50), at(55, 50)]).size).toBe(4);
  });

  it('regions in a box: those whose border it meets, and the one around it', () => {
    expect(findRegionsIn(map, index, [44, 45, 46, 46])).toEqual([at(45, 45)]);
    expect(findRegionsIn(map, index, [45, 45, 55, 55])).toEqual([at(45, 50), at(55, 50)].sort());
    expect(findRegionsIn(map, index, [0, 0, 100, 100])).toEqual([0, 1, 2, 3]);
    expect(findRegionsIn(map, index, [1, 1, 2, 2])).toEqual([]);
  });

  it('the border between two regions, in one run where it is one', () => {
    const runs = borderBetween(map, at(45, 50), at(55, 50));
    expect(runs).toHaveLength(1);
    expect(runs[0].reduce((sum, c) => sum + curveLength(c), 0)).toBeCloseTo(24, 9);
    expect(borderBetween(map, at(15, 15), at(45, 50))).toEqual([]);
    const outer = borderBetween(map, OUTSIDE, at(15, 15));
    expect(outer.flat().reduce((sum, c) => sum + curveLength(c), 0)).toBeCloseTo(320, 9);
  });

  it('the walk around a region tells what lies across each edge', () => {
    const [outline, hole] = walkAround(map, at(50, 25));
    expect(new Set(outline.map(({ across }) => across))).toEqual(new Set([at(15, 15)]));
    expect(new Set(hole.map(({ across }) => across))).toEqual(new Set([at(45, 50), at(55, 50)]));
  });

  it('regions around a node', () => {
    const node = map.nodes.findIndex(({ at: [x, y] }) => x === 50 && y === 38);
    const around = regionsAround(map, node);
    expect([...around].sort()).toEqual([at(50, 25), at(45, 50), at(55, 50)].sort());
  });

  it('nesting levels and ways out', () => {
    expect([at(15, 15), at(50, 25), at(45, 50)].map((r) => nestingLevel(map, r))).toEqual([0, 1, 2]);
    expect(pathOut(map, at(45, 50))).toEqual([at(45, 50), at(50, 25), at(15, 15)]);
    expect(pathOut(map, at(15, 15))).toEqual([at(15, 15)]);
  });

  it('rings turn as RFC 7946 wants: outline counterclockwise, holes clockwise, y up, closed', () => {
    map.regions.forEach((region, r) => {
      const rings = regionRings(map, r, 0.001);
      rings.forEach((ring, i) => {
        expect(ring.length).toBeGreaterThanOrEqual(4);
        expect(ring[0]).toEqual(ring[ring.length - 1]);
        expect(Math.sign(polygonArea(ring.slice(0, -1)))).toBe(i === 0 ? 1 : -1);
      });
      const area = rings.reduce((sum, ring) => sum + polygonArea(ring.slice(0, -1)), 0);
      // Chords cut off at most the tolerance all along the border.
      const border = region.loops.flat().reduce((sum, { edge }) => sum + map.edges[edge].length, 0);
      expect(Math.abs(area - region.area)).toBeLessThan(0.001 * border);
    });
    expect(regionFeatures(map)[at(45, 50)].properties.inside).toBe(map.regions[at(50, 25)].id);
  });
});
