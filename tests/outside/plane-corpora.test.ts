/**
 * Hard line work collected from the trackers and tests of other geometry libraries, each case with an answer
 * found in rational arithmetic. The files are not part of this repository: PLYSTEP_HARD_GEOMETRY names the
 * folder that holds them (JSON Lines; the first line of a file tells source, commit and licence).
 *
 * A case is put on the grid by a shift and one power of two per axis, which keep its topology: its box fills
 * 2²³ to 2²⁴ steps each way. (One power for both axes would leave four cases, needles a few doubles wide,
 * thinner than a step.) Checked beforehand, in rational arithmetic, by rounding every case onto that grid:
 * all 633 clean cases keep their faces, though some 30 of them have a vertex nearer than a step to a line
 * that it is not on. In ten of those the hair between two faces closes, and they become neighbours; what the
 * rational rounding gave there stands in CLOSED_HAIRS, with the width of the hair in grid steps.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { GRID_STEP } from '../../src/geometry/grid.js';
import { arrangeLines } from '../../src/plane/arrange-lines.js';
import type { Arrangement } from '../../src/plane/arrangement.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { verifyArrangement } from '../../src/plane/verify-arrangement.js';
import { verifyRegionMap } from '../../src/plane/verify-region-map.js';
import { adjacentPairs, totalArea, totalLength } from '../support/arrangement-facts.js';
import { type CorpusCase, corpusLines, fitToGrid, readCorpus } from '../support/corpus.js';
import { drawingOf, polyline } from '../support/curve-drawing.js';
import { lineSet } from '../support/line-work.js';
import { neighbourPairs } from '../support/map-facts.js';

/** Pairs of neighbours once two borders that run nearer than a grid step to each other have become one. */
const CLOSED_HAIRS: Readonly<Record<string, { pairs: number; hair: number }>> = {
  'polygon-clipping/broken-issue-83': { pairs: 1, hair: 2e-9 },
  'polyclip-ts/issue-83': { pairs: 1, hair: 2e-9 },
  'polyclip-ts/issue-60-6': { pairs: 3, hair: 3e-5 },
  'polyclip-ts/dont-consume-prev-segment-3': { pairs: 1, hair: 5e-4 },
  'polyclip-ts/almost-parrallel-segments': { pairs: 3, hair: 5e-7 },
  'polyclip-ts/almost-parrallel-segments-2': { pairs: 3, hair: 4e-6 },
  'polyclip-ts/issue-61-2': { pairs: 3, hair: 7e-6 },
  'polyclip-ts/issue-68-1': { pairs: 1, hair: 2e-4 },
  'polyclip-ts/almost-colinear-segments-but-not': { pairs: 1, hair: 1e-6 },
  'turf/union/unable-to-complete-output-ring-1983-1': { pairs: 3, hair: 6e-9 },
};

/** A sliver case in which the rounding closes channels and so bounds more; by this area, found in the same way. */
const CLOSED_CHANNELS: Readonly<Record<string, number>> = {
  'martinez/genericTestCases/fatal2': 5.567467195747621e-9,
};

/** Meant faces that no power of two brings onto the grid: a pocket of 1e-9 of the sheet, which is 2²⁵ steps wide. */
const OUT_OF_RANGE: Readonly<Record<string, number>> = { 'own/mixed-scale': 1 };

/** Wide enough for everything on the grid, mm. */
const PAGE = 2 ** 15;

const folder = process.env.PLYSTEP_HARD_GEOMETRY;

describe('putting a case on the grid', () => {
  it('closes rings, fills the grid by powers of two, and keeps the topology', () => {
    const hole = [
      [0.001, 1e9],
      [0.002, 1e9],
      [0.002, 3e9],
    ];
    const frame = [
      [0, 0],
      [0.004, 0],
      [0.004, 4e9],
      [0, 4e9],
    ];
    const fit = fitToGrid(corpusLines([{ type: 'Polygon', coordinates: [frame, hole] }]));
    for (const scale of [fit.scaleX, fit.scaleY]) expect(Number.isInteger(Math.log2(scale))).toBe(true);
    const a = arrangeLines(lineSet(fit.lines), { weld: 0 });
    expect(Math.max(...a.nodeX) - Math.min(...a.nodeX)).toBeGreaterThanOrEqual(2 ** 23);
    expect([a.faceCount, adjacentPairs(a), a.componentCount]).toEqual([2, 1, 2]);
    expect(totalArea(a) / (0.004 * 4e9 * fit.scaleX * fit.scaleY)).toBeCloseTo(1, 6);
  });
});

if (folder !== undefined) {
  const files = readdirSync(folder).filter((name) => name.endsWith('.jsonl'));
  describe('hard geometry', () => {
    it('has cases', () => {
      expect(files).not.toEqual([]);
    });
    for (const file of files) {
      const cases = readCorpus(readFileSync(join(folder, file), 'utf8'));
      describe(file, () => {
        it('has cases', () => {
          expect(cases).not.toEqual([]);
        });
        for (const entry of cases) {
          it(`${entry.exact.class}: ${entry.id}`, () => checkCase(entry));
          it(`as a drawing: ${entry.id}`, () => checkDrawing(entry));
          if (entry.withGapTolerance !== undefined)
            it(`with gaps closed: ${entry.id}`, () => checkGaps(entry, entry.withGapTolerance ?? {}));
          if (entry.intendedFaces !== undefined)
            it(`as meant: ${entry.id}`, () => checkIntended(entry, entry.intendedFaces));
        }
      });
    }
  });
}

function checkCase(entry: CorpusCase): void {
  const fit = fitToGrid(corpusLines(entry.geoms));
  const a = arrangeLines(lineSet(fit.lines), { weld: 0 });
  expect(verifyArrangement(a)).toEqual([]);
  const { exact } = entry;
  if (exact.class === 'clean') {
    expect(a.faceCount).toBe(exact.F);
    expect(adjacentPairs(a)).toBe(CLOSED_HAIRS[entry.id]?.pairs ?? exact.adjPairs ?? 0);
  } else {
    expect(a.faceCount).toBeGreaterThanOrEqual(exact['F_gt_1e-6'] ?? 0);
  }
  const area = ((exact.area ?? 0) + (CLOSED_CHANNELS[entry.id] ?? 0)) * fit.scaleX * fit.scaleY;
  expect(Math.abs(totalArea(a) - area)).toBeLessThanOrEqual(areaBound(a, area));
}

/** Off: nothing is welded, closed or merged. */
const AS_GIVEN = { weld: 0, gap: 0, sliver: 0 };

/** The same through the map of a drawing. */
function checkDrawing({ id, geoms, exact }: CorpusCase): void {
  const { lines } = fitToGrid(corpusLines(geoms));
  const map = mapRegions(drawingOf(lines.filter((line) => line.length > 1).map(polyline), PAGE), AS_GIVEN);
  expect(verifyRegionMap(map)).toEqual([]);
  if (exact.class === 'sliver') {
    expect(map.regions.length).toBeGreaterThanOrEqual(exact['F_gt_1e-6'] ?? 0);
    return;
  }
  expect(map.regions.length).toBe(exact.F);
  expect(neighbourPairs(map)).toBe(CLOSED_HAIRS[id]?.pairs ?? exact.adjPairs ?? 0);
}

/** Gaps as drawn, in mm: open without a gap tolerance, closed within it, each one reported. */
function checkGaps({ geoms, exact }: CorpusCase, faces: Readonly<Record<string, number>>): void {
  const drawing = drawingOf(corpusLines(geoms).map(polyline), PAGE);
  expect(mapRegions(drawing, AS_GIVEN).regions.length).toBe(exact.F);
  for (const [gap, meant] of Object.entries(faces)) {
    const map = mapRegions(drawing, { ...AS_GIVEN, gap: Number(gap) });
    expect(map.regions.length).toBe(meant);
    // A line that stops short at both ends takes two.
    expect(map.healed.length).toBeGreaterThanOrEqual(1);
    for (const { length } of map.healed) expect(length).toBeLessThanOrEqual(Number(gap));
  }
}

/**
 * What a person means. The tolerance at which the file says that it holds (at most 1e-6 of the drawing's
 * size) is below a grid step here, so rounding alone gives it; the default weld must not lose it.
 */
function checkIntended({ id, geoms }: CorpusCase, faces: number | undefined): void {
  const lines = lineSet(fitToGrid(corpusLines(geoms)).lines);
  for (const options of [{ weld: 0 }, {}]) {
    const a = arrangeLines(lines, options);
    expect(verifyArrangement(a)).toEqual([]);
    expect(a.faceCount).toBe(OUT_OF_RANGE[id] ?? faces);
  }
}

/**
 * Rounding moves a border sideways by half the diagonal of a step at most, so the area changes by no more
 * than that times the length of all borders; a tenth on top for borders that the rounding removed, and the
 * rounding of the sums.
 */
function areaBound(a: Arrangement, area: number): number {
  return 1.1 * Math.SQRT1_2 * GRID_STEP * (totalLength(a) + GRID_STEP) + 1e-12 * area;
}
