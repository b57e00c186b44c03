import fc from 'fast-check';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import MinimumClearance from 'jsts/org/locationtech/jts/precision/MinimumClearance.js';
import { describe, expect, test } from 'vitest';
import { areaBoundary } from '../../src/geometry/narrow/area-boundary.js';
import { narrowPlaces } from '../../src/geometry/narrow-places.js';
import { distance, type Point } from '../../src/geometry/point.js';
import { uniform } from '../geometry/arbitrary-curves.js';
import { polygon } from '../geometry/narrow/shapes.js';

// Reference: the minimum clearance of a polygon by jsts, the smallest distance between a vertex and another vertex or a side
// that it is not on. It is the narrowest neck where all sides and all widths of the holes are larger than that.

const factory = new GeometryFactory();

function ring(points: readonly Point[]): unknown {
  return factory.createLinearRing([...points, points[0]].map(([x, y]) => new Coordinate(x, y)));
}

/** A hole: a regular polygon of three to five sides, in which nothing is narrower than 3.7 mm. */
function hole(x: number, y: number, sides: number, turn: number): Point[] {
  return Array.from({ length: sides }, (_, k) => {
    const angle = turn + (2 * Math.PI * k) / sides;
    return [x + 3.2 * Math.cos(angle), y + 3.2 * Math.sin(angle)];
  });
}

const holes = fc.array(
  fc.record({
    sides: fc.integer({ min: 3, max: 5 }),
    turn: uniform(0, Math.PI),
    dx: uniform(-0.3, 0.3),
    dy: uniform(-0.3, 0.3),
  }),
  { minLength: 9, maxLength: 9 },
);

describe('narrowest neck against the minimum clearance of jsts', () => {
  test('same width, same chord', () => {
    let compared = 0;
    fc.assert(
      fc.property(holes, (list) => {
        const frame: Point[] = [
          [-11, -11],
          [11, -11],
          [11, 11],
          [-11, 11],
        ];
        const inside = list.map(({ sides, turn, dx, dy }, k) =>
          hole(7.1 * ((k % 3) - 1) + dx, 7.1 * (Math.floor(k / 3) - 1) + dy, sides, turn),
        );
        const reference = new MinimumClearance(factory.createPolygon(ring(frame), inside.map(ring)));
        const clearance: number = reference.getDistance();
        if (clearance > 3.5) return;
        compared++;
        const necks = narrowPlaces(areaBoundary([frame, ...inside].map(polygon)), 3.6, { rise: 0 });
        const least = necks.reduce((best, n) => (n.width < best.width ? n : best));
        expect(Math.abs(least.width - clearance)).toBeLessThan(1e-12);
        const ends = reference
          .getLine()
          .getCoordinates()
          .map((c: { x: number; y: number }): Point => [c.x, c.y]);
        const [p, q] = ends as [Point, Point];
        // Several may be as narrow.
        const offs = necks
          .filter((n) => n.width - least.width < 1e-12)
          .flatMap(({ from, to }) => [
            distance(p, from) + distance(q, to),
            distance(p, to) + distance(q, from),
          ]);
        expect(Math.min(...offs)).toBeLessThan(1e-9);
      }),
      { numRuns: 200 },
    );
    expect(compared).toBeGreaterThan(150);
  });
});
