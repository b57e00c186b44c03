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
import type { HitList } from './hit-list.js';
import type { LineSet } from './line-set.js';
import { Scratch } from './scratch.js';
import { inBlocks, within } from './steps.js';
import { findHits } from './weld-hits.js';
import { type HitPlaces, placeHits } from './weld-places.js';
import { collectWeldPoints, markCandidates, type WeldPoints } from './weld-points.js';
import { findSplits, isRising, type Splits, sortSplits } from './weld-splits.js';

/** Welds; `weld` in mm, 0 takes the lines as they are. See the file header. Yields the share of the work done. */
export function* weldLines(
  given: LineSet,
  weld: number,
  scratch = new Scratch(),
): Generator<number, GridLines> {
  const { lines, origin } = dropRepeats(given);
  yield 0.05;
  const last = lastVertices(lines, scratch);
  const grid =
    weld > 0 ? yield* weldDistinct(lines, last, weld, scratch) : yield* toSteps(lines, last, scratch);
  if (origin === null) return grid;
  return gridLines(
    grid,
    grid.source.map((v) => origin[v]),
    grid.t,
    grid.welded,
  );
}

/** 1 for the last vertex of each line. */
function lastVertices({ coords, starts }: LineSet, scratch: Scratch): Uint8Array {
  const last = scratch.uint8(coords.length / 2);
  for (let i = 0; i + 1 < starts.length; i++) if (starts[i + 1] > starts[i]) last[starts[i + 1] - 1] = 1;
  return last;
}

function* weldDistinct(
  lines: LineSet,
  last: Uint8Array,
  weld: number,
  scratch: Scratch,
): Generator<number, GridLines> {
  const { brief } = scratch;
  const { marks, count } = markCandidates(lines, brief);
  yield 0.1;
  const reach = weld * STEPS_PER_MM;
  const points = yield* within(collectWeldPoints(lines, marks, count, reach, brief), 0.1, 0.35);
  const hits = yield* within(findHits(lines, last, points, reach, brief), 0.35, 0.7);
  const place = yield* within(placeHits(points, hits, brief), 0.7, 0.75);
  const splits = yield* within(findSplits(lines, hits, place, brief), 0.75, 0.85);
  const grid =
    splits.share.length === 0
      ? yield* within(toSteps(lines, last, scratch), 0.85, 0.95)
      : yield* within(withSplits(lines, last, splits, scratch), 0.85, 0.95);
  moveVertices(grid, points, hits, place, splits.start);
  return gridLines(grid, grid.source, grid.t, hits.count);
}

/** Moves the vertices of welded points to where these went; vertices stand further on by the nodes before them. */
function moveVertices(
  { x, y }: GridLines,
  { vertexStart, vertices }: WeldPoints,
  hits: HitList,
  place: HitPlaces,
  start: Int32Array,
): void {
  for (let h = 0; h < hits.count; h++) {
    const p = hits.point[h];
    for (let i = vertexStart[p]; i < vertexStart[p + 1]; i++) {
      const at = vertices[i] + start[vertices[i]];
      x[at] = quantize(place.x[h]);
      y[at] = quantize(place.y[h]);
    }
  }
  for (let i = 0; i < hits.joinedVertex.length; i++) {
    const h = hits.of[hits.joinedPoint.data[i]];
    if (h < 0) continue;
    const v = hits.joinedVertex.data[i];
    x[v + start[v]] = quantize(place.x[h]);
    y[v + start[v]] = quantize(place.y[h]);
  }
}

/** Lines in grid steps, as they are. */
function* toSteps({ coords }: LineSet, last: Uint8Array, scratch: Scratch): Generator<number, GridLines> {
  const n = coords.length / 2;
  const x = scratch.float64(n);
  const y = scratch.float64(n);
  const source = new Int32Array(n);
  yield* inBlocks(n, (from, to) => stepsOf(coords, from, to, x, y, source));
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

/** Lines in grid steps, with splits put in. */
function* withSplits(
  { coords }: LineSet,
  last: Uint8Array,
  splits: Splits,
  scratch: Scratch,
): Generator<number, GridLines> {
  const n = last.length + splits.share.length;
  const source = new Int32Array(n);
  const t = new Float64Array(n);
  const places = { x: scratch.float64(n), y: scratch.float64(n), last: scratch.uint8(n) };
  const lines = gridLines(places, source, t, 0);
  yield* inBlocks(last.length, (from, to) => copySplit(coords, last, splits, from, to, lines, t));
  return lines;
}

/** Copies some vertices, and the nodes of their segments after them. */
function copySplit(
  coords: Float64Array,
  givenLast: Uint8Array,
  splits: Splits,
  from: number,
  to: number,
  { x, y, last, source }: GridLines,
  t: Float64Array,
): void {
  const { start } = splits;
  let at = from + start[from];
  for (let v = from; v < to; v++) {
    x[at] = quantize(coords[2 * v] * STEPS_PER_MM);
    y[at] = quantize(coords[2 * v + 1] * STEPS_PER_MM);
    last[at] = givenLast[v];
    source[at++] = v;
    const first = start[v];
    const end = start[v + 1];
    if (end === first) continue;
    sortSplits(splits, v);
    const rising = isRising(coords, v);
    for (let n = first; n < end; n++) {
      const i = rising ? n : end - 1 - (n - first);
      x[at] = splits.x[i];
      y[at] = splits.y[i];
      t[at] = rising ? splits.share[i] : 1 - splits.share[i];
      source[at++] = v;
    }
  }
}
