import fc from 'fast-check';
import { arcFromEndpoints, ellipseArcs, makeArc } from '../../src/geometry/arc.js';
import { type ArcCurve, arcPoint, type Curve } from '../../src/geometry/curve.js';
import type { Point } from '../../src/geometry/point.js';

/** A coordinate of a drawing, mm. */
export const coordinate = fc
  .double({ min: -300, max: 300, noNaN: true })
  .map((v) => Math.round(v * 1e4) / 1e4);

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

const radius = fc.double({ min: 0.05, max: 400, noNaN: true });
const angle = fc.double({ min: -Math.PI, max: Math.PI, noNaN: true });

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
  .tuple(
    point,
    radius,
    radius,
    angle,
    angle,
    fc.double({ min: 0.01, max: 6.2, noNaN: true }),
    fc.boolean(),
    fc.boolean(),
  )
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

export { arcFromEndpoints, ellipseArcs };
