import type { Point, PointRoom } from './point.js';

/** A straight segment. */
export interface LineCurve {
  readonly kind: 'line';
  readonly from: Point;
  readonly to: Point;
}

/** A quadratic Bézier curve. */
export interface QuadraticCurve {
  readonly kind: 'quadratic';
  readonly from: Point;
  readonly control: Point;
  readonly to: Point;
}

/** A cubic Bézier curve. */
export interface CubicCurve {
  readonly kind: 'cubic';
  readonly from: Point;
  readonly control1: Point;
  readonly control2: Point;
  readonly to: Point;
}

/**
 * A piece of an ellipse. The point at parameter `t` in [0, 1] is
 * `centre + R(rotation) · (rx·cos θ, ry·sin θ)` with `θ = start + t·sweep`; angles in radians, a positive
 * sweep turns from +x towards +y (clockwise on the page, since y points down). `from` and `to` are the
 * end points as drawn: they count where they differ from the formula by rounding.
 */
export interface ArcCurve {
  readonly kind: 'arc';
  readonly from: Point;
  readonly to: Point;
  readonly centre: Point;
  readonly rx: number;
  readonly ry: number;
  readonly rotation: number;
  readonly start: number;
  readonly sweep: number;
}

/** One segment of a drawn line: the four kinds that SVG path data can draw. Parameter `t` runs over [0, 1]. */
export type Curve = LineCurve | QuadraticCurve | CubicCurve | ArcCurve;

/** The point of a curve at `t` in [0, 1]; the drawn end points are returned exactly. */
export function pointAt(c: Curve, t: number): Point {
  if (t === 0) return c.from;
  if (t === 1) return c.to;
  const point: PointRoom = [0, 0];
  putPointAt(c, t, point);
  return point;
}

/** The same into `room`, for loops that need many. */
export function putPointAt(c: Curve, t: number, room: PointRoom): void {
  if (t === 0 || t === 1) {
    const end = t === 0 ? c.from : c.to;
    room[0] = end[0];
    room[1] = end[1];
    return;
  }
  const u = 1 - t;
  switch (c.kind) {
    case 'line':
      room[0] = c.from[0] * u + c.to[0] * t;
      room[1] = c.from[1] * u + c.to[1] * t;
      return;
    case 'quadratic': {
      const a = u * u;
      const b = 2 * u * t;
      const d = t * t;
      room[0] = a * c.from[0] + b * c.control[0] + d * c.to[0];
      room[1] = a * c.from[1] + b * c.control[1] + d * c.to[1];
      return;
    }
    case 'cubic': {
      const a = u * u * u;
      const b = 3 * u * u * t;
      const d = 3 * u * t * t;
      const e = t * t * t;
      room[0] = a * c.from[0] + b * c.control1[0] + d * c.control2[0] + e * c.to[0];
      room[1] = a * c.from[1] + b * c.control1[1] + d * c.control2[1] + e * c.to[1];
      return;
    }
    case 'arc':
      putArcPoint(c, c.start + t * c.sweep, room);
  }
}

/** The derivative of a curve with respect to `t`. */
export function derivativeAt(c: Curve, t: number): Point {
  const derivative: PointRoom = [0, 0];
  putDerivativeAt(c, t, derivative);
  return derivative;
}

/** The same into `room`. */
export function putDerivativeAt(c: Curve, t: number, room: PointRoom): void {
  const u = 1 - t;
  switch (c.kind) {
    case 'line':
      room[0] = c.to[0] - c.from[0];
      room[1] = c.to[1] - c.from[1];
      return;
    case 'quadratic':
      room[0] = 2 * (u * (c.control[0] - c.from[0]) + t * (c.to[0] - c.control[0]));
      room[1] = 2 * (u * (c.control[1] - c.from[1]) + t * (c.to[1] - c.control[1]));
      return;
    case 'cubic': {
      const a = 3 * u * u;
      const b = 6 * u * t;
      const d = 3 * t * t;
      const { from, control1, control2, to } = c;
      room[0] = a * (control1[0] - from[0]) + b * (control2[0] - control1[0]) + d * (to[0] - control2[0]);
      room[1] = a * (control1[1] - from[1]) + b * (control2[1] - control1[1]) + d * (to[1] - control2[1]);
      return;
    }
    case 'arc': {
      const angle = c.start + t * c.sweep;
      const x = -c.rx * Math.sin(angle) * c.sweep;
      const y = c.ry * Math.cos(angle) * c.sweep;
      const cos = Math.cos(c.rotation);
      const sin = Math.sin(c.rotation);
      room[0] = x * cos - y * sin;
      room[1] = x * sin + y * cos;
    }
  }
}

/** The point of the full ellipse of an arc at the ellipse angle `angle` (radians). */
export function arcPoint(c: ArcCurve, angle: number): Point {
  const point: PointRoom = [0, 0];
  putArcPoint(c, angle, point);
  return point;
}

function putArcPoint(c: ArcCurve, angle: number, room: PointRoom): void {
  const x = c.rx * Math.cos(angle);
  const y = c.ry * Math.sin(angle);
  const cos = Math.cos(c.rotation);
  const sin = Math.sin(c.rotation);
  room[0] = c.centre[0] + x * cos - y * sin;
  room[1] = c.centre[1] + x * sin + y * cos;
}

/** The same curve drawn the other way round. */
export function reverseCurve(c: Curve): Curve {
  switch (c.kind) {
    case 'line':
      return { kind: 'line', from: c.to, to: c.from };
    case 'quadratic':
      return { kind: 'quadratic', from: c.to, control: c.control, to: c.from };
    case 'cubic':
      return { kind: 'cubic', from: c.to, control1: c.control2, control2: c.control1, to: c.from };
    case 'arc':
      return arcOn(c, c.to, c.from, c.start + c.sweep, -c.sweep);
  }
}

/**
 * The part of a curve between parameters `t0` and `t1`, as a curve of the same kind; with `t1 < t0` it runs
 * backwards. Exact up to rounding (de Casteljau for Béziers).
 */
export function subCurve(c: Curve, t0: number, t1: number): Curve {
  if (t0 === 0 && t1 === 1) return c;
  if (t1 < t0) return reverseCurve(subCurve(c, t1, t0));
  const from = pointAt(c, t0);
  const to = pointAt(c, t1);
  switch (c.kind) {
    case 'line':
      return { kind: 'line', from, to };
    case 'quadratic':
      return { kind: 'quadratic', from, control: blossom2(c, t0, t1), to };
    case 'cubic':
      return {
        kind: 'cubic',
        from,
        control1: blossom3(c, t0, t0, t1),
        control2: blossom3(c, t0, t1, t1),
        to,
      };
    case 'arc':
      return arcOn(c, from, to, c.start + t0 * c.sweep, (t1 - t0) * c.sweep);
  }
}

/** The same curve but for its drawn ends. */
export function withDrawnEnds(c: Curve, from: Point, to: Point): Curve {
  switch (c.kind) {
    case 'line':
      return { kind: 'line', from, to };
    case 'quadratic':
      return { kind: 'quadratic', from, control: c.control, to };
    case 'cubic':
      return { kind: 'cubic', from, control1: c.control1, control2: c.control2, to };
    case 'arc':
      return arcOn(c, from, to, c.start, c.sweep);
  }
}

/**
 * Another arc of the same ellipse. Written out, here and in `makeArc`, so that to the engine all arcs are of one shape:
 * with a fifth shape of curves what reads them is no longer compiled for each.
 */
export function arcOn(
  { centre, rx, ry, rotation }: ArcCurve,
  from: Point,
  to: Point,
  start: number,
  sweep: number,
): ArcCurve {
  return { kind: 'arc', from, to, centre, rx, ry, rotation, start, sweep };
}

const mix = (a: number, b: number, t: number): number => a * (1 - t) + b * t;

function blossom2(c: QuadraticCurve, s: number, t: number): Point {
  return [
    mix(mix(c.from[0], c.control[0], s), mix(c.control[0], c.to[0], s), t),
    mix(mix(c.from[1], c.control[1], s), mix(c.control[1], c.to[1], s), t),
  ];
}

function blossom3(c: CubicCurve, r: number, s: number, t: number): Point {
  const at = (k: 0 | 1): number => {
    const a = mix(c.from[k], c.control1[k], r);
    const b = mix(c.control1[k], c.control2[k], r);
    const d = mix(c.control2[k], c.to[k], r);
    return mix(mix(a, b, s), mix(b, d, s), t);
  };
  return [at(0), at(1)];
}
