/**
 * Weld: an end or corner within the weld tolerance of a line is a node on that line.
 *
 * Input: polylines in doubles. Output: polylines, unrounded, in which every such end or corner is a vertex
 * of the line that it lies on. Decided on the lines as given, before anything is rounded: rounding first
 * would push ends off the lines that they were drawn on and lose faces.
 *
 * 1. Ends and corners are collected, equal coordinates merged (weld-points.ts).
 * 2. Each line looks for points of *other* lines within the tolerance; each point keeps the nearest place.
 *    A point's own line counts as other once the line has left the point's neighbourhood.
 * 3. A point nearest to the inside of a segment becomes a node there: the point moves, the line is split at
 *    the foot of the perpendicular, so it does not bend before it is rounded.
 *    Other lines that pass within a step of the node get it too: lines that coincide share their nodes.
 *    A point nearest to a vertex moves to where that vertex goes; two points that are nearest to each other
 *    meet at the lexicographically smaller one.
 *
 * Independent of the order, direction and repetition of the lines. O(n + points) expected.
 */
import { quantize } from '../geometry/crossing.js';
import { STEPS_PER_MM } from '../geometry/grid.js';
import { dropRepeats } from './drop-repeats.js';
import { type GridLines, gridLines } from './grid-lines.js';
import type { LineSet } from './line-set.js';
import { Scratch } from './scratch.js';
import { inBlocks, within } from './steps.js';
import { findHits } from './weld-hits.js';
import { collectWeldPoints, markCandidates } from './weld-points.js';
import { findSplits, insertSplits, type PlacedPoints, placePoints } from './weld-splits.js';

/** Welds; `weld` in mm, 0 takes the lines as they are. See the file header. Yields the share of the work done. */
export function* weldLines(
  given: LineSet,
  weld: number,
  scratch = new Scratch(),
): Generator<number, GridLines> {
  const { lines, origin } = dropRepeats(given);
  yield 0.05;
  const grid = weld > 0 ? yield* weldDistinct(lines, weld, scratch) : yield* toSteps(lines, scratch);
  if (origin === null) return grid;
  return gridLines(
    grid,
    grid.source.map((v) => origin[v]),
    grid.t,
    grid.welded,
  );
}

function* weldDistinct(lines: LineSet, weld: number, scratch: Scratch): Generator<number, GridLines> {
  const { brief } = scratch;
  const { marks, count } = markCandidates(lines, brief);
  yield 0.1;
  const reach = weld * STEPS_PER_MM;
  const points = yield* within(collectWeldPoints(lines, marks, count, reach, brief), 0.1, 0.35);
  const given = yield* within(toSteps(lines, scratch), 0.35, 0.4);
  const hits = yield* within(findHits(lines, given.last, points, reach, brief), 0.4, 0.7);
  const place = yield* within(placePoints(points, hits, brief), 0.7, 0.8);
  const splits = yield* within(findSplits(lines, hits, place, brief), 0.8, 0.9);
  const { ofVertex } = points;
  yield* inBlocks(ofVertex.length, (from, to) => moveToPlaces(given, ofVertex, place, from, to), 0.9, 0.95);
  const welded = gridLines(given, given.source, null, place.welded);
  if (splits.share.length === 0) return welded;
  return yield* within(insertSplits(welded, splits, scratch), 0.95, 1);
}

/** Moves some vertices to where their points went. */
function moveToPlaces(
  { x, y }: GridLines,
  ofVertex: Int32Array,
  place: PlacedPoints,
  from: number,
  to: number,
): void {
  for (let v = from; v < to; v++) {
    const p = ofVertex[v];
    if (p < 0) continue;
    x[v] = quantize(place.x[p]);
    y[v] = quantize(place.y[p]);
  }
}

function* toSteps({ coords, starts }: LineSet, scratch: Scratch): Generator<number, GridLines> {
  const n = coords.length / 2;
  const x = scratch.float64(n);
  const y = scratch.float64(n);
  const source = new Int32Array(n);
  const last = scratch.uint8(n);
  yield* inBlocks(n, (from, to) => stepsOf(coords, from, to, x, y, source));
  for (let i = 0; i + 1 < starts.length; i++) if (starts[i + 1] > starts[i]) last[starts[i + 1] - 1] = 1;
  return gridLines({ x, y, last }, source, null, 0);
}

/** The coordinates of some vertices in grid steps. */
function stepsOf(
  coords: Float64Array,
  from: number,
  to: number,
  x: Float64Array,
  y: Float64Array,
  source: Int32Array,
): void {
  for (let v = from; v < to; v++) {
    x[v] = quantize(coords[2 * v] * STEPS_PER_MM);
    y[v] = quantize(coords[2 * v + 1] * STEPS_PER_MM);
    source[v] = v;
  }
}
