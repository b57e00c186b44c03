import Flatten from '@flatten-js/core';
import { describe, expect, it } from 'vitest';
import { planReport } from '../../src/output/plan-json.js';
import { flatPath } from '../simulator/flat-path.js';
import { planFixture } from '../support/plan-fixture.js';

/**
 * Source: @flatten-js/core (MIT), independent polygons, discs and distances. It gets the regions as the written
 * path data, read by svg-pathdata; of the library under test only the plan's JSON.
 */

/** Chords of the path lie within 0.004 mm of the curves, and numbers are written with four decimals. */
const READING = 0.005;

describe.each([
  ['harbour', 'pieces'],
  ['harbour', 'continuous'],
  ['fretwork', 'pieces'],
  ['owl', 'pieces'],
] as const)('holes in the waste of %s as %s', (name, joint) => {
  const report = planReport(planFixture(name, { joint }));
  const paths = new Map(report.regions.map((region) => [region.id, region.path]));
  const drilled = report.passes.flatMap((pass) =>
    pass.steps.filter((step) => step.start.kind === 'drill' && step.start.where === 'waste'),
  );

  it('are there', () => {
    expect(drilled.length).toBeGreaterThan(0);
  });

  it('lie wholly inside their waste, with the clearance that the plan states', () => {
    for (const { start, regions } of drilled) {
      const waste = regions.includes(start.region!) ? regions : [start.region!];
      const shapes = waste.map((id) => polygonOf(paths.get(id)!));
      const centre = Flatten.point(start.at[0], start.at[1]);
      const radius = start.diameter! / 2;
      expect(
        shapes.some((shape) => shape.contains(centre)),
        start.region,
      ).toBe(true);
      const reach = radius + start.clearance! + 1;
      const nearest = Math.min(
        ...borderOf(shapes, centre, reach).map((edge) => edge.shape.distanceTo(centre)[0]),
      );
      expect(nearest - radius, start.region).toBeGreaterThanOrEqual(start.clearance! - READING);
      expect(start.clearance).toBeGreaterThanOrEqual(report.workshop.drillMargin - READING);
    }
  });

  it('are the largest bit at hand that is comfortable, or the largest that fits', () => {
    for (const { start, regions } of drilled) {
      const waste = regions.includes(start.region!) ? regions : [start.region!];
      const room = Math.max(
        ...waste.map((id) => {
          const label = report.regions.find((region) => region.id === id)!.labelPoint;
          const edges = [...polygonOf(paths.get(id)!).edges] as Flatten.Edge[];
          const centre = Flatten.point(label[0], label[1]);
          return Math.min(...edges.map((edge) => edge.shape.distanceTo(centre)[0]));
        }),
      );
      const larger = report.workshop.bits.filter((bit) => bit.diameter > start.diameter!);
      // docs/plan.md: comfortable is a disc that with its margin takes up to 70 % of the widest disc of the waste.
      for (const bit of larger) {
        expect(bit.diameter / 2 + report.workshop.drillMargin, start.region).toBeGreaterThan(
          0.7 * room - 0.05,
        );
      }
    }
  });
});

function polygonOf(path: string): Flatten.Polygon {
  const polygon = new Flatten.Polygon();
  for (const run of flatPath(path)) {
    const points = run
      .filter((p, i) => i === 0 || Math.hypot(p[0] - run[i - 1][0], p[1] - run[i - 1][1]) > 1e-6)
      .map(([x, y]) => Flatten.point(x, y));
    const [first, last] = [points[0], points[points.length - 1]];
    if (first.distanceTo(last)[0] < 1e-6) points.pop();
    polygon.addFace(points);
  }
  return polygon;
}

/** The edges near a point of regions that are cut out as one, their common lines left out. */
function borderOf(shapes: readonly Flatten.Polygon[], centre: Flatten.Point, reach: number): Flatten.Edge[] {
  const all = shapes.map((shape) =>
    ([...shape.edges] as Flatten.Edge[]).filter((edge) => edge.shape.distanceTo(centre)[0] <= reach),
  );
  return all.flatMap((edges, i) =>
    edges.filter((edge) => {
      const middle = edge.middle();
      return all.every(
        (others, j) => i === j || others.every((e) => e.shape.distanceTo(middle)[0] > READING),
      );
    }),
  );
}
