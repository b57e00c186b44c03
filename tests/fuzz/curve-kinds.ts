import fc from 'fast-check';
import { type Curve, pointAt, reverseCurve, subCurve } from '../../src/geometry/curve.js';
import type { Point } from '../../src/geometry/point.js';
import { type CurveWork, cubic, ellipse, ellipseArc, line, polyline } from '../support/curve-drawing.js';
import { closed } from '../support/line-work.js';

/** Lengths at which decisions are made: doubles, the grid step, decimals of files, flattening, weld, sliver, gap. */
const miss = fc.constantFrom(0, 1e-13, 2 ** -11, 2 ** -10, 0.0005, 0.005, 0.0199, 0.0201, 0.049, 0.06, 0.3);

const coordinate = fc.integer({ min: -6, max: 6 }).map((n) => 5 * n);

const point: fc.Arbitrary<Point> = fc
  .record({
    x: coordinate,
    y: coordinate,
    dx: fc.oneof(fc.constant(0), miss),
    dy: fc.oneof(fc.constant(0), miss),
  })
  .map(({ x, y, dx, dy }): Point => [x + dx, y + dy]);

/** Any one curve between lattice points: cusps, loops and straight ones among them. */
const curve: fc.Arbitrary<Curve> = fc.oneof(
  fc.tuple(point, point).map(([a, b]): Curve => line(a, b)),
  fc
    .tuple(point, point, point)
    .map(([from, control, to]): Curve => ({ kind: 'quadratic', from, control, to })),
  fc.tuple(point, point, point, point).map(([a, b, c, d]): Curve => cubic(a, b, c, d)),
  fc
    .record({
      at: point,
      rx: fc.constantFrom(0.02, 0.3, 5, 10, 15, 15.005),
      ry: fc.constantFrom(0.05, 1, 5, 10, 15),
      start: fc.integer({ min: 0, max: 23 }),
      sweep: fc.integer({ min: -24, max: 24 }).filter((n) => n !== 0),
      turn: fc.constantFrom(0, 30, 45, 90, 1e-7),
    })
    .map(({ at, rx, ry, start, sweep, turn }): Curve => ellipseArc(at, rx, ry, 15 * start, 15 * sweep, turn)),
);

/** Curves that are drawn again: split, backwards, in part, moved by little. */
const doubled: fc.Arbitrary<CurveWork> = fc
  .record({
    base: curve,
    cuts: fc.array(fc.tuple(fc.integer({ min: 0, max: 9 }), fc.integer({ min: 1, max: 10 })), {
      minLength: 1,
      maxLength: 3,
    }),
    backwards: fc.boolean(),
  })
  .map(({ base, cuts, backwards }) => [
    [base],
    ...cuts.flatMap(([s, t]): Curve[][] => {
      if (s >= t) return [];
      const part = subCurve(base, s / 10, t / 10);
      return [[backwards ? reverseCurve(part) : part]];
    }),
  ]);

/** Circles and ellipses that touch, nearly touch, or nearly coincide. */
const rounds: fc.Arbitrary<CurveWork> = fc
  .array(
    fc.record({
      x: coordinate,
      off: miss,
      r: fc.constantFrom(5, 10, 15),
      flat: fc.constantFrom(1, 0.5, 0.999),
      start: fc.integer({ min: 0, max: 360 }),
      way: fc.constantFrom(1, -1),
    }),
    { minLength: 2, maxLength: 4 },
  )
  .map((list) =>
    list.map(({ x, off, r, flat, start, way }) => ellipse([x + off, 0], r, r * flat, 0, start, way)),
  );

/** Lines that end on a curve, written with few decimals, and a box around everything. */
const junctions: fc.Arbitrary<CurveWork> = fc
  .record({
    base: curve,
    ends: fc.array(fc.tuple(fc.integer({ min: 0, max: 20 }), point), { minLength: 1, maxLength: 4 }),
    decimals: fc.constantFrom(2, 3, 15),
  })
  .map(({ base, ends, decimals }) => {
    const cut = (v: number): number => Number(v.toFixed(decimals));
    return [
      polyline(
        closed([
          [-33, -33],
          [33, -33],
          [33, 33],
          [-33, 33],
        ]),
      ),
      [base],
      ...ends.map(([t, to]): Curve[] => {
        const [x, y] = pointAt(base, t / 20);
        return [line([cut(x), cut(y)], to)];
      }),
    ];
  });

/** Runs of curves, each starting where the one before ends, some closed. */
const runs: fc.Arbitrary<CurveWork> = fc
  .array(
    fc.record({
      points: fc.array(fc.tuple(point, point, point), { minLength: 1, maxLength: 4 }),
      start: point,
      close: fc.boolean(),
    }),
    { minLength: 1, maxLength: 3 },
  )
  .map((list) =>
    list.map(({ points, start, close }) => {
      let from = start;
      const out = points.map(([a, b, to], i): Curve => {
        const next =
          i % 3 === 2
            ? line(from, to)
            : i % 3 === 1
              ? ({ kind: 'quadratic', from, control: a, to } as const)
              : cubic(from, a, b, to);
        from = to;
        return next;
      });
      return close ? [...out, line(from, start)] : out;
    }),
  );

/** Drawings of curves, each kind aimed at one way to go wrong. */
export const nearDegenerateCurves: fc.Arbitrary<CurveWork> = fc
  .array(
    fc.oneof(fc.array(fc.tuple(curve), { minLength: 1, maxLength: 4 }), doubled, rounds, junctions, runs),
    { minLength: 1, maxLength: 3 },
  )
  .map((groups) => groups.flat());
