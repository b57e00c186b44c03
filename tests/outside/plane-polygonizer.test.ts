/**
 * Faces and areas beside those that jsts (the JTS Topology Suite in JavaScript) finds with its polygonizer in
 * line work that was noded beforehand: the edges of our own map, whose coordinates jsts takes as they are.
 * And our noding beside its snap rounding, on line work whose features are far above a grid step.
 */
import ArrayList from 'jsts/java/util/ArrayList.js';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import PrecisionModel from 'jsts/org/locationtech/jts/geom/PrecisionModel.js';
import NodedSegmentString from 'jsts/org/locationtech/jts/noding/NodedSegmentString.js';
import MCIndexSnapRounder from 'jsts/org/locationtech/jts/noding/snapround/MCIndexSnapRounder.js';
import Polygonizer from 'jsts/org/locationtech/jts/operation/polygonize/Polygonizer.js';
import { describe, expect, it } from 'vitest';
import { GRID_STEP, STEPS_PER_MM } from '../../src/geometry/grid.js';
import type { Point } from '../../src/geometry/point.js';
import { arrangeLines } from '../../src/plane/arrange-lines.js';
import type { Arrangement } from '../../src/plane/arrangement.js';
import { verifyArrangement } from '../../src/plane/verify-arrangement.js';
import { randomSegments } from '../bench/generate/line-sets.js';
import { scene } from '../bench/generate/scene.js';
import { type LineWork, lineSet } from '../support/line-work.js';

/** Areas of the polygons that jsts finds, ascending. */
function polygonAreas(edges: LineWork): number[] {
  const factory = new GeometryFactory();
  const polygonizer = new Polygonizer(false);
  for (const edge of edges)
    polygonizer.add(factory.createLineString(edge.map(([x, y]) => new Coordinate(x, y))));
  const polygons: { getArea(): number }[] = polygonizer.getPolygons().toArray();
  return polygons.map((polygon) => polygon.getArea()).sort((a, b) => a - b);
}

function edgesOf(a: Arrangement): LineWork {
  const at = (v: number): Point => [a.nodeX[v] * GRID_STEP, a.nodeY[v] * GRID_STEP];
  return Array.from(a.edgeFrom, (u, e): Point[] => [at(u), at(a.edgeTo[e])]);
}

function expectSameAreas(found: readonly number[], meant: readonly number[], tolerance: number): void {
  expect(found.length).toBe(meant.length);
  const off = found.filter((area, i) => Math.abs(area - meant[i]) > tolerance * Math.max(1, meant[i]));
  expect(off).toEqual([]);
}

describe('polygons of the noded edges', () => {
  it.each([
    ['scene', scene(3000, 5).lines],
    ['crowded segments', randomSegments(1500, 6).lines],
  ])('%s: same faces, same areas', (_, lines) => {
    const a = arrangeLines(lineSet(lines));
    expect(verifyArrangement(a)).toEqual([]);
    expect(a.faceCount).toBeGreaterThan(20);
    expectSameAreas(
      [...a.faceArea].sort((p, q) => p - q),
      polygonAreas(edgesOf(a)),
      1e-9,
    );
  });
});

describe('snap rounding on the same grid', () => {
  it('random segments between grid points: same faces, same areas', () => {
    const lines = randomSegments(1200, 7).lines.map((line) =>
      line.map(
        ([x, y]): Point => [
          Math.round(x * STEPS_PER_MM) * GRID_STEP,
          Math.round(y * STEPS_PER_MM) * GRID_STEP,
        ],
      ),
    );
    const strings = new ArrayList([]);
    for (const line of lines) {
      const coordinates = line.map(([x, y]) => new Coordinate(x, y));
      strings.add(new NodedSegmentString(coordinates, null));
    }
    const noder = new MCIndexSnapRounder(new PrecisionModel(STEPS_PER_MM));
    noder.computeNodes(strings);
    const noded: { getCoordinates(): { x: number; y: number }[] }[] = noder.getNodedSubstrings().toArray();
    const theirs = noded.map((string) => string.getCoordinates().map(({ x, y }): Point => [x, y]));
    const a = arrangeLines(lineSet(lines), { weld: 0 });
    // Their rounding may put a crossing one step beside ours: at most the border of a face times a step.
    expectSameAreas(
      [...a.faceArea].sort((p, q) => p - q),
      polygonAreas(theirs),
      0.05,
    );
  });
});
