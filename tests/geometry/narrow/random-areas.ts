import fc from 'fast-check';
import type { Curve } from '../../../src/geometry/curve.js';
import type { Point } from '../../../src/geometry/point.js';
import { uniform } from '../arbitrary-curves.js';

/** A band between two jagged walls: many necks one after the other. */
export const band: fc.Arbitrary<Point[][]> = fc
  .array(fc.tuple(uniform(0, 6), uniform(7, 14), uniform(-0.4, 0.4), uniform(-0.4, 0.4)), {
    minLength: 4,
    maxLength: 24,
  })
  .map((walls) => [
    [
      ...walls.map(([top, , shift], i): Point => [2 * i + shift, top]),
      ...walls.map(([, bottom, , shift], i): Point => [2 * i + shift, bottom]).reverse(),
    ],
  ]);

/** A star-shaped loop about a point. */
function star(centre: Point, radii: readonly number[], back: boolean): Point[] {
  const points = radii.map((r, i): Point => {
    const angle = (2 * Math.PI * i) / radii.length;
    return [centre[0] + r * Math.cos(angle), centre[1] + r * Math.sin(angle)];
  });
  return back ? points.reverse() : points;
}

/** A sheet with ragged holes near each other and near its ragged rim, loops either way round. */
export const sheet: fc.Arbitrary<Point[][]> = fc
  .tuple(
    fc.array(uniform(29, 33), { minLength: 12, maxLength: 30 }),
    fc.array(fc.tuple(fc.array(uniform(2, 6.8), { minLength: 3, maxLength: 12 }), fc.boolean()), {
      minLength: 9,
      maxLength: 9,
    }),
    fc.boolean(),
  )
  .map(([rim, holes, back]) => [
    ...holes.map(([radii, turn], k) => star([14 * (k % 3) - 14, 14 * Math.floor(k / 3) - 14], radii, turn)),
    star([0, 0], rim, back),
  ]);

export const area = fc.oneof(band, sheet);

/** A polygon with its corners rounded: a quadratic from middle to middle of its sides about each corner. */
export function rounded(points: readonly Point[]): Curve[] {
  const middle = (p: Point, q: Point): Point => [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
  return points.map((control, i) => ({
    kind: 'quadratic',
    from: middle(points[(i + points.length - 1) % points.length], control),
    control,
    to: middle(control, points[(i + 1) % points.length]),
  }));
}
