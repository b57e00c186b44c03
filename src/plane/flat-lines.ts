import type { Subpath } from '../drawing/drawing.js';
import type { Curve } from '../geometry/curve.js';
import { type FlattenRoom, flattenParameters, flattenPoints, flattenRoom } from '../geometry/flatten.js';
import { nearestOnCurve } from '../geometry/nearest-on-curve.js';
import type { Overlay } from './coincident-curves.js';
import type { LineSet } from './line-set.js';
import { isTurnEnd } from './steps.js';

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

/** A stretch on which a curve loses its own vertices. */
export interface BareStretch {
  readonly from: number;
  readonly to: number;
}

/** What the chords of curves have to go by, beside the tolerance. */
export interface ChordRules {
  /** Vertices that a curve must have, by its parameter. */
  readonly stops: ReadonlyMap<number, readonly CurveStop[]>;
  /** Stretches on which a curve takes the chords of another. */
  readonly overlays: ReadonlyMap<number, readonly Overlay[]>;
  /** Stretches about touches (touch-rules.ts), where stops alone count. */
  readonly bare: ReadonlyMap<number, readonly BareStretch[]>;
}

/** No rules: the first round. */
export const NO_RULES: ChordRules = { stops: new Map(), overlays: new Map(), bare: new Map() };

/**
 * Cuts runs of curves into chords within `tolerance` mm of them, by the rules. Joints of curves count as
 * corners: what touches a line at a joint is meant to touch it. `plain` keeps the chords of curves by the
 * tolerance alone from one call to the next.
 */
export function* flattenRuns(
  curves: readonly MapCurve[],
  runs: readonly CurveRun[],
  tolerance: number,
  rules: ChordRules,
  plain: (Chords | undefined)[] = [],
): Generator<number, FlatLines> {
  const work: ChordWork = { curves, tolerance, rules, plain, done: [], room: flattenRoom() };
  const starts = new Uint32Array(runs.length + 1);
  let curvesDone = 0;
  for (let i = 0; i < runs.length; i++) {
    starts[i + 1] = starts[i] + countVertices(work, runs[i]);
    curvesDone += runs[i].length;
    if (curvesDone < TURN) continue;
    curvesDone = 0;
    yield (0.8 * i) / runs.length;
  }
  const count = starts[runs.length];
  const corners = new Uint8Array(count);
  const flat: FlatLines = {
    lines: { coords: new Float64Array(2 * count), starts, corners },
    curve: new Int32Array(count),
    t0: new Float64Array(count),
    t1: new Float64Array(count),
  };
  yield 0.8;
  for (let i = 0; i < runs.length; i++) {
    layRun(work, runs[i], starts[i], flat, corners);
    if (isTurnEnd(i)) yield 0.8 + (0.2 * i) / runs.length;
  }
  return flat;
}

/** Curves that are cut between two chances to pause. */
const TURN = 64;

function countVertices(work: ChordWork, run: CurveRun): number {
  let count = run.length > 0 ? 1 : 0;
  for (const c of run) count += chordsOf(work, c).t.length - 1;
  return count;
}

/** Puts the chords of a run at vertex `first` on. */
function layRun(work: ChordWork, run: CurveRun, first: number, flat: FlatLines, corners: Uint8Array): void {
  if (run.length === 0) return;
  const { lines, curve, t0, t1 } = flat;
  const { coords } = lines;
  let n = first;
  for (const c of run) {
    const { t, xy } = chordsOf(work, c);
    corners[n] = 1;
    for (let k = 0; k + 1 < t.length; k++) {
      coords[2 * n] = xy[2 * k];
      coords[2 * n + 1] = xy[2 * k + 1];
      curve[n] = c;
      t0[n] = t[k];
      t1[n++] = t[k + 1];
    }
  }
  const [x, y] = work.curves[run[run.length - 1]].curve.to;
  coords[2 * n] = x;
  coords[2 * n + 1] = y;
  corners[n] = 1;
  curve[n] = -1;
}

/** Vertices of a curve: parameters, and points (x, y, stride 2). */
export interface Chords {
  readonly t: Float64Array;
  readonly xy: Float64Array;
}

/** What chords are made from, and those made so far: carriers are asked for again. */
interface ChordWork {
  readonly curves: readonly MapCurve[];
  readonly tolerance: number;
  readonly rules: ChordRules;
  /** By curve. */
  readonly plain: (Chords | undefined)[];
  readonly done: (Chords | undefined)[];
  readonly room: FlattenRoom;
}

function plainChords({ curves, tolerance, plain, room }: ChordWork, c: number): Chords {
  const known = plain[c];
  if (known !== undefined) return known;
  const { curve } = curves[c];
  const t = flattenParameters(curve, tolerance, room);
  const chords = { t, xy: flattenPoints(curve, t, tolerance) };
  plain[c] = chords;
  return chords;
}

function chordsOf(work: ChordWork, c: number): Chords {
  const known = work.done[c];
  if (known !== undefined) return known;
  let chords = plainChords(work, c);
  const bare = work.rules.bare.get(c);
  if (bare !== undefined) chords = outside(chords, bare);
  const overlays = work.rules.overlays.get(c) ?? [];
  if (overlays.length > 0) {
    const borrowed = overlays.flatMap((overlay) => borrow(work, c, overlay));
    chords = withStops(outside(chords, overlays), borrowed);
  }
  chords = withStops(chords, work.rules.stops.get(c) ?? []);
  work.done[c] = chords;
  return chords;
}

/** The vertices that lie inside no stretch. */
function outside({ t, xy }: Chords, stretches: readonly BareStretch[]): Chords {
  const isOutside = (k: number): boolean => !stretches.some(({ from, to }) => t[k] > from && t[k] < to);
  return { t: t.filter((_, k) => isOutside(k)), xy: xy.filter((_, i) => isOutside(i >> 1)) };
}

/** The carrier's vertices strictly inside an overlay, as stops of the curve, in order. */
function borrow(work: ChordWork, c: number, overlay: Overlay): CurveStop[] {
  const { from, to, carrier, carrierFrom, carrierTo } = overlay;
  const { t, xy } = chordsOf(work, carrier);
  const low = Math.min(carrierFrom, carrierTo);
  const high = Math.max(carrierFrom, carrierTo);
  const stops: CurveStop[] = [];
  for (let k = 0; k < t.length; k++) {
    if (t[k] <= low || t[k] >= high) continue;
    const foot = nearestOnCurve(work.curves[c].curve, [xy[2 * k], xy[2 * k + 1]], from, to);
    if (foot.t > from && foot.t < to) stops.push({ t: foot.t, x: xy[2 * k], y: xy[2 * k + 1] });
  }
  // In the carrier's order: two vertices may have the same foot.
  if (carrierTo < carrierFrom) stops.reverse();
  return stops;
}

/** Puts stops, in order, between the vertices; a stop at a vertex's parameter takes its place. */
function withStops({ t: given, xy: points }: Chords, stops: readonly CurveStop[]): Chords {
  if (stops.length === 0) return { t: given, xy: points };
  const t = new Float64Array(given.length + stops.length);
  const xy = new Float64Array(2 * t.length);
  let n = 0;
  const put = (at: number, x: number, y: number): void => {
    t[n] = at;
    xy[2 * n] = x;
    xy[2 * n++ + 1] = y;
  };
  let next = 0;
  for (let k = 0; k < given.length; k++) {
    for (; next < stops.length && stops[next].t < given[k]; next++)
      put(stops[next].t, stops[next].x, stops[next].y);
    if (next < stops.length && stops[next].t === given[k]) {
      put(given[k], stops[next].x, stops[next].y);
      next++;
    } else put(given[k], points[2 * k], points[2 * k + 1]);
  }
  return n === t.length ? { t, xy } : { t: t.subarray(0, n), xy: xy.subarray(0, 2 * n) };
}
