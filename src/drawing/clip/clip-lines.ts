import { type Curve, pointAt, subCurve } from '../../geometry/curve.js';
import { curveBounds } from '../../geometry/curve-bounds.js';
import type { Subpath } from '../drawing.js';
import { holds, meets } from './boxes.js';
import { type CountWork, ON_EDGE } from './chord-set.js';
import type { PreparedClip } from './prepared-clip.js';
import { splitParameters } from './split-curve.js';

/** Where a part of a curve is asked for its side, in the order of trust: edges are ambiguous at one point only. */
const SAMPLES = [0.5, 0.25, 0.75];

/**
 * The parts of lines that lie inside of a clip or on its edge; curves stay curves, cut at the edge. Subpaths
 * that are kept whole are returned as they are. The clip's own edge adds nothing.
 */
export function clipLines(lines: readonly Subpath[], clip: PreparedClip, count: CountWork): Subpath[] {
  return lines.flatMap((subpath) => clipSubpath(subpath, clip, count));
}

function clipSubpath(subpath: Subpath, clip: PreparedClip, count: CountWork): Subpath[] {
  const runs: Curve[][] = [];
  const { curves } = subpath;
  let whole = true;
  // Whether the last run reaches the start of the next curve.
  let open = false;
  for (const curve of curves) {
    const stretches = keptStretches(curve, clip, count);
    if (stretches.length !== 1 || stretches[0][0] !== 0 || stretches[0][1] !== 1) whole = false;
    if (stretches.length === 0) open = false;
    for (const [t0, t1] of stretches) {
      const part = subCurve(curve, t0, t1);
      if (open && t0 === 0) runs[runs.length - 1].push(part);
      else runs.push([part]);
      open = t1 === 1;
    }
  }
  if (whole) return [subpath];
  // The start of a closed subpath is no end of a line.
  if (subpath.closed && runs.length > 1 && open && runs[0][0].from === curves[0].from) {
    const last = runs.pop();
    if (last) runs[0] = [...last, ...runs[0]];
  }
  return runs.map((run) => ({ curves: run, closed: false }));
}

/** The stretches of a curve that are not outside, joined where they meet. */
function keptStretches(curve: Curve, clip: PreparedClip, count: CountWork): [number, number][] {
  const bounds = curveBounds(curve);
  if (clip.box !== null && holds(clip.box, bounds)) return [[0, 1]];
  if (!meets(clip.set.bounds, bounds, ON_EDGE)) return [];
  const ts = splitParameters(curve, clip.set, -1, count);
  const kept: [number, number][] = [];
  for (let i = 0; i + 1 < ts.length; i++) {
    count(clip.parts.length);
    if (!shows(curve, ts[i], ts[i + 1], clip)) continue;
    const last = kept[kept.length - 1];
    if (last !== undefined && last[1] === ts[i]) last[1] = ts[i + 1];
    else kept.push([ts[i], ts[i + 1]]);
  }
  return kept;
}

function shows(curve: Curve, t0: number, t1: number, clip: PreparedClip): boolean {
  for (const share of SAMPLES) {
    const side = clip.sideOf(pointAt(curve, t0 + (t1 - t0) * share));
    if (side !== 0) return side > 0;
  }
  return true;
}
