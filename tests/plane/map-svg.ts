import { expect } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import type { MapOptions, RegionMap } from '../../src/plane/region-map.js';
import { verifyRegionMap } from '../../src/plane/verify-region-map.js';

/** Maps SVG elements on a page of 100 × 100 mm, one user unit to the millimetre; the map must be valid. */
export function mapSvg(body: string, options: MapOptions = {}): RegionMap {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100"><g fill="none" stroke="black">${body}</g></svg>`;
  const map = mapRegions(readDrawing(svg), options);
  expect(verifyRegionMap(map)).toEqual([]);
  return map;
}

/** Areas of the regions, mm², largest first. */
export function areasOf(map: RegionMap): number[] {
  return map.regions.map(({ area }) => area).sort((a, b) => b - a);
}

/** The region at a point, by its id; null outside. */
export function idAt(map: RegionMap, index: number): string | null {
  return index < 0 ? null : map.regions[index].id;
}
