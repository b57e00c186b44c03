import type { BoxTree } from '../box-tree.js';
import type { Curve } from '../curve.js';
import { curveArea } from '../curve-area.js';
import { flattenParameters, flattenPoints } from '../flatten.js';
import { nestLoops } from './nest-loops.js';
import { treeOfRuns } from './segment-runs.js';

/**
 * The boundary of a plane area as one run of straight segments, ready for searches. Segment i runs from vertex i
 * to vertex `next[i]`; every loop is walked so that the inside lies to the right (y down), so `(−dy, dx)` of a
 * segment points inside. Owned by the caller, not changed after `areaBoundary` made it.
 */
export interface AreaBoundary {
  /** The loops as given. */
  readonly loops: readonly (readonly Curve[])[];
  /** Largest distance of a segment from its curve, mm. */
  readonly tolerance: number;
  /** Whether every curve is a straight line, so that the segments are exact. */
  readonly straight: boolean;
  /** Vertices, mm. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** The vertices after and before, on the same loop. */
  readonly next: Int32Array;
  readonly prev: Int32Array;
  /** Curve of a segment, as index into its loop, and its parameters at both ends (t0 > t1: walked backwards). */
  readonly curve: Int32Array;
  readonly t0: Float64Array;
  readonly t1: Float64Array;
  /** Loop of a segment. */
  readonly loop: Int32Array;
  /** First vertex of each loop, and the number of vertices at the end. */
  readonly first: Int32Array;
  /** Length of each segment, mm. */
  readonly lengths: Float64Array;
  /** Length of boundary before a vertex, from the first of its loop, along the segments, mm. */
  readonly along: Float64Array;
  /** Length of each loop, along the segments, mm. */
  readonly loopLength: Float64Array;
  /** Signed area of each loop by its true curves, as it is given (see curveArea), mm². */
  readonly area: Float64Array;
  /** 1 where a loop is walked as given, −1 where backwards. */
  readonly sense: Int8Array;
  /** For each loop the outline that it belongs to: itself for an outline, the loop around it for a hole. */
  readonly outline: Int32Array;
  /** Boxes of runs of segments: item k holds segments `runs[k] … runs[k + 1] − 1`. */
  readonly tree: BoxTree;
  readonly runs: Int32Array;
}

/** Choices of `areaBoundary`. */
export interface AreaBoundaryOptions {
  /** Flattening tolerance, mm. Default 0.005. */
  readonly tolerance?: number;
}

export const AREA_BOUNDARY_DEFAULTS: Required<AreaBoundaryOptions> = { tolerance: 0.005 };

/**
 * Prepares closed loops of curves, an area by the even-odd rule, for `narrowPlaces` and `thinEnds`. Loops may
 * touch but must not cross; they may come in any order and direction, and there may be several outlines. Each
 * curve should begin where the one before it ended: small gaps are bridged. Loops without extent are left out
 * of all searches. O(n log n).
 */
export function areaBoundary(
  loops: readonly (readonly Curve[])[],
  options: AreaBoundaryOptions = {},
): AreaBoundary {
  const { tolerance } = { ...AREA_BOUNDARY_DEFAULTS, ...options };
  const area = Float64Array.from(loops, (loop) =>
    loop.reduce((sum, c) => sum + curveArea(c, 0, 1, loop[0].from), 0),
  );
  const flat = flattenLoops(loops, tolerance);
  const { hole, outline } = nestLoops(flat, area);
  const sense = new Int8Array(loops.length);
  for (let k = 0; k < loops.length; k++) {
    sense[k] = area[k] > 0 === (hole[k] === 0) ? 1 : -1;
    if (sense[k] < 0) turnRound(flat, flat.first[k], flat.first[k + 1]);
  }
  const links = linkVertices(flat);
  const { tree, runs } = treeOfRuns(flat);
  const straight = loops.every((loop) => loop.every((c) => c.kind === 'line'));
  return { loops, tolerance, straight, ...flat, ...links, area, sense, outline, tree, runs };
}

/** Vertices and segments of all loops, in the order given. */
export type FlatLoops = Pick<AreaBoundary, 'x' | 'y' | 'curve' | 't0' | 't1' | 'loop' | 'first'>;

function flattenLoops(loops: readonly (readonly Curve[])[], tolerance: number): FlatLoops {
  const straight = Float64Array.of(0, 1);
  const parameters = loops.map((loop) =>
    loop.map((c) => (c.kind === 'line' ? straight : flattenParameters(c, tolerance))),
  );
  const most = parameters.reduce((sum, loop) => loop.reduce((all, t) => all + t.length - 1, sum), 0);
  const [x, y] = [new Float64Array(most), new Float64Array(most)];
  const [t0, t1] = [new Float64Array(most), new Float64Array(most)];
  const [curve, loop] = [new Int32Array(most), new Int32Array(most)];
  const first = new Int32Array(loops.length + 1);
  let n = 0;
  loops.forEach((curves, k) => {
    first[k] = n;
    curves.forEach((c, index) => {
      const t = parameters[k][index];
      const xy = c.kind === 'line' ? c.from : flattenPoints(c, t, tolerance);
      // The last point of a curve is the first of the next one: a gap of rounding closes here.
      for (let i = 0; i + 1 < t.length; i++) {
        if (n > first[k] && xy[2 * i] === x[n - 1] && xy[2 * i + 1] === y[n - 1]) n--;
        x[n] = xy[2 * i];
        y[n] = xy[2 * i + 1];
        t0[n] = t[i];
        t1[n] = t[i + 1];
        curve[n] = index;
        loop[n++] = k;
      }
    });
    if (n > first[k] + 1 && x[n - 1] === x[first[k]] && y[n - 1] === y[first[k]]) n--;
    if (n - first[k] < 2) n = first[k];
  });
  first[loops.length] = n;
  return {
    x: x.slice(0, n),
    y: y.slice(0, n),
    curve: curve.slice(0, n),
    t0: t0.slice(0, n),
    t1: t1.slice(0, n),
    loop: loop.slice(0, n),
    first,
  };
}

/** Reverses the walk of a loop in place: vertices by themselves, segments one place on. */
function turnRound(flat: FlatLoops, from: number, to: number): void {
  for (const part of [flat.x, flat.y]) part.subarray(from, to).reverse();
  // Segment i joins vertices i and i + 1; after the turn the segment that closed the loop comes last again.
  for (const part of [flat.curve, flat.t0, flat.t1]) part.subarray(from, to - 1).reverse();
  for (let i = from; i < to; i++) {
    const t = flat.t0[i];
    flat.t0[i] = flat.t1[i];
    flat.t1[i] = t;
  }
}

function linkVertices(
  flat: FlatLoops,
): Pick<AreaBoundary, 'next' | 'prev' | 'lengths' | 'along' | 'loopLength'> {
  const { x, y, first } = flat;
  const n = x.length;
  const [next, prev] = [new Int32Array(n), new Int32Array(n)];
  const [along, lengths] = [new Float64Array(n), new Float64Array(n)];
  const loopLength = new Float64Array(first.length - 1);
  for (let k = 0; k + 1 < first.length; k++) {
    let length = 0;
    for (let i = first[k]; i < first[k + 1]; i++) {
      next[i] = i + 1 < first[k + 1] ? i + 1 : first[k];
      prev[next[i]] = i;
      along[i] = length;
      lengths[i] = Math.hypot(x[next[i]] - x[i], y[next[i]] - y[i]);
      length += lengths[i];
    }
    loopLength[k] = length;
  }
  return { next, prev, lengths, along, loopLength };
}
