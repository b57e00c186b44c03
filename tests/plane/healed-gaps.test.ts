import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pointAt } from '../../src/geometry/curve.js';
import type { Point } from '../../src/geometry/point.js';
import { mapSvg } from './map-svg.js';

/** Paths, mm. */
const page = (...paths: string[]): string => paths.map((d) => `<path d="${d}"/>`).join('');

describe('a line with a gap at its end', () => {
  it('splits a long line that bends onto a place beside it', () => {
    // Triangles with a corner a step and a half from the long line, where it bends: they must not be crossed.
    const step = 1 / 1024;
    const beside = Array.from({ length: 40 }, (_, i) => {
      const x = 3 + 2.35 * i;
      const side = i % 2 === 0 ? 1 : -1;
      return `M${x} ${50 + 0.00123 * x + 1.5 * side * step} l0.5 ${5 * side} h-0.7 Z`;
    });
    const frame = 'M0 10 H99 V90 H0 Z';
    const map = mapSvg(page('M0 50 L99 50.12177', 'M50.2 10 V49.8', frame, ...beside), { weld: 0 });
    expect(map.healed.length).toBe(1);
    expect(map.regions.length).toBe(43);
  });

  it('splits a curve that runs unevenly at the place itself', () => {
    // The left side is nearly straight, and the parameter far from even along it.
    const map = mapSvg(page('M30 40 C30 30 30 30 30.3 35'));
    expect(map.healed.length).toBe(1);
    const parts = map.edges.flatMap((edge) =>
      edge.pieces.flatMap(({ curve, t0, t1 }) => {
        const { kind } = map.curves[curve];
        const inside = [t0, t1].filter((t) => t > 0 && t < 1);
        return kind === 'cubic' ? inside.map((t) => pointAt(map.curves[curve], t)) : [];
      }),
    );
    expect(parts.length).toBe(2);
    const nearestNode = ([x, y]: Point): number =>
      Math.min(...map.nodes.map(({ at }) => Math.hypot(at[0] - x, at[1] - y)));
    // Half a step each way, and the chord.
    for (const p of parts) expect(nearestNode(p)).toBeLessThan(0.007);
  });

  it('leaves a valid map wherever it ends', () => {
    const place = fc.tuple(fc.integer({ min: 5, max: 95 }), fc.integer({ min: 5, max: 95 }));
    fc.assert(
      fc.property(fc.array(fc.tuple(place, place), { minLength: 2, maxLength: 12 }), (lines) => {
        // Each line stops 0.1 to 0.4 mm short of a frame or of where it was drawn to.
        const drawn = lines.map(([[ax, ay], [bx, by]], i) => {
          const part = 1 - (0.1 + 0.03 * (i % 10)) / Math.max(1, Math.hypot(bx - ax, by - ay));
          return `M${ax} ${ay} L${ax + part * (bx - ax)} ${ay + part * (by - ay)} M${bx} ${by} l7 -3`;
        });
        mapSvg(page('M2 2 H98 V98 H2 Z', ...drawn));
      }),
      { numRuns: 150 },
    );
  });
});
