import { type Curve, derivativeAt, pointAt, reverseCurve, subCurve } from '../../geometry/curve.js';
import type { Point } from '../../geometry/point.js';
import { type ChordSet, CLIP_TOLERANCE, type CountWork, chordsNear, ON_EDGE } from './chord-set.js';
import { splitParameters } from './split-curve.js';

/** How far (mm) either side of a line is looked at: beyond what chords differ from curves. */
export const SIDE_STEP = 1.5 * ON_EDGE;

/** Sine of the angle below which two lines through a point run along each other. */
const PARALLEL = 0.05;

/**
 * The edge of a region as curves, each directed so that windings count the region as +1. All outlines of the
 * region are split where they meet, and the parts with the region on one side only are kept, once each.
 */
export function regionOutline(set: ChordSet, inside: (p: Point) => boolean, count: CountWork): Curve[] {
  const outline: Curve[] = [];
  for (const [i, curve] of set.curves.entries()) {
    const ts = splitParameters(curve, set, i, count);
    for (let k = 0; k + 1 < ts.length; k++) {
      count(1);
      const middle = (ts[k] + ts[k + 1]) / 2;
      const [right, left] = sides(curve, middle);
      if (inside(right) === inside(left) || drawnBefore(curve, middle, i, set)) continue;
      const part = subCurve(curve, ts[k], ts[k + 1]);
      outline.push(inside(right) ? part : reverseCurve(part));
    }
  }
  return outline;
}

/** Points a little to the right and to the left of a curve, y pointing down; the same point twice at a cusp. */
export function sides(curve: Curve, t: number): [Point, Point] {
  const [x, y] = pointAt(curve, t);
  const [dx, dy] = derivativeAt(curve, t);
  const speed = Math.hypot(dx, dy);
  if (!(speed > 0))
    return [
      [x, y],
      [x, y],
    ];
  const [nx, ny] = [(-dy / speed) * SIDE_STEP, (dx / speed) * SIDE_STEP];
  return [
    [x + nx, y + ny],
    [x - nx, y - ny],
  ];
}

/** Whether a curve of a lower number runs along here: then that one draws the line. */
function drawnBefore(curve: Curve, t: number, number: number, set: ChordSet): boolean {
  const [dx, dy] = derivativeAt(curve, t);
  let found = false;
  chordsNear(set, pointAt(curve, t), CLIP_TOLERANCE, (chord) => {
    if (set.curveOf[chord] >= number) return undefined;
    const k = 4 * chord;
    const ex = set.ends[k + 2] - set.ends[k];
    const ey = set.ends[k + 3] - set.ends[k + 1];
    found = Math.abs(dx * ey - dy * ex) <= PARALLEL * Math.hypot(dx, dy) * Math.hypot(ex, ey);
    return found;
  });
  return found;
}
