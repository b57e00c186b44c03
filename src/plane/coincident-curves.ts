import { pointAt } from '../geometry/curve.js';
import { curveBounds } from '../geometry/curve-bounds.js';
import { nearestOnCurve } from '../geometry/nearest-on-curve.js';
import type { MapCurve } from './flat-lines.js';

/** A stretch of a curve that runs along another one: there it takes the other's chords. */
export interface Overlay {
  /** Stretch of the curve, `from < to`. */
  readonly from: number;
  readonly to: number;
  /** The curve whose chords count, and its parameters at `from` and `to`. */
  readonly carrier: number;
  readonly carrierFrom: number;
  readonly carrierTo: number;
}

/** Places at which a stretch is compared, beside its ends: two cubics that agree at nine places are one. */
const SAMPLES = 9;

/**
 * Finds where curves coincide: of each pair that share two places, the stretches between ends (of either) that
 * lie within `reach` mm of the other curve all along. Lines need none of it: they take each other's nodes.
 * Each stretch is an overlay on the curve of the higher `rank`.
 */
export function findOverlays(
  curves: readonly MapCurve[],
  pairs: Iterable<readonly [number, number]>,
  rank: Int32Array,
  reach: number,
): Map<number, Overlay[]> {
  const overlays = new Map<number, Overlay[]>();
  for (const [a, b] of pairs) {
    if (curves[a].curve.kind === 'line' && curves[b].curve.kind === 'line') continue;
    const [carrier, curve] = rank[a] < rank[b] ? [a, b] : [b, a];
    for (const stretch of commonStretches(curves, curve, carrier, reach)) {
      const list = overlays.get(curve) ?? [];
      // Of stretches that overlap the first counts, and of the others what it leaves.
      list.push(...partsBeside(curves, curve, stretch, list, reach));
      overlays.set(curve, list);
    }
  }
  for (const list of overlays.values()) list.sort((a, b) => a.from - b.from);
  return overlays;
}

/** What other overlays leave of a stretch, parts shorter than `reach` left out. */
function partsBeside(
  curves: readonly MapCurve[],
  curve: number,
  stretch: Overlay,
  others: readonly Overlay[],
  reach: number,
): Overlay[] {
  const met = others.filter(({ from, to }) => from < stretch.to && stretch.from < to);
  if (met.length === 0) return [stretch];
  const own = curves[curve].curve;
  const carrier = curves[stretch.carrier].curve;
  const place = (t: number): number =>
    t === stretch.from
      ? stretch.carrierFrom
      : t === stretch.to
        ? stretch.carrierTo
        : nearestOnCurve(carrier, pointAt(own, t), stretch.carrierFrom, stretch.carrierTo).t;
  const parts: Overlay[] = [];
  let from = stretch.from;
  for (const { from: start, to: end } of [
    ...met.sort((a, b) => a.from - b.from),
    { from: stretch.to, to: 1 },
  ]) {
    if (start > from && !near(curves, curve, from, start, reach / 2))
      parts.push({ ...stretch, from, to: start, carrierFrom: place(from), carrierTo: place(start) });
    from = Math.max(from, end);
  }
  return parts;
}

function commonStretches(
  curves: readonly MapCurve[],
  curve: number,
  carrier: number,
  reach: number,
): Overlay[] {
  const a = curves[curve].curve;
  const b = curves[carrier].curve;
  const ends: { t: number; s: number }[] = [];
  const add = (t: number, s: number): void => {
    if (!ends.some((end) => near(curves, curve, end.t, t, reach))) ends.push({ t, s });
  };
  for (const t of [0, 1]) {
    const foot = nearestOnCurve(b, pointAt(a, t));
    if (foot.distance <= reach) add(t, foot.t);
  }
  for (const s of [0, 1]) {
    const foot = nearestOnCurve(a, pointAt(b, s));
    if (foot.distance <= reach) add(foot.t, s);
  }
  ends.sort((one, other) => one.t - other.t);
  const stretches: Overlay[] = [];
  for (let i = 0; i + 1 < ends.length; i++) {
    const { t: from, s: carrierFrom } = ends[i];
    const { t: to, s: carrierTo } = ends[i + 1];
    if (runsAlong(curves, curve, carrier, from, to, carrierFrom, carrierTo, reach))
      stretches.push({ from, to, carrier, carrierFrom, carrierTo });
  }
  return stretches;
}

/** Whether two parameters of a curve stand for one place: the way between them stays within reach. */
function near(curves: readonly MapCurve[], curve: number, s: number, t: number, reach: number): boolean {
  if (s === t) return true;
  const box = curveBounds(curves[curve].curve, Math.min(s, t), Math.max(s, t));
  return box[2] - box[0] <= 2 * reach && box[3] - box[1] <= 2 * reach;
}

function runsAlong(
  curves: readonly MapCurve[],
  curve: number,
  carrier: number,
  from: number,
  to: number,
  carrierFrom: number,
  carrierTo: number,
  reach: number,
): boolean {
  const a = curves[curve].curve;
  const b = curves[carrier].curve;
  if (carrierFrom === carrierTo) return false;
  for (let i = 1; i <= SAMPLES; i++) {
    const share = i / (SAMPLES + 1);
    const p = pointAt(a, from + share * (to - from));
    if (nearestOnCurve(b, p, carrierFrom, carrierTo).distance > reach) return false;
    const q = pointAt(b, carrierFrom + share * (carrierTo - carrierFrom));
    if (nearestOnCurve(a, q, from, to).distance > reach) return false;
  }
  return true;
}
