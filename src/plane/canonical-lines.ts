/**
 * One way to say what was drawn: each run of curves once, in one of its two directions, in an order of their own.
 *
 * All that arranges curves (flattening, weld, rounding, refinement, which of two copies counts) works on this form, so
 * the order, direction and repetition of the drawn lines cannot count. What was drawn is put back on the net at the
 * end (`netOf`).
 */
import { type ArcCurve, arcOn, type Curve, reverseCurve } from '../geometry/curve.js';
import type { Point } from '../geometry/point.js';
import type { CurveRun, MapCurve } from './flat-lines.js';
import type { DrawnCurves } from './net.js';
import { isTurnEnd, mapInTurns, within } from './steps.js';

/** Distinct runs of distinct curves, and the drawn ones that each stands for. */
export interface CanonicalLines extends DrawnCurves {
  readonly curves: readonly MapCurve[];
  readonly runs: readonly CurveRun[];
}

/** A run in its canonical direction, and where it comes from. */
interface Turned {
  readonly curves: readonly Curve[];
  readonly run: CurveRun;
  readonly turned: boolean;
}

/** Sorts, turns and merges the runs of a drawing. */
export function* canonicalLines(
  drawn: readonly MapCurve[],
  drawnRuns: readonly CurveRun[],
): Generator<number, CanonicalLines> {
  const drawnOnes = drawnRuns.filter((run) => run.length > 0);
  const list = yield* within(
    mapInTurns(drawnOnes, (run) => turn(drawn, run)),
    0,
    0.4,
  );
  // By rows, as nodes will be: what is near in the list is near in memory.
  const rowOf = ({ curves }: Turned): number => curves[0].from[1];
  list.sort((a, b) => rowOf(a) - rowOf(b) || compareRuns(a.curves, b.curves) || a.run[0] - b.run[0]);
  const curves: MapCurve[] = [];
  const runs: CurveRun[] = [];
  /** By drawn curve: `2 · curve`, plus 1 where it was turned; -1 for one in no run. */
  const place = new Int32Array(drawn.length).fill(-1);
  yield 0.7;
  for (const [i, { curves: geometry, run, turned }] of list.entries()) {
    if (isTurnEnd(i)) yield 0.7 + (0.2 * i) / list.length;
    const isCopy = i > 0 && compareRuns(list[i - 1].curves, geometry) === 0;
    const first = isCopy ? curves.length - geometry.length : curves.length;
    geometry.forEach((curve, k) => {
      const d = run[turned ? run.length - 1 - k : k];
      place[d] = 2 * (first + k) + (turned ? 1 : 0);
      if (isCopy) return;
      const { shape, cuts, covers } = drawn[d];
      curves.push(curve === drawn[d].curve ? drawn[d] : { curve, shape, cuts, covers });
    });
    if (!isCopy) runs.push(geometry.map((_, k) => first + k));
  }
  const start = new Int32Array(curves.length + 1);
  for (const c of place) if (c >= 0) start[(c >> 1) + 1]++;
  for (let c = 0; c < curves.length; c++) start[c + 1] += start[c];
  const cursor = start.slice();
  const sources = new Int32Array(start[curves.length]);
  place.forEach((c, d) => {
    if (c >= 0) sources[cursor[c >> 1]++] = 2 * d + (c & 1);
  });
  return { curves, runs, start, drawn: sources };
}

/** The rank of each drawn curve by its shape alone: which of two that coincide is told. */
export function drawnRanks({ start, drawn }: CanonicalLines, ranks: Int32Array, count: number): Int32Array {
  const all = new Int32Array(count);
  for (let c = 0; c + 1 < start.length; c++)
    for (let k = start[c]; k < start[c + 1]; k++) all[drawn[k] >> 1] = ranks[c];
  return all;
}

function turn(drawn: readonly MapCurve[], run: CurveRun): Turned {
  const onward = run.map((c) => settled(drawn[c].curve));
  const from = onward[0].from;
  const to = onward[onward.length - 1].to;
  const order = comparePoints(from, to);
  if (order < 0) return { curves: onward, run, turned: false };
  const back = onward.map((curve) => settled(reverseCurve(curve))).reverse();
  if (order === 0 && compareRuns(onward, back) <= 0) return { curves: onward, run, turned: false };
  return { curves: back, run, turned: true };
}

/**
 * Angles are kept on this grid, so that an arc turned round and back is the same to the last bit: coarse enough that the
 * last bits hardly ever decide where one goes, and of circles of 16 m still less than a thousandth of a grid step.
 */
const ANGLE_STEPS = 2 ** 36;

function settled(curve: Curve): Curve {
  return curve.kind === 'arc' ? settledArc(curve) : curve;
}

function settledArc(arc: ArcCurve): ArcCurve {
  const start = Math.round(arc.start * ANGLE_STEPS) / ANGLE_STEPS;
  const sweep = Math.round((arc.start + arc.sweep) * ANGLE_STEPS) / ANGLE_STEPS - start;
  return start === arc.start && sweep === arc.sweep ? arc : arcOn(arc, arc.from, arc.to, start, sweep);
}

function compareRuns(a: readonly Curve[], b: readonly Curve[]): number {
  for (let k = 0; k < a.length && k < b.length; k++) {
    const order = compareCurves(a[k], b[k]);
    if (order !== 0) return order;
  }
  return a.length - b.length;
}

const KINDS: readonly Curve['kind'][] = ['line', 'quadratic', 'cubic', 'arc'];

function compareCurves(a: Curve, b: Curve): number {
  const ends = comparePoints(a.from, b.from) || comparePoints(a.to, b.to);
  if (ends !== 0) return ends;
  if (a.kind === 'quadratic' && b.kind === 'quadratic') return comparePoints(a.control, b.control);
  if (a.kind === 'cubic' && b.kind === 'cubic')
    return comparePoints(a.control1, b.control1) || comparePoints(a.control2, b.control2);
  if (a.kind === 'arc' && b.kind === 'arc')
    return (
      a.sweep - b.sweep ||
      comparePoints(a.centre, b.centre) ||
      a.rx - b.rx ||
      a.ry - b.ry ||
      a.rotation - b.rotation ||
      a.start - b.start
    );
  return KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind);
}

function comparePoints(a: Point, b: Point): number {
  return a[0] - b[0] || a[1] - b[1];
}
