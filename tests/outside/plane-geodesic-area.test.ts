/**
 * Face areas beside those of @turf/area, which works on the sphere: the rings are scaled down to about a
 * ten-thousandth of a degree around the equator at longitude 0. There the sphere is flat: turf integrates
 * (λ₂ − λ₁)·sin φ, and sin φ differs from φ by φ²/6 ≤ 1e-12 of itself, so its areas are plane areas times the
 * square of the length of a degree, R·π/180 with turf's mean radius of the earth.
 */
import area from '@turf/area';
import { describe, expect, it } from 'vitest';
import { GRID_STEP } from '../../src/geometry/grid.js';
import type { Point } from '../../src/geometry/point.js';
import { arrangeLines } from '../../src/plane/arrange-lines.js';
import type { Arrangement } from '../../src/plane/arrangement.js';
import { randomSegments } from '../bench/generate/line-sets.js';
import { scene } from '../bench/generate/scene.js';
import { tJunctions } from '../bench/generate/t-junctions.js';
import { lineSet } from '../support/line-work.js';

/** The radius in metres that @turf/area states, a mean radius of the earth. */
const EARTH_RADIUS = 6371008.8;

/** Degrees that the drawing spans. */
const SPAN = 1e-4;

/** The rings of each face, outline first, then one for each connected part that lies in the face. */
function faceRings(a: Arrangement): Point[][][] {
  const ring = (first: number): Point[] => {
    const points: Point[] = [];
    let h = first;
    do {
      const v = (h & 1) === 0 ? a.edgeFrom[h >> 1] : a.edgeTo[h >> 1];
      points.push([a.nodeX[v] * GRID_STEP, a.nodeY[v] * GRID_STEP]);
      h = a.next[h];
    } while (h !== first);
    return [...points, points[0]];
  };
  const rings = Array.from(a.faceFirst, (first) => [ring(first)]);
  for (const [part, face] of a.componentFace.entries())
    if (face >= 0) rings[face].push(ring(a.componentFirst[part]));
  return rings;
}

describe('areas by another way', () => {
  it.each([
    ['a scene', scene(4000, 3).lines],
    ['crowded segments', randomSegments(1500, 4).lines],
    ['a split square', tJunctions(500, 5).lines],
  ])('%s', (_, lines) => {
    const a = arrangeLines(lineSet(lines));
    const reach = lines.flat().reduce((most, [x, y]) => Math.max(most, Math.abs(x), Math.abs(y)), 0);
    const scale = SPAN / reach;
    const metresPerMm = scale * EARTH_RADIUS * (Math.PI / 180);
    expect(a.faceCount).toBeGreaterThan(20);
    for (const [face, rings] of faceRings(a).entries()) {
      const degrees = rings.map((ring) => ring.map(([x, y]) => [x * scale, y * scale]));
      const theirs = area({ type: 'Polygon', coordinates: degrees }) / metresPerMm ** 2;
      // Their sums run over absolute coordinates: they lose what a face is smaller than its distance from 0.
      expect(Math.abs(theirs - a.faceArea[face])).toBeLessThan(1e-12 * reach * reach + 1e-9 * theirs);
    }
  });
});
