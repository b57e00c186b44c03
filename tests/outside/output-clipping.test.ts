/**
 * Sheets against polygon-clipping (registry, MIT): an independent union of the regions that a level carries.
 */
import polygonClipping, { type MultiPolygon, type Polygon, type Ring } from 'polygon-clipping';
import { describe, expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { flattenParameters, flattenPoints } from '../../src/geometry/flatten.js';
import { NOTHING, sheetMaterial } from '../../src/output/sheet-material.js';
import { writeSheets } from '../../src/output/write-sheets.js';
import { loopCurves } from '../../src/plane/edge-curves.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import type { Region, RegionMap } from '../../src/plane/region-map.js';
import { JOBS, reliefOf } from '../output/jobs.js';

/** Flattening of the polygons, mm. */
const FLATNESS = 0.002;

/** The two flattenings and the rounding of the file may differ by this for each mm of border, mm² per mm. */
const AREA_PER_BORDER = 0.005;

function polygonOf(map: RegionMap, region: Region, [dx, dy]: readonly number[] = [0, 0]): Polygon {
  return region.loops.map((loop): Ring => {
    const ring: Ring = [];
    for (const curve of loopCurves(map, loop)) {
      const points = flattenPoints(curve, flattenParameters(curve, FLATNESS), FLATNESS);
      // On a grid of 1e-4 mm, since the library's own sweep is not robust on nearly equal points.
      for (let i = 0; i < points.length; i += 2) {
        ring.push(
          [points[i] + dx, points[i + 1] + dy].map((v) => Math.round(v * 1e4) / 1e4) as [number, number],
        );
      }
    }
    return ring;
  });
}

const ringArea = (ring: Ring): number =>
  ring.reduce((sum, [x, y], i) => {
    const [u, v] = ring[(i + 1) % ring.length];
    return sum + (x * v - u * y) / 2;
  }, 0);

const areaOf = (shapes: MultiPolygon): number => shapes.flat().reduce((sum, ring) => sum + ringArea(ring), 0);

const ringLength = (ring: Ring): number =>
  ring.reduce((sum, [x, y], i) => {
    const [u, v] = ring[(i + 1) % ring.length];
    return sum + Math.hypot(u - x, v - y);
  }, 0);

function holds(shapes: MultiPolygon, [x, y]: readonly [number, number]): boolean {
  let inside = false;
  for (const ring of shapes.flat()) {
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
      const [[ax, ay], [bx, by]] = [ring[i], ring[j]];
      if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
    }
  }
  return inside;
}

describe.each(JOBS)('%s', (path) => {
  const relief = reliefOf(path, 'continuous');
  it.each(writeSheets({ relief }).filter((sheet) => sheet.sheet !== null))(
    'writes as $name what polygon-clipping unites',
    ({ sheet, svg }) => {
      const index = relief.stack.sheets.findIndex((each) => each.id === sheet);
      const material = sheetMaterial(relief, index);
      const carried = relief.map.regions.filter((_, region) => material[region] !== NOTHING);
      const level = Number(relief.stack.sheets.length - index);
      // What is carried follows from the numbers alone.
      const numbers = relief.regions.filter(
        (region, i) => !relief.map.regions[i].addOn && (region.depth ?? 0) >= level,
      );
      expect(carried.length).toBe(numbers.length);
      if (carried.length === 0) return;
      const [first, ...rest] = carried.map((region) => polygonOf(relief.map, region));
      const union = polygonClipping.union(first, ...rest);
      const back = mapRegions(readDrawing(svg), { gap: 0 });
      // A reader puts the corner of the page at 0, 0.
      const corner = /viewBox="([^"]+)"/.exec(svg)![1].split(' ').map(Number);
      const kept = back.regions.filter(({ labelPoint: [x, y] }) =>
        holds(union, [x + corner[0], y + corner[1]]),
      );
      const [one, ...others] = kept.map((region) => polygonOf(back, region, corner));
      const difference = polygonClipping.xor(union, polygonClipping.union(one, ...others));
      const borders = union.flat().reduce((sum, ring) => sum + ringLength(ring), 0);
      expect(Math.abs(areaOf(difference))).toBeLessThan(AREA_PER_BORDER * borders);
      expect(Math.abs(areaOf(union))).toBeGreaterThan(100);
    },
  );
});
