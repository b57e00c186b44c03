import { type Curve, derivativeAt, pointAt, subCurve } from '../../geometry/curve.js';
import { curveBounds } from '../../geometry/curve-bounds.js';
import type { Point } from '../../geometry/point.js';
import type { Subpath } from '../drawing.js';
import { meets } from './boxes.js';
import {
  buildChordSet,
  type ChordSet,
  CLIP_TOLERANCE,
  type CountWork,
  chordsNear,
  ON_EDGE,
  windingsAt,
} from './chord-set.js';
import { joinLoops } from './join-loops.js';
import type { PreparedClip } from './prepared-clip.js';
import { splitParameters } from './split-curve.js';

/** How far (mm) either side of a line is looked at: beyond what chords differ from curves. */
const SIDE_STEP = 1.5 * ON_EDGE;

/** Sine of the angle below which two lines through a point run along each other. */
const PARALLEL = 0.05;

/**
 * The outline of what a clip leaves of a filled area, as closed curves for the even-odd rule: all curves of the
 * area and of the clip are split where they meet, and those with a visible area on one side only are kept.
 */
export function clipCover(
  filled: readonly Subpath[],
  rule: 'nonzero' | 'evenodd',
  clip: PreparedClip,
  count: CountWork,
): Subpath[] {
  const curves: Curve[] = filled.flatMap((subpath) => subpath.curves);
  const own = curves.length;
  const area = buildChordSet(curves, new Uint32Array(own), count);
  const winding = new Int32Array(1);
  const covered = (p: Point): boolean => {
    windingsAt(area, p, winding);
    const inside = rule === 'nonzero' ? winding[0] !== 0 : winding[0] % 2 !== 0;
    return inside && clip.sideOf(p, true) > 0;
  };
  curves.push(...clip.set.curves);
  const all = buildChordSet(curves, new Uint32Array(curves.length), count);
  const kept: Curve[] = [];
  for (const [i, curve] of curves.entries()) {
    // What bounds both lies within the boxes of both.
    const box = curveBounds(curve);
    if (!meets(clip.set.bounds, box, ON_EDGE) || !meets(area.bounds, box, ON_EDGE)) continue;
    const ts = splitParameters(curve, all, i, count);
    for (let k = 0; k + 1 < ts.length; k++) {
      count(clip.parts.length);
      const middle = (ts[k] + ts[k + 1]) / 2;
      if (bounds(curve, middle, covered) && !drawnBefore(curve, middle, i, all)) {
        kept.push(subCurve(curve, ts[k], ts[k + 1]));
      }
    }
  }
  return joinLoops(kept);
}

/** Whether one side of the curve is covered and the other is not. */
function bounds(curve: Curve, t: number, covered: (p: Point) => boolean): boolean {
  const [x, y] = pointAt(curve, t);
  const [dx, dy] = derivativeAt(curve, t);
  const speed = Math.hypot(dx, dy);
  if (!(speed > 0)) return false;
  const [nx, ny] = [(-dy / speed) * SIDE_STEP, (dx / speed) * SIDE_STEP];
  return covered([x + nx, y + ny]) !== covered([x - nx, y - ny]);
}

/** Whether a curve of a lower number runs along here: then that one draws the line. */
function drawnBefore(curve: Curve, t: number, number: number, all: ChordSet): boolean {
  const [dx, dy] = derivativeAt(curve, t);
  let found = false;
  chordsNear(all, pointAt(curve, t), CLIP_TOLERANCE, (chord) => {
    if (all.curveOf[chord] >= number) return undefined;
    const k = 4 * chord;
    const ex = all.ends[k + 2] - all.ends[k];
    const ey = all.ends[k + 3] - all.ends[k + 1];
    found = Math.abs(dx * ey - dy * ex) <= PARALLEL * Math.hypot(dx, dy) * Math.hypot(ex, ey);
    return found;
  });
  return found;
}
