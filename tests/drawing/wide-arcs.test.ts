import { describe, expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { arcCubics } from '../../src/geometry/arc-cubics.js';
import { pointAt } from '../../src/geometry/curve.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { verifyRegionMap } from '../../src/plane/verify-region-map.js';
import { ellipseArc } from '../support/curve-drawing.js';

const svg = (path: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100" fill="none" stroke="black"><rect x="10" y="10" width="80" height="80"/>${path}</svg>`;

describe('arcs of a very large radius', () => {
  it.each([2e4, 1e6, 1e8, 1e9, 1e10, 1e12, 1e15, 1e18])('of %s mm have the areas that they cut off', (r) => {
    const map = mapRegions(
      readDrawing(svg(`<path d="M10 50 A ${r} ${r} 0 0 1 90 50"/><path d="M50 10V90"/>`)),
    );
    expect(verifyRegionMap(map)).toEqual([]);
    // The segment of a circle over a chord of 80 mm, two thirds of the chord times the sagitta: half of it above.
    const segment = (2 / 3) * 80 * (80 ** 2 / (8 * r));
    const areas = map.regions.map(({ area }) => area).sort((a, b) => a - b);
    expect(areas).toHaveLength(4);
    const bent = segment / 2;
    for (const [i, area] of [1600 - bent, 1600 - bent, 1600 + bent, 1600 + bent].entries())
      expect(Math.abs(areas[i] - area)).toBeLessThan(0.05);
  });

  it('are out of range where they run out of it, not where their circle does', () => {
    const rules = (path: string): string[] => readDrawing(svg(path)).findings.map(({ rule }) => rule);
    expect(rules('<path d="M10 50 A 1e9 1e9 0 0 1 90 50"/>')).not.toContain('out-of-range');
    expect(rules('<path d="M10 50 A 1e9 1e9 0 1 1 90 50"/>')).toContain('out-of-range');
    // Ends and radius in range, and yet the arc reaches 20 m to the left.
    expect(rules('<path d="M10 50 A 10000 10000 0 1 0 10 51"/>')).toContain('out-of-range');
    expect(rules('<path d="M20 80 A 1e-12 5 30 0 1 60 80"/>')).toContain('out-of-range');
  });

  it('are followed by cubics to 1e-7 mm', () => {
    for (const [rx, ry, sweep] of [
      [2e4, 2e4, 60],
      [1e5, 3e4, -9],
      [3e4, 50, 40],
    ]) {
      const arc = ellipseArc([7, -3], rx, ry, 25, sweep, 10);
      const cubics = arcCubics(arc);
      cubics.forEach((cubic, k) => {
        for (let i = 0; i <= 8; i++) {
          // In the ellipse's own units: the parameter of a cubic runs a little differently.
          const [x, y] = pointAt(cubic, i / 8);
          const turn = (10 * Math.PI) / 180;
          const u = ((x - 7) * Math.cos(turn) + (y + 3) * Math.sin(turn)) / rx;
          const v = ((y + 3) * Math.cos(turn) - (x - 7) * Math.sin(turn)) / ry;
          expect(Math.abs(Math.hypot(u, v) - 1) * Math.max(rx, ry), `${k}`).toBeLessThan(2e-7);
        }
      });
    }
  });
});
