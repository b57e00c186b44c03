import fc from 'fast-check';
import { makeArc } from '../../src/geometry/arc.js';
import { type ArcCurve, arcPoint, type Curve } from '../../src/geometry/curve.js';
import type { Point } from '../../src/geometry/point.js';

/** Numbers spread evenly over a range (fc.double favours tiny ones), ends and middle now and then. */
export function uniform(min: number, max: number): fc.Arbitrary<number> {
  const steps = 1 << 30;
  return fc.integer({ min: 0, max: steps }).map((k) => min + ((max - min) * k) / steps);
}

/** A coordinate of a drawing, mm. */
export const coordinate = fc.integer({ min: -3e6, max: 3e6 }).map((k) => k / 1e4);

export const point: fc.Arbitrary<Point> = fc.tuple(coordinate, coordinate);

export const line: fc.Arbitrary<Curve> = fc.record({
  kind: fc.constant('line' as const),
  from: point,
  to: point,
});

export const quadratic: fc.Arbitrary<Curve> = fc.record({
  kind: fc.constant('quadratic' as const),
  from: point,
  control: point,
  to: point,
});

export const cubic: fc.Arbitrary<Curve> = fc.record({
  kind: fc.constant('cubic' as const),
  from: point,
  control1: point,
  control2: point,
  to: point,
});

const radius = uniform(0.05, 400);
const angle = uniform(-Math.PI, Math.PI);

/** An arc given by its ellipse, with ends on it. */
export function arcOf(
  centre: Point,
  rx: number,
  ry: number,
  rotation: number,
  start: number,
  sweep: number,
): ArcCurve {
  const bare = makeArc([0, 0], [0, 0], centre, rx, ry, rotation, start, sweep);
  return { ...bare, from: arcPoint(bare, bare.start), to: arcPoint(bare, bare.start + bare.sweep) };
}

export const arc: fc.Arbitrary<ArcCurve> = fc
  .tuple(point, radius, radius, angle, angle, uniform(0.01, 6.2), fc.boolean(), fc.boolean())
  .map(([centre, rx, ry, rotation, start, sweep, circle, back]) =>
    arcOf(centre, rx, circle ? rx : ry, rotation, start, back ? -sweep : sweep),
  );

/** Any curve, with the kinds that go wrong (cusps, loops, straight or point-like Béziers) often among them. */
export const curve: fc.Arbitrary<Curve> = fc.oneof(
  line,
  quadratic,
  cubic,
  arc,
  fc
    .tuple(point, point)
    .map(([p, q]): Curve => ({ kind: 'cubic', from: p, control1: q, control2: p, to: q })),
  fc
    .tuple(point, point)
    .map(([p, q]): Curve => ({ kind: 'cubic', from: p, control1: p, control2: q, to: q })),
  fc.tuple(point, point).map(([p, q]): Curve => ({ kind: 'quadratic', from: p, control: q, to: p })),
  point.map((p): Curve => ({ kind: 'cubic', from: p, control1: p, control2: p, to: p })),
  // A cusp: the ends of the control polygon crosswise.
  point.map(
    ([x, y]): Curve => ({
      kind: 'cubic',
      from: [x, y],
      control1: [x + 90, y + 60],
      control2: [x, y + 60],
      to: [x + 90, y],
    }),
  ),
);
