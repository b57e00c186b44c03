/**
 * Written sheets against @resvg/resvg-js (registry, MPL-2.0), an independent SVG renderer: the paper between the
 * painted lines, flood-filled, has the areas of the regions.
 */
import { Resvg } from '@resvg/resvg-js';
import { describe, expect, it } from 'vitest';
import { sheetMaterial } from '../../src/output/sheet-material.js';
import { writeSheets } from '../../src/output/write-sheets.js';
import { JOBS, reliefOf, shownGroups } from '../output/jobs.js';

/** Pixels a mm, and the width of the written lines in mm. */
const SCALE = 12;
const LINE = 0.15;

/** A line takes half its width from each side, give or take part of a pixel, mm. */
const SLACK = 0.7 / SCALE;

/** Regions that the lines nearly fill say nothing, mm. */
const LEAST_ROOM = 0.4;

interface Raster {
  readonly width: number;
  readonly height: number;
  /** 1: painted; 0: paper not yet filled; 2: filled. */
  readonly cells: Uint8Array;
}

function render(svg: string): Raster {
  const image = new Resvg(svg, { fitTo: { mode: 'zoom', value: 1 }, background: '#fff' }).render();
  const { pixels, width, height } = image;
  const cells = new Uint8Array(width * height);
  for (let i = 0; i < cells.length; i++) cells[i] = pixels[4 * i] < 128 ? 1 : 0;
  return { width, height, cells };
}

/** Fills the paper around a pixel and counts it. */
function flood({ width, height, cells }: Raster, x: number, y: number): number {
  const stack = [y * width + x];
  let count = 0;
  while (stack.length > 0) {
    const at = stack.pop()!;
    if (cells[at] !== 0) continue;
    cells[at] = 2;
    count++;
    const column = at % width;
    if (column > 0) stack.push(at - 1);
    if (column < width - 1) stack.push(at + 1);
    if (at >= width) stack.push(at - width);
    if (at < width * (height - 1)) stack.push(at + width);
  }
  return count;
}

describe.each(JOBS)('%s', (path) => {
  const relief = reliefOf(path, 'pieces');
  const { map } = relief;
  const sheets = writeSheets({ relief }, { margin: 1, marks: false, registration: false });

  it.each(relief.stack.sheets.map((sheet, index) => [sheet.id, index] as const))(
    'paints sheet %s so that the paper between the lines has the areas of the regions',
    (id, index) => {
      const { svg } = sheets.find((sheet) => sheet.sheet === id)!;
      const [x0, y0, width, height] = /viewBox="([^"]+)"/.exec(svg)![1].split(' ').map(Number);
      const sized = svg
        .replace(/width="[^"]+mm" height="[^"]+mm"/, `width="${width * SCALE}" height="${height * SCALE}"`)
        // Veins are cut into the regions and would part nothing.
        .replace(/<g id="vein"[\s\S]*?<\/g>/, '');
      const raster = render(sized);
      const groups = shownGroups(map, sheetMaterial(relief, index));
      let compared = 0;
      for (const group of groups) {
        const inner = group.reduce((a, b) => (map.regions[b].labelRoom > map.regions[a].labelRoom ? b : a));
        const { labelPoint, labelRoom } = map.regions[inner];
        if (labelRoom < LEAST_ROOM) continue;
        const [x, y] = [labelPoint[0] - x0, labelPoint[1] - y0].map((value) => Math.floor(value * SCALE));
        const painted = flood(raster, x, y) / SCALE ** 2;
        const area = group.reduce((sum, region) => sum + map.regions[region].area, 0);
        const border = borderOf(group);
        expect(Math.abs(painted + (border * LINE) / 2 - area), map.regions[inner].id).toBeLessThan(
          border * SLACK,
        );
        compared++;
      }
      if (groups.length > 0) expect(compared).toBeGreaterThan(0);
    },
  );

  /** Length of the lines around a group, mm. */
  function borderOf(group: readonly number[]): number {
    const members = new Set(group);
    return map.edges.reduce(
      (sum, edge) => (members.has(edge.left) !== members.has(edge.right) ? sum + edge.length : sum),
      0,
    );
  }
});
