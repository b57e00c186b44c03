import { describe, expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { regionAt } from '../../src/plane/region-at.js';
import { findRegionAt, indexRegions } from '../../src/plane/region-index.js';

/** Feathers that meet in (20, 20) and (40, 20), and labels straight below those nodes. */
const SCALES = `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60">
  <path fill="none" stroke="#000" d="M2 2 H58 V58 H2 Z M2 12 C8 14 16 16 20 20 C24 16 36 16 40 20 C44 16 52 14 58 12
    M20 20 C22 26 26 32 30 36 C34 32 38 26 40 20 M20 20 C18 26 14 32 2 40 M40 20 C42 26 46 32 58 40 M20 20 H40"/>
  <text x="20" y="25" font-size="3" text-anchor="middle">1</text>
  <text x="40" y="25" font-size="3" text-anchor="middle">2</text>
</svg>`;

describe('a point straight below a node', () => {
  const map = mapRegions(readDrawing(SCALES));
  const index = indexRegions(map);

  it('lies in the same region by the index as by the loops', () => {
    for (const { truePoint } of map.nodes) {
      for (let y = 2.7; y < 58; y += 0.7) {
        const place = [truePoint[0], y] as const;
        expect(findRegionAt(map, index, place), `at ${place}`).toBe(regionAt(map, place));
      }
    }
  });

  it('gives a label to the region that it lies in', () => {
    for (const label of map.labels) {
      expect([20, 40].some((x) => Math.abs(label.at[0] - x) < 1e-9)).toBe(true);
      expect(label.region).toBe(regionAt(map, label.at));
    }
  });
});
