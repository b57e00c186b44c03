import type { Drawing, Shape, Subpath } from '../../src/drawing/drawing.js';
import type { ArcCurve, CubicCurve, Curve, LineCurve } from '../../src/geometry/curve.js';
import type { Point } from '../../src/geometry/point.js';

/** Lines as a person draws them: each a run of curves, nothing filled. */
export type CurveWork = readonly (readonly Curve[])[];

/** A drawing of unfilled lines, each a shape of its own, on a page of `size` mm about the origin. */
export function drawingOf(lines: CurveWork, size = 400): Drawing {
  return {
    unit: 'mm',
    page: { x: -size / 2, y: -size / 2, width: size, height: size },
    shapes: lines.map((curves, i): Shape => {
      const subpath: Subpath = { curves, closed: isClosed(curves) };
      return {
        subpaths: [subpath],
        use: 'cut',
        fill: null,
        hides: false,
        addOn: false,
        depth: null,
        names: [],
        background: false,
        source: { line: i + 1, column: 1, element: `path#l${i}` },
      };
    }),
    labels: [],
    digest: 'drawn by a test',
    findings: [],
  };
}

function isClosed(curves: readonly Curve[]): boolean {
  const [from, to] = [curves[0].from, curves[curves.length - 1].to];
  return from[0] === to[0] && from[1] === to[1];
}

export function line(from: Point, to: Point): LineCurve {
  return { kind: 'line', from, to };
}

/** Straight lines through points. */
export function polyline(points: readonly Point[]): LineCurve[] {
  return points.slice(1).map((to, i) => line(points[i], to));
}

export function cubic(from: Point, control1: Point, control2: Point, to: Point): CubicCurve {
  return { kind: 'cubic', from, control1, control2, to };
}

/** A piece of an ellipse by its angles, degrees; `turn` is the ellipse's own rotation. */
export function ellipseArc(
  centre: Point,
  rx: number,
  ry: number,
  startDegrees: number,
  sweepDegrees: number,
  turnDegrees = 0,
): ArcCurve {
  const rotation = radians(turnDegrees);
  const start = radians(startDegrees);
  const sweep = radians(sweepDegrees);
  const at = (angle: number): Point => {
    const [x, y] = [rx * Math.cos(angle), ry * Math.sin(angle)];
    const [cos, sin] = [Math.cos(rotation), Math.sin(rotation)];
    return [centre[0] + x * cos - y * sin, centre[1] + x * sin + y * cos];
  };
  return { kind: 'arc', from: at(start), to: at(start + sweep), centre, rx, ry, rotation, start, sweep };
}

/** A full ellipse of two halves, started at `startDegrees`; backwards with a negative `way`. */
export function ellipse(
  centre: Point,
  rx: number,
  ry: number,
  turnDegrees = 0,
  startDegrees = 0,
  way = 1,
): readonly ArcCurve[] {
  const first = ellipseArc(centre, rx, ry, startDegrees, 180 * way, turnDegrees);
  const second = ellipseArc(centre, rx, ry, startDegrees + 180 * way, 180 * way, turnDegrees);
  return [first, { ...second, from: first.to, to: first.from }];
}

export function circle(centre: Point, radius: number, startDegrees = 0, way = 1): readonly ArcCurve[] {
  return ellipse(centre, radius, radius, 0, startDegrees, way);
}

const radians = (degrees: number): number => (degrees * Math.PI) / 180;
