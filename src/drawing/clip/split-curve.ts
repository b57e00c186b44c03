import { searchBoxes } from '../../geometry/box-tree.js';
import { type Curve, pointAt } from '../../geometry/curve.js';
import { refineMeeting } from '../../geometry/curve-meeting.js';
import { flattenParameters, flattenPoints } from '../../geometry/flatten.js';
import { nearestOnCurve } from '../../geometry/nearest-on-curve.js';
import { distance, type Point } from '../../geometry/point.js';
import { type ChordSet, CLIP_TOLERANCE, type CountWork, ON_EDGE } from './chord-set.js';

/** Parts of a curve shorter than this (mm, one step of the grid that the map rounds to) are not split off. */
const SHORTEST_PART = 1 / 1024;

/** Sine of the angle between chords that run along each other: their crossing says nothing. */
const ALONG = 1e-4;

/**
 * Parameters at which a curve meets the curves of a set, increasing, 0 and 1 included. Crossings of chords are
 * moved onto the true curves; where curves run along each other the ends of either one count. `self` is the
 * number of the curve in the set, or -1.
 */
export function splitParameters(curve: Curve, set: ChordSet, self: number, count: CountWork): number[] {
  const ts = flattenParameters(curve, CLIP_TOLERANCE);
  count(ts.length);
  const points = flattenPoints(curve, ts, CLIP_TOLERANCE);
  const found: number[] = [];
  for (let i = 0; i + 1 < ts.length; i++) {
    const a: Point = [points[2 * i], points[2 * i + 1]];
    const b: Point = [points[2 * i + 2], points[2 * i + 3]];
    const visit = (chord: number): undefined => {
      count(1);
      const other = set.curveOf[chord];
      if (other === self) {
        const t = selfMeeting(set, chord, a, b, ts[i], ts[i + 1]);
        if (t !== null) found.push(t);
        return;
      }
      found.push(...meetings(curve, set, chord, a, b, ts[i], ts[i + 1]));
    };
    searchBoxes(
      set.tree,
      Math.min(a[0], b[0]) - ON_EDGE,
      Math.min(a[1], b[1]) - ON_EDGE,
      Math.max(a[0], b[0]) + ON_EDGE,
      Math.max(a[1], b[1]) + ON_EDGE,
      visit,
    );
  }
  return spaced(curve, found);
}

/** Where the chord a–b of `curve` meets a chord of the set, as parameters of `curve`. */
function meetings(
  curve: Curve,
  set: ChordSet,
  chord: number,
  a: Point,
  b: Point,
  t0: number,
  t1: number,
): number[] {
  const k = 4 * chord;
  const c: Point = [set.ends[k], set.ends[k + 1]];
  const d: Point = [set.ends[k + 2], set.ends[k + 3]];
  const other = set.curves[set.curveOf[chord]];
  const [u0, u1] = [set.parameters[2 * chord], set.parameters[2 * chord + 1]];
  const list: number[] = [];
  const crossing = crossChords(a, b, c, d);
  if (crossing !== null) {
    const t = t0 + (t1 - t0) * crossing[0];
    const met = refineMeeting(curve, t, other, u0 + (u1 - u0) * crossing[1]);
    list.push(met !== null && met.gap <= ON_EDGE ? met.ta : t);
  }
  if (u0 === 0) list.push(...endOnCurve(curve, other.from, a, b));
  if (u1 === 1) list.push(...endOnCurve(curve, other.to, a, b));
  return list;
}

/** Parameters of both chords where they cross (ends included), or null. */
function crossChords(a: Point, b: Point, c: Point, d: Point): [number, number] | null {
  const [px, py] = [b[0] - a[0], b[1] - a[1]];
  const [qx, qy] = [d[0] - c[0], d[1] - c[1]];
  const cross = px * qy - py * qx;
  const size = Math.hypot(px, py) * Math.hypot(qx, qy);
  if (!(Math.abs(cross) > ALONG * size)) return null;
  const [rx, ry] = [c[0] - a[0], c[1] - a[1]];
  const s = (rx * qy - ry * qx) / cross;
  const t = (rx * py - ry * px) / cross;
  const slackS = ON_EDGE / Math.hypot(px, py);
  const slackT = ON_EDGE / Math.hypot(qx, qy);
  if (s < -slackS || s > 1 + slackS || t < -slackT || t > 1 + slackT) return null;
  return [Math.min(1, Math.max(0, s)), Math.min(1, Math.max(0, t))];
}

/** The place of `p` on `curve` when it lies there; `a`–`b`: the chord in question. */
function endOnCurve(curve: Curve, p: Point, a: Point, b: Point): number[] {
  const length = distance(a, b);
  if (distance(a, p) > length + ON_EDGE || distance(b, p) > length + ON_EDGE) return [];
  const nearest = nearestOnCurve(curve, p);
  return nearest.distance <= ON_EDGE ? [nearest.t] : [];
}

/** Where a curve crosses itself (a loop of a cubic), as its parameter on the chord a–b. */
function selfMeeting(
  set: ChordSet,
  chord: number,
  a: Point,
  b: Point,
  t0: number,
  t1: number,
): number | null {
  const [u0, u1] = [set.parameters[2 * chord], set.parameters[2 * chord + 1]];
  if (u0 <= t1 && u1 >= t0) return null;
  const k = 4 * chord;
  const crossing = crossChords(a, b, [set.ends[k], set.ends[k + 1]], [set.ends[k + 2], set.ends[k + 3]]);
  if (crossing === null) return null;
  const t = t0 + (t1 - t0) * crossing[0];
  const curve = set.curves[set.curveOf[chord]];
  const met = refineMeeting(curve, t, curve, u0 + (u1 - u0) * crossing[1]);
  // Neighbouring chords of a tight bend run into each other, and so would the refinement.
  return met !== null && met.gap <= ON_EDGE && Math.abs(met.ta - met.tb) > (t1 - t0) / 2 ? met.ta : t;
}

/** 0, 1 and the parameters between that leave no part shorter than `SHORTEST_PART`. */
function spaced(curve: Curve, parameters: number[]): number[] {
  if (parameters.length === 0) return [0, 1];
  parameters.sort((p, q) => p - q);
  const kept = [0];
  for (const t of parameters) {
    if (t > 0 && t < 1 && isLong(curve, kept[kept.length - 1], t) && isLong(curve, t, 1)) kept.push(t);
  }
  kept.push(1);
  return kept;
}

/** Whether a part leaves its start by more than `SHORTEST_PART`; a loop may come back to it. */
function isLong(curve: Curve, t0: number, t1: number): boolean {
  const start = pointAt(curve, t0);
  return [t1, (t0 + t1) / 2].some((t) => distance(start, pointAt(curve, t)) >= SHORTEST_PART);
}
