/**
 * Regions beside what a renderer paints: the lines are drawn with @resvg/resvg-js, and the white areas between
 * them are filled pixel by pixel. As many as there are regions, each the size of its region less the half of
 * the pen along its border. Line work whose features are several pixels wide.
 */
import { describe, expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { arrangeLines } from '../../src/plane/arrange-lines.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { grid } from '../bench/generate/line-sets.js';
import { mosaic, tJunctions } from '../bench/generate/t-junctions.js';
import { rounded } from '../bench/generate/workload.js';
import { facePoints } from '../support/arrangement-facts.js';
import { floodFill } from '../support/flood-fill.js';
import { type LineWork, lineSet } from '../support/line-work.js';

/** Pixels a millimetre, and the pen's width in mm: 1.6 pixels leave no hole for four-neighbour filling. */
const DPMM = 14;
const PEN = 1.6 / DPMM;
const MARGIN = 2;

/** The pen cuts off tips of acute corners; patches of so few pixels are such. */
const TIP = 40;

interface Sized {
  readonly area: number;
  readonly border: number;
  readonly at: readonly [number, number];
}

/** Compares regions with the patches of `path` drawn on a page of `size` mm. */
function compare(path: string, size: number, regions: readonly Sized[]): void {
  const side = size + 2 * MARGIN;
  const frame = `viewBox="${-MARGIN} ${-MARGIN} ${side} ${side}" width="${Math.round(side * DPMM)}" height="${Math.round(side * DPMM)}"`;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" ${frame}><path d="${path}" fill="none" stroke="black" stroke-width="${PEN}"/></svg>`;
  const { width, patches, patchOf } = floodFill(svg);
  const scale = width / side;
  expect(patches.filter((patch) => !patch.outer && patch.pixels > TIP).length).toBe(regions.length);
  const seen = new Set<number>();
  for (const { area, border, at } of regions) {
    const [x, y] = at.map((v) => Math.floor((v + MARGIN) * scale));
    const patch = patchOf[y * width + x];
    expect(patch).toBeGreaterThanOrEqual(0);
    seen.add(patch);
    const painted = patches[patch].pixels / scale ** 2;
    // The rounding to whole pixels averages out along a border; a fifth of a pixel all along it does not.
    expect(Math.abs(painted - (area - (PEN / 2) * border))).toBeLessThan((0.2 * border + 3 * PEN) / scale);
  }
  expect(seen.size).toBe(regions.length);
}

function straightPath(lines: LineWork): string {
  return lines.map((line) => `M${line.map(([x, y]) => `${x} ${y}`).join('L')}`).join('');
}

function expectPainted(lines: LineWork): void {
  const a = arrangeLines(lineSet(lines));
  const size = lines.flat().reduce((most, [x, y]) => Math.max(most, x, y), 0);
  const points = facePoints(a);
  const regions = points.map((at, f): Sized => {
    let border = a.faceOutsideLength[f];
    for (let i = a.adjacencyStart[f]; i < a.adjacencyStart[f + 1]; i++) border += a.adjacencyLength[i];
    return { area: a.faceArea[f], border, at };
  });
  compare(straightPath(lines), size, regions);
}

describe('straight lines', () => {
  it('a split square', () => expectPainted(tJunctions(70, 3).lines));
  it('its faces drawn one by one, with two decimals', () => expectPainted(rounded(mosaic(70, 4), 2).lines));
  it('a grid', () => {
    // Lines end beyond the last crossings: those ends bound nothing, and the pen paints them.
    const lines = grid(12, 2).lines;
    const a = arrangeLines(lineSet(lines));
    const { patches } = floodFill(
      `<svg xmlns="http://www.w3.org/2000/svg" viewBox="-1 -1 54 54" width="800" height="800"><path d="${straightPath(lines)}" fill="none" stroke="black" stroke-width="0.12"/></svg>`,
    );
    expect(patches.filter((patch) => !patch.outer).length).toBe(a.faceCount);
  });
});

describe('curves, from the text of a drawing', () => {
  it.each([
    [
      'circles and a wave',
      'M28 6a22 22 0 1 0 .001 0zM40 20a17 11 20 1 0 .001 0zM2 40C20 10 35 70 58 30M2 20H58M12 55Q30 20 50 55z',
    ],
    [
      'petals',
      'M30 30C10 0 50 0 30 30C60 10 60 50 30 30C50 60 10 60 30 30C0 50 0 10 30 30M30 8A22 22 0 0 1 30 52A22 22 0 0 1 30 8z',
    ],
  ])('%s', (_, path) => {
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60"><path d="${path}" fill="none" stroke="black"/></svg>`;
    const map = mapRegions(readDrawing(svg));
    expect(map.regions.length).toBeGreaterThan(5);
    compare(
      path,
      60,
      map.regions.map((region): Sized => {
        const border = region.neighbours.reduce((sum, n) => sum + n.length, region.outsideLength);
        const veins = region.veins.reduce((sum, e) => sum + 2 * map.edges[e].length, 0);
        return { area: region.area, border: border + veins, at: region.labelPoint };
      }),
    );
  });
});
