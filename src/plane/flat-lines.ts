import type { Subpath } from '../drawing/drawing.js';
import { type Curve, pointAt } from '../geometry/curve.js';
import { flattenParameters, flattenPoints } from '../geometry/flatten.js';
import type { LineSet } from './line-set.js';

/** A curve of the drawing, and what it stands for on the map. */
export interface MapCurve {
  readonly curve: Curve;
  /** Index of the drawing shape. */
  readonly shape: number;
  /** The curve is a cut line; else it only bounds what a fill covers. */
  readonly cuts: boolean;
  /** The curve bounds the fill of its shape. */
  readonly covers: boolean;
}

/** A run of curves, as indices into the list of map curves. */
export type CurveRun = readonly number[];

/** A place on a curve where it is to have a vertex, and the point there. */
export interface CurveStop {
  readonly t: number;
  readonly x: number;
  readonly y: number;
}

/** Curves cut into chords. Segment v of `lines` (from vertex v on) lies on curve `curve[v]`, from `t0[v]` to `t1[v]`. */
export interface FlatLines {
  readonly lines: LineSet;
  readonly curve: Int32Array;
  readonly t0: Float64Array;
  readonly t1: Float64Array;
}

/** Adds a subpath's curves to the list; returns their run. */
export function addRun(
  curves: MapCurve[],
  subpath: Subpath,
  shape: number,
  cuts: boolean,
  covers: boolean,
): CurveRun {
  return subpath.curves.map((curve) => curves.push({ curve, shape, cuts, covers }) - 1);
}

/**
 * Cuts runs of curves into chords within `tolerance` mm of them, with a vertex at each of the `stops` of a
 * curve. Joints of curves count as corners: what touches a line at a joint is meant to touch it.
 */
export function flattenRuns(
  curves: readonly MapCurve[],
  runs: readonly CurveRun[],
  tolerance: number,
  stops: ReadonlyMap<number, readonly CurveStop[]>,
): FlatLines {
  const coords: number[] = [];
  const corners: number[] = [];
  const curve: number[] = [];
  const t0: number[] = [];
  const t1: number[] = [];
  const starts = new Uint32Array(runs.length + 1);
  runs.forEach((run, i) => {
    for (const c of run) {
      const { t, xy } = chordsOf(curves[c].curve, tolerance, stops.get(c));
      for (let k = 0; k + 1 < t.length; k++) {
        coords.push(xy[2 * k], xy[2 * k + 1]);
        corners.push(k === 0 ? 1 : 0);
        curve.push(c);
        t0.push(t[k]);
        t1.push(t[k + 1]);
      }
    }
    if (run.length > 0) {
      const end = pointAt(curves[run[run.length - 1]].curve, 1);
      coords.push(end[0], end[1]);
      corners.push(1);
      curve.push(-1);
      t0.push(0);
      t1.push(0);
    }
    starts[i + 1] = coords.length / 2;
  });
  return {
    lines: { coords: Float64Array.from(coords), starts, corners: Uint8Array.from(corners) },
    curve: Int32Array.from(curve),
    t0: Float64Array.from(t0),
    t1: Float64Array.from(t1),
  };
}

function chordsOf(curve: Curve, tolerance: number, stops: readonly CurveStop[] | undefined) {
  const parameters = flattenParameters(curve, tolerance);
  const points = flattenPoints(curve, parameters, tolerance);
  if (stops === undefined) return { t: parameters, xy: points };
  const t: number[] = [];
  const xy: number[] = [];
  let next = 0;
  for (let k = 0; k < parameters.length; k++) {
    for (; next < stops.length && stops[next].t < parameters[k]; next++) {
      t.push(stops[next].t);
      xy.push(stops[next].x, stops[next].y);
    }
    const stop = next < stops.length && stops[next].t === parameters[k] ? stops[next++] : null;
    t.push(parameters[k]);
    xy.push(stop === null ? points[2 * k] : stop.x, stop === null ? points[2 * k + 1] : stop.y);
  }
  return { t, xy };
}
