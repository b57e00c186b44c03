import type { Drawing, Shape } from '../drawing/drawing.js';
import { flattenParameters, flattenPoints } from '../geometry/flatten.js';
import type { Point } from '../geometry/point.js';

/** A closed drawing shape as rings, for telling what it covers. */
export interface ShapeCover {
  readonly shape: number;
  readonly filled: boolean;
  /** Area of the box around it, mm²: of nested shapes the inner has the smaller box. */
  readonly boxArea: number;
  readonly holds: (p: Point) => boolean;
}

/** The closed shapes of a drawing (drawn closed, or filled), topmost first. */
export function shapeCovers(drawing: Drawing, tolerance: number): ShapeCover[] {
  return drawing.shapes
    .map((shape, index) => coverOf(shape, index, tolerance))
    .filter((cover) => cover !== null)
    .reverse();
}

/** Whether a shape encloses an area of its own: one closed outline. */
export function isClosedShape(shape: Shape): boolean {
  return shape.subpaths.length > 0 && shape.subpaths.every(({ closed }) => closed);
}

function coverOf(shape: Shape, index: number, tolerance: number): ShapeCover | null {
  const outline = shape.cover ?? shape.subpaths;
  const rings = outline
    .filter(({ closed, curves }) => curves.length > 0 && (closed || shape.fill !== null))
    .map(({ curves }) => {
      const points = curves.map((curve) => {
        const xy = flattenPoints(curve, flattenParameters(curve, tolerance), tolerance);
        return xy.subarray(0, xy.length - 2);
      });
      const ring = new Float64Array(points.reduce((sum, xy) => sum + xy.length, 2));
      let at = 0;
      for (const xy of points) {
        ring.set(xy, at);
        at += xy.length;
      }
      ring.set(curves[curves.length - 1].to, at);
      return ring;
    });
  if (rings.length === 0) return null;
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 2) {
      x0 = Math.min(x0, ring[i]);
      x1 = Math.max(x1, ring[i]);
      y0 = Math.min(y0, ring[i + 1]);
      y1 = Math.max(y1, ring[i + 1]);
    }
  }
  const evenOdd = shape.fill?.rule === 'evenodd';
  return {
    shape: index,
    filled: shape.fill !== null,
    boxArea: (x1 - x0) * (y1 - y0),
    holds: ([x, y]) => {
      if (x < x0 || x > x1 || y < y0 || y > y1) return false;
      let winding = 0;
      for (const ring of rings) winding += windingOf(ring, x, y);
      return evenOdd ? (winding & 1) === 1 : winding !== 0;
    },
  };
}

function windingOf(ring: Float64Array, x: number, y: number): number {
  let winding = 0;
  let ax = ring[ring.length - 2];
  let ay = ring[ring.length - 1];
  for (let i = 0; i < ring.length; i += 2) {
    const bx = ring[i];
    const by = ring[i + 1];
    if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) winding += by < ay ? 1 : -1;
    ax = bx;
    ay = by;
  }
  return winding;
}
