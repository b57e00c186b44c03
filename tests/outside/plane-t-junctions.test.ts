/**
 * Line work whose number of faces is known because of how it was made: a square split again and again by lines
 * whose ends lie on lines before (see tests/bench/generate/t-junctions.ts). With ends in full doubles, and as a
 * file with three or two decimals holds them.
 */
import { describe, expect, it } from 'vitest';
import { arrangeLines } from '../../src/plane/arrange-lines.js';
import { verifyArrangement } from '../../src/plane/verify-arrangement.js';
import { grid } from '../bench/generate/line-sets.js';
import { mosaic, tJunctions } from '../bench/generate/t-junctions.js';
import { rounded } from '../bench/generate/workload.js';
import { totalArea } from '../support/arrangement-facts.js';
import { lineSet, redrawn } from '../support/line-work.js';
import { randomSource } from '../support/random.js';

const SPLITS = 4000;

describe.each([1, 2, 3])('a square split %#', (seed) => {
  const work = tJunctions(SPLITS, seed);
  const side = work.lines[0][1][0];
  const outlines = mosaic(SPLITS, seed);
  const versions = [work, outlines].flatMap((lines) => [lines, rounded(lines, 3), rounded(lines, 2)]);

  it.each(versions.map((version) => [version.name, version] as const))(
    '%s: no face lost or won',
    (_, version) => {
      const a = arrangeLines(lineSet(version.lines));
      expect(verifyArrangement(a)).toEqual([]);
      expect(a.faceCount).toBe(SPLITS + 1);
      // The frame is kept to within a grid step, and the faces fill it.
      expect(Math.abs(totalArea(a) - side * side)).toBeLessThan(0.02 * side);
      expect(a.componentCount).toBe(1);
    },
  );

  it('every line drawn again somewhere: no face lost or won', () => {
    const a = arrangeLines(lineSet(redrawn(rounded(work, 3).lines, randomSource(seed))));
    expect(a.faceCount).toBe(SPLITS + 1);
  });
});

describe('features hardly larger than the weld', () => {
  // The smallest distance is one and a half times the weld of 0.02 mm; two decimals move each end by 0.007.
  const fine = { clearance: 0.03, side: 0.5 };
  it.each([
    ['lines', tJunctions],
    ['outlines', mosaic],
  ])('%s: no face lost or won', (_, make) => {
    const work = make(SPLITS, 4, fine);
    for (const version of [work, rounded(work, 3), rounded(work, 2)])
      expect(arrangeLines(lineSet(version.lines)).faceCount).toBe(SPLITS + 1);
  });
});

describe('a grid of lines', () => {
  it('has (k − 1)² faces, each with its neighbours to all sides', () => {
    const k = 40;
    const a = arrangeLines(lineSet(grid(k).lines));
    expect(verifyArrangement(a)).toEqual([]);
    expect(a.faceCount).toBe((k - 1) ** 2);
    expect(a.adjacencyFace.length).toBe(4 * (k - 1) * (k - 2));
  });
});
