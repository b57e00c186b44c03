import { type Curve, pointAt, reverseCurve, subCurve } from '../../geometry/curve.js';
import { curveBounds } from '../../geometry/curve-bounds.js';
import type { Subpath } from '../drawing.js';
import { meets } from './boxes.js';
import { buildChordSet, type ChordSet, type CountWork, ON_EDGE, windingsAt } from './chord-set.js';
import { joinLoops } from './join-loops.js';
import type { PreparedClip } from './prepared-clip.js';
import { sides, usual } from './region-outline.js';
import { splitParameters } from './split-curve.js';

/**
 * The outline of what a clip leaves of a filled area, as closed curves for the same filling rule.
 *
 * The outline is a chain of curves whose winding number is that of the area inside of the clip, and 0 outside:
 * the area's own curves inside of the clip, and along the clip's edge as many copies of it, one way or the other,
 * as the area winds there. The area's own crossings with itself need no care.
 */
export function clipCover(
  filled: readonly Subpath[],
  clip: PreparedClip,
  count: CountWork,
): readonly Subpath[] {
  const curves: Curve[] = filled.flatMap((subpath) => subpath.curves);
  const area = buildChordSet(curves, new Uint32Array(curves.length), count);
  const chain: Curve[] = [];
  let whole = true;
  for (const curve of curves) {
    const before = chain.length;
    addInside(curve, clip, chain, count);
    if (chain.length !== before + 1 || chain[before] !== curve) whole = false;
  }
  const inside = chain.length;
  for (const curve of clip.outline()) {
    if (meets(area.bounds, curveBounds(curve), ON_EDGE)) addEdge(curve, area, chain, count);
  }
  return whole && chain.length === inside ? filled : joinLoops(chain);
}

/** The parts of a curve of the area that lie inside of the clip; the clip's own edge is drawn by `addEdge`. */
function addInside(curve: Curve, clip: PreparedClip, chain: Curve[], count: CountWork): void {
  if (!meets(clip.set.bounds, curveBounds(curve), ON_EDGE)) return;
  const ts = splitParameters(curve, clip.set, -1, count);
  for (let k = 0; k + 1 < ts.length; k++) {
    count(clip.parts.length);
    const side = usual(ts[k], ts[k + 1], (t) => clip.sideOf(pointAt(curve, t)));
    if (side > 0) chain.push(subCurve(curve, ts[k], ts[k + 1]));
  }
}

/** The clip's edge, as often as the area winds round its inner side. */
function addEdge(curve: Curve, area: ChordSet, chain: Curve[], count: CountWork): void {
  const winding = new Int32Array(1);
  const ts = splitParameters(curve, area, -1, count);
  for (let k = 0; k + 1 < ts.length; k++) {
    const times = usual(ts[k], ts[k + 1], (t) => {
      const [inner] = sides(curve, t);
      windingsAt(area, inner, winding, count);
      return winding[0];
    });
    if (times === 0) continue;
    count(Math.abs(times));
    const part = subCurve(curve, ts[k], ts[k + 1]);
    const directed = times > 0 ? part : reverseCurve(part);
    for (let copy = 0; copy < Math.abs(times); copy++) chain.push(directed);
  }
}
