import { type BoxTree, buildBoxTree, searchBoxes } from '../../geometry/box-tree.js';
import type { Curve } from '../../geometry/curve.js';
import { flattenParameters, flattenPoints } from '../../geometry/flatten.js';
import { type Bounds, EMPTY_BOUNDS, joinBounds, type Point } from '../../geometry/point.js';

/** How far (mm) chords may lie from their curves here. */
export const CLIP_TOLERANCE = 0.005;

/** A point this near (mm) to an outline is on it: two curves, each as far from its chords as allowed. */
export const ON_EDGE = 2 * CLIP_TOLERANCE;

/** Curves cut into chords, with a search tree over them. */
export interface ChordSet {
  readonly curves: readonly Curve[];
  /** Number of the outline that each curve belongs to. */
  readonly outlineOf: Uint32Array;
  /** x0, y0, x1, y1 of each chord, stride 4, in the direction of its curve. */
  readonly ends: Float64Array;
  /** Curve of each chord. */
  readonly curveOf: Uint32Array;
  /** Parameters of both ends of each chord on its curve, stride 2. */
  readonly parameters: Float64Array;
  readonly tree: BoxTree;
  /** A box around all chords. */
  readonly bounds: Bounds;
  /** Right of all chords. */
  readonly farX: number;
}

/** What the search tree takes. */
const MOST_CHORDS = 2 ** 21;

/** Counts work; throws when it is too much. */
export type CountWork = (steps: number) => void;

/** Cuts curves into chords; `outlineOf` is kept as given. */
export function buildChordSet(curves: readonly Curve[], outlineOf: Uint32Array, count: CountWork): ChordSet {
  const ends: number[] = [];
  const curveOf: number[] = [];
  const parameters: number[] = [];
  for (const [i, curve] of curves.entries()) {
    const ts = flattenParameters(curve, CLIP_TOLERANCE);
    count(ts.length);
    const points = flattenPoints(curve, ts, CLIP_TOLERANCE);
    for (let k = 0; k + 1 < ts.length; k++) {
      ends.push(points[2 * k], points[2 * k + 1], points[2 * k + 2], points[2 * k + 3]);
      curveOf.push(i);
      parameters.push(ts[k], ts[k + 1]);
    }
  }
  if (curveOf.length > MOST_CHORDS) count(Number.POSITIVE_INFINITY);
  const boxes = new Float64Array(ends.length);
  let bounds = EMPTY_BOUNDS;
  for (let k = 0; k < ends.length; k += 4) {
    boxes[k] = Math.min(ends[k], ends[k + 2]);
    boxes[k + 1] = Math.min(ends[k + 1], ends[k + 3]);
    boxes[k + 2] = Math.max(ends[k], ends[k + 2]);
    boxes[k + 3] = Math.max(ends[k + 1], ends[k + 3]);
    bounds = joinBounds(bounds, [boxes[k], boxes[k + 1], boxes[k + 2], boxes[k + 3]]);
  }
  return {
    curves,
    outlineOf,
    ends: Float64Array.from(ends),
    curveOf: Uint32Array.from(curveOf),
    parameters: Float64Array.from(parameters),
    tree: buildBoxTree(boxes),
    bounds,
    farX: bounds[2] + 1,
  };
}

/** How often each outline winds round a point, into `windings` (one number an outline). */
export function windingsAt(set: ChordSet, [x, y]: Point, windings: Int32Array, count: CountWork): void {
  windings.fill(0);
  const { ends } = set;
  let seen = windings.length;
  searchBoxes(set.tree, x, y, set.farX, y, (chord) => {
    const k = 4 * chord;
    seen++;
    const y0 = ends[k + 1];
    const y1 = ends[k + 3];
    // Half-open in y, so that a chord's end counts once.
    if (y0 <= y === y1 <= y) return undefined;
    const side = (ends[k + 2] - ends[k]) * (y - y0) - (x - ends[k]) * (y1 - y0);
    const crosses = y1 > y0 ? side > 0 : side < 0;
    if (crosses) windings[set.outlineOf[set.curveOf[chord]]] += y1 > y0 ? 1 : -1;
    return undefined;
  });
  count(seen / CHEAP);
}

/** Chords that a ray meets cost less than the other steps that are counted. */
const CHEAP = 4;

/** Calls `visit` for each chord within `reach` of a point; a visit that returns true ends the search. */
export function chordsNear(
  set: ChordSet,
  p: Point,
  reach: number,
  visit: (chord: number) => boolean | undefined,
): void {
  searchBoxes(set.tree, p[0] - reach, p[1] - reach, p[0] + reach, p[1] + reach, (chord) => {
    return chordDistance(set, chord, p) <= reach ? visit(chord) : undefined;
  });
}

function chordDistance(set: ChordSet, chord: number, [x, y]: Point): number {
  const k = 4 * chord;
  const dx = set.ends[k + 2] - set.ends[k];
  const dy = set.ends[k + 3] - set.ends[k + 1];
  const square = dx * dx + dy * dy;
  const along = square === 0 ? 0 : ((x - set.ends[k]) * dx + (y - set.ends[k + 1]) * dy) / square;
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(set.ends[k] + t * dx - x, set.ends[k + 1] + t * dy - y);
}
