import type { Drawing, Shape } from '../drawing/drawing.js';
import { borderRuns, borderWinding, type WindingAt } from '../geometry/border-runs.js';
import { buildBoxTree, searchBoxes } from '../geometry/box-tree.js';
import type { Curve } from '../geometry/curve.js';
import { runBounds } from '../geometry/curve-bounds.js';
import { flattenParameters, flattenPoints } from '../geometry/flatten.js';
import { type Bounds, joinBounds, type Point } from '../geometry/point.js';
import { mapInTurns } from './steps.js';

/** A closed drawing shape, for telling what it covers. */
export interface ShapeCover {
  readonly shape: number;
  readonly filled: boolean;
  readonly bounds: Bounds;
  /** Area of the box around it, mm²: of nested shapes the inner has the smaller box. */
  readonly boxArea: number;
  readonly holds: (p: Point) => boolean;
}

/** The closed shapes of a drawing (drawn closed, or filled), topmost first. Yields the share of the work done. */
export function* shapeCovers(drawing: Drawing, tolerance: number): Generator<number, ShapeCover[]> {
  const covers = yield* mapInTurns(drawing.shapes, (shape, index) => coverOf(shape, index, tolerance));
  return covers.filter((cover) => cover !== null).reverse();
}

/** Whether a shape encloses an area of its own: one closed outline. */
export function isClosedShape(shape: Shape): boolean {
  return shape.subpaths.length > 0 && shape.subpaths.every(({ closed }) => closed);
}

function coverOf(shape: Shape, index: number, tolerance: number): ShapeCover | null {
  const outline = (shape.cover ?? shape.subpaths).filter(
    ({ closed, curves }) => curves.length > 0 && (closed || shape.fill !== null),
  );
  if (outline.length === 0) return null;
  const bounds = outline.map(({ curves }) => runBounds(curves)).reduce(joinBounds);
  const [x0, y0, x1, y1] = bounds;
  const evenOdd = shape.fill?.rule === 'evenodd';
  // Most shapes are never asked: their outlines are cut into chords when they are.
  let windingAt: WindingAt | null = null;
  return {
    shape: index,
    filled: shape.fill !== null,
    bounds,
    boxArea: (x1 - x0) * (y1 - y0),
    holds: ([x, y]) => {
      if (x < x0 || x > x1 || y < y0 || y > y1) return false;
      windingAt ??= borderWinding(borderRuns(outline.map(({ curves }) => ringOf(curves, tolerance))));
      const winding = windingAt(x, y);
      return evenOdd ? (winding & 1) === 1 : winding !== 0;
    },
  };
}

/** The chords of a closed run of curves, closed by a straight line where it is open. */
function ringOf(curves: readonly Curve[], tolerance: number): Float64Array {
  const points = curves.map((curve) => flattenPoints(curve, flattenParameters(curve, tolerance), tolerance));
  const ring = new Float64Array(points.reduce((sum, xy) => sum + xy.length - 2, 2));
  let at = 0;
  for (const xy of points) {
    ring.set(xy, at);
    at += xy.length - 2;
  }
  return ring;
}

/** Which of the covers hold a point, in their order. */
export function coversAt(covers: readonly ShapeCover[]): (p: Point) => ShapeCover[] {
  const tree = buildBoxTree(Float64Array.from(covers.flatMap(({ bounds }) => bounds)));
  return (p) => {
    const found: number[] = [];
    searchBoxes(tree, p[0], p[1], p[0], p[1], (i) => {
      if (covers[i].holds(p)) found.push(i);
      return false;
    });
    return found.sort((a, b) => a - b).map((i) => covers[i]);
  };
}
