/**
 * Where circles and lines cross, in closed form, beside the nodes of the map: the true point of a node lies on
 * both curves, and its grid point is the nearest one.
 */
import { describe, expect, it } from 'vitest';
import { GRID_STEP } from '../../src/geometry/grid.js';
import type { Point } from '../../src/geometry/point.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { circle, drawingOf, line } from '../support/curve-drawing.js';
import { randomSource } from '../support/random.js';

/** The two points where circles of one radius about `a` and `b` cross. */
function crossings(a: Point, b: Point, radius: number): Point[] {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const d = Math.hypot(dx, dy);
  const h = Math.sqrt(radius * radius - (d * d) / 4);
  const middle: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  return [
    [middle[0] - (h * dy) / d, middle[1] + (h * dx) / d],
    [middle[0] + (h * dy) / d, middle[1] - (h * dx) / d],
  ];
}

/** Every point is a node, on the nearest grid point, and nothing else crosses. */
function expectNodes(found: readonly { at: Point; truePoint: Point }[], meant: readonly Point[]): void {
  for (const point of meant) {
    const near = found.filter(({ at }) => Math.hypot(at[0] - point[0], at[1] - point[1]) < 3 * GRID_STEP);
    expect(near.length).toBe(1);
    const [{ at, truePoint }] = near;
    expect(Math.hypot(truePoint[0] - point[0], truePoint[1] - point[1])).toBeLessThan(1e-9);
    // Half a step each way, and the last bits of the true point.
    expect(Math.abs(at[0] - point[0])).toBeLessThanOrEqual(GRID_STEP / 2 + 1e-9);
    expect(Math.abs(at[1] - point[1])).toBeLessThanOrEqual(GRID_STEP / 2 + 1e-9);
  }
}

describe('nodes lie where the true curves cross', () => {
  it.each([1, 2, 3, 4])('circles, drawing %i', (seed) => {
    const random = randomSource(seed);
    const radius = 40;
    const centres = Array.from({ length: 6 }, (): Point => [25 * random(), 25 * random()]);
    const map = mapRegions(drawingOf(centres.map((at) => circle(at, radius, 360 * random()))));
    const meant = centres.flatMap((a, i) => centres.slice(i + 1).flatMap((b) => crossings(a, b, radius)));
    expect(map.nodes.length).toBe(meant.length);
    expectNodes(map.nodes, meant);
  });

  it('lines across a circle', () => {
    const radius = 60.0031;
    const random = randomSource(9);
    const levels = Array.from({ length: 12 }, (_, i) => -55 + 9.7 * i + random());
    const map = mapRegions(
      drawingOf([circle([0, 0], radius), ...levels.map((y) => [line([-70, y], [70, y])])]),
    );
    const meant = levels.flatMap((y): Point[] => {
      const x = Math.sqrt(radius * radius - y * y);
      return [
        [x, y],
        [-x, y],
      ];
    });
    expectNodes(map.nodes, meant);
    expect(map.regions.length).toBe(levels.length + 1);
  });
});
