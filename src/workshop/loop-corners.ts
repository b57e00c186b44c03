import { reverseCurve } from '../geometry/curve.js';
import type { Point } from '../geometry/point.js';
import type { Loop, RegionMap } from '../plane/region-map.js';
import { headingOf, type LineShapes } from './line-shapes.js';
import { acrossEdge } from './standing-stock.js';

/** A point on a region's border where one curve ends and the next begins, seen from inside the region. */
export interface Corner {
  readonly at: Point;
  /** The line that begins here when the loop is walked, and which of its curves (as walked) does. */
  readonly edge: number;
  readonly forward: boolean;
  readonly joint: number;
  /** The angle that the region has here, radians: under π where it juts out, π on a smooth line. */
  readonly angle: number;
  /** Unit direction into the region, half way between the two lines. */
  readonly inward: Point;
}

/**
 * The corners of a region's loop. Lines on which `counts` says no are left out, and so are corners beside them.
 */
export function loopCorners(
  map: RegionMap,
  shapes: LineShapes,
  region: number,
  loop: Loop,
  counts: (edge: number) => boolean,
): Corner[] {
  const corners: Corner[] = [];
  const side = (edge: number, forward: boolean): number => {
    const regionIsLeft = (map.edges[edge].left === region) === forward;
    return regionIsLeft ? 1 : -1;
  };
  loop.forEach(({ edge, forward }, i) => {
    if (!counts(edge) || acrossEdge(map, edge, region) === region) return;
    const before = loop[(i + loop.length - 1) % loop.length];
    const curves = walked(shapes, edge, forward);
    curves.forEach((curve, joint) => {
      const previous = joint > 0 ? curves[joint - 1] : lastOf(walked(shapes, before.edge, before.forward));
      if (joint === 0 && !counts(before.edge)) return;
      const back = headingOf(reverseCurve(previous));
      const out = headingOf(curve);
      corners.push({ at: curve.from, edge, forward, joint, ...wedge(back, out, side(edge, forward)) });
    });
  });
  return corners;
}

/**
 * The wedge between two directions out of a corner, back along the line before and on along the line after,
 * with the region on the left (`side` 1, y down) or on the right (-1) of the walk.
 */
function wedge(back: Point, out: Point, side: number): { angle: number; inward: Point } {
  // Angles grow clockwise on the page, since y points down; the left of the walk is counterclockwise of it.
  const turn = Math.atan2(out[1], out[0]) - Math.atan2(back[1], back[0]);
  const positive = ((side * turn) % (2 * Math.PI)) + (side * turn < 0 ? 2 * Math.PI : 0);
  const angle = positive === 0 ? 2 * Math.PI : positive;
  const middle = Math.atan2(back[1], back[0]) + (side * angle) / 2;
  return { angle, inward: [Math.cos(middle), Math.sin(middle)] };
}

function walked(shapes: LineShapes, edge: number, forward: boolean) {
  const curves = shapes.curves(edge);
  return forward ? curves : [...curves].reverse().map(reverseCurve);
}

function lastOf<T>(list: readonly T[]): T {
  return list[list.length - 1];
}
