import type { Drawing, Shape } from '../drawing/drawing.js';
import { type BoxTree, buildBoxTree, searchBoxes } from '../geometry/box-tree.js';
import type { Curve } from '../geometry/curve.js';
import { curveBounds } from '../geometry/curve-bounds.js';
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
  const curves = outline.flatMap((subpath) => closedCurves(subpath.curves));
  const boxes = curves.map((curve) => curveBounds(curve));
  const bounds = boxes.reduce(joinBounds);
  const [x0, y0, x1, y1] = bounds;
  const evenOdd = shape.fill?.rule === 'evenodd';
  const windingAt = windingOf(curves, boxes, tolerance);
  return {
    shape: index,
    filled: shape.fill !== null,
    bounds,
    boxArea: (x1 - x0) * (y1 - y0),
    holds: ([x, y]) => {
      if (x < x0 || x > x1 || y < y0 || y > y1) return false;
      const winding = windingAt(x, y);
      return evenOdd ? (winding & 1) === 1 : winding !== 0;
    },
  };
}

/** The curves of a run, closed by a straight line where it is open. */
function closedCurves(curves: readonly Curve[]): readonly Curve[] {
  const { to: from } = curves[curves.length - 1];
  const { from: to } = curves[0];
  return from[0] === to[0] && from[1] === to[1] ? curves : [...curves, { kind: 'line', from, to }];
}

/** Curves above which a ray looks for those that it meets in a tree. */
const MANY_CURVES = 64;

/**
 * Winding numbers of closed curves, positive where they turn from +x towards −y (y down): what crosses the ray towards
 * +x. Of a curve right of a point the ends tell that; only one about the point is cut into chords.
 */
function windingOf(
  curves: readonly Curve[],
  boxes: readonly Bounds[],
  tolerance: number,
): (x: number, y: number) => number {
  const chords: (Float64Array | undefined)[] = [];
  const windingBy = (c: number, x: number, y: number): number => {
    const [x0, y0, x1, y1] = boxes[c];
    if (x > x1 || y < y0 || y > y1) return 0;
    const { from, to } = curves[c];
    if (x < x0) return crossing(from[1], to[1], y);
    chords[c] ??= chordsOf(curves[c], tolerance);
    return crossingsOf(chords[c]!, x, y);
  };
  let tree: BoxTree | null = null;
  return (x, y) => {
    let winding = 0;
    if (curves.length <= MANY_CURVES) {
      for (let c = 0; c < curves.length; c++) winding += windingBy(c, x, y);
      return winding;
    }
    tree ??= buildBoxTree(Float64Array.from(boxes.flat()));
    searchBoxes(tree, x, y, Number.POSITIVE_INFINITY, y, (c) => {
      winding += windingBy(c, x, y);
      return false;
    });
    return winding;
  };
}

/** Whether a line between two heights crosses that of y: 1 upwards, -1 downwards, else 0. */
function crossing(a: number, b: number, y: number): number {
  return a > y === b > y ? 0 : b < a ? 1 : -1;
}

function crossingsOf(xy: Float64Array, x: number, y: number): number {
  let winding = 0;
  for (let i = 0; i + 2 < xy.length; i += 2) {
    const ay = xy[i + 1];
    const by = xy[i + 3];
    if (ay > y !== by > y && x < xy[i] + ((y - ay) / (by - ay)) * (xy[i + 2] - xy[i]))
      winding += by < ay ? 1 : -1;
  }
  return winding;
}

function chordsOf(curve: Curve, tolerance: number): Float64Array {
  return flattenPoints(curve, flattenParameters(curve, tolerance), tolerance);
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
