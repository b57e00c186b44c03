import { tightestTurn } from './curvature.js';
import { type Curve, derivativeAt, pointAt } from './curve.js';
import type { AreaBoundary } from './narrow/area-boundary.js';
import type { BoundaryPlace } from './narrow/shortest-chord.js';
import type { Point } from './point.js';

/** A place where two curves of a boundary meet at an angle. */
export interface Corner {
  readonly at: Point;
  /** The end of the curve before it, in the order given. */
  readonly place: BoundaryPlace;
  /** Angle on the inside of the area, degrees, 0 to 360: under 180 a tip, over 180 a corner cut into it. */
  readonly angle: number;
}

/** A place where a curve of a boundary turns more tightly than some radius. */
export interface TightTurn {
  readonly at: Point;
  readonly place: BoundaryPlace;
  /** mm; 0 at a cusp. */
  readonly radius: number;
  /** Whether the boundary bends into the area there, as at a corner over 180°. */
  readonly hollow: boolean;
}

/** Where a derivative vanishes (a control point drawn back onto an end), the direction is read this far inside. */
const INSIDE = 2 ** -20;

/** All joints of curves that turn by more than `least` degrees, loop by loop. */
export function boundaryCorners(b: AreaBoundary, least = 1): Corner[] {
  const corners: Corner[] = [];
  b.loops.forEach((loop, k) => {
    loop.forEach((c, curve) => {
      const next = loop[(curve + 1) % loop.length];
      const angle = insideAngle(c, next, b.sense[k]);
      if (Math.abs(angle - 180) <= least) return;
      corners.push({ at: c.to, place: { loop: k, curve, t: 1 }, angle });
    });
  });
  return corners;
}

/** The inside angle between a curve and the next one, degrees; `sense` as in AreaBoundary. */
export function insideAngle(c: Curve, next: Curve, sense: number): number {
  const [ax, ay] = endDirection(c, 1);
  const [bx, by] = endDirection(next, 0);
  const turn = Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
  return 180 - (sense * turn * 180) / Math.PI;
}

function endDirection(c: Curve, t: 0 | 1): Point {
  const d = derivativeAt(c, t);
  return d[0] !== 0 || d[1] !== 0 ? d : derivativeAt(c, t === 0 ? INSIDE : 1 - INSIDE);
}

/** For each curve its tightest turn of either sense under `radius` mm, loop by loop. */
export function tightTurns(b: AreaBoundary, radius: number): TightTurn[] {
  const turns: TightTurn[] = [];
  b.loops.forEach((loop, k) => {
    loop.forEach((c, curve) => {
      for (const sense of [1, -1] as const) {
        const found = tightestTurn(c, 0, 1, sense);
        if (found.radius >= radius) continue;
        const place = { loop: k, curve, t: found.t };
        // Inside lies to the right: turning that way (+x to +y) the boundary bulges out.
        turns.push({ at: pointAt(c, found.t), place, radius: found.radius, hollow: sense * b.sense[k] < 0 });
      }
    });
  });
  return turns;
}
