import { quantize } from '../geometry/crossing.js';
import { STEPS_PER_MM } from '../geometry/grid.js';
import { type GridLines, gridLines } from './grid-lines.js';
import { Int32List } from './growing.js';
import type { LineSet } from './line-set.js';
import type { Scratch } from './scratch.js';
import { BLOCK, inBlocks, isBlockEnd } from './steps.js';
import { AT_VERTEX, type Hits, isBefore, SHARED } from './weld-hits.js';
import type { WeldPoints } from './weld-points.js';

/** Where every point goes, in grid steps, and how many points were moved or put on a line. */
export interface PlacedPoints {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly welded: number;
}

/** Follows each point to where it goes. */
export function* placePoints(
  points: WeldPoints,
  hits: Hits,
  scratch: Scratch,
): Generator<number, PlacedPoints> {
  const n = points.x.length;
  const places: Places = {
    x: scratch.float64(n),
    y: scratch.float64(n),
    state: scratch.uint8(n),
    trail: new Int32List(scratch.int32(64)),
  };
  let welded = 0;
  for (let from = 0; from < n; from += BLOCK) {
    const to = Math.min(n, from + BLOCK);
    for (let p = from; p < to; p++) {
      if (hits.segment[p] < 0) settle(places, p, points.x[p], points.y[p]);
      else {
        welded++;
        if (places.state[p] !== SETTLED) follow(points, hits, places, p);
      }
    }
    yield from / n;
  }
  return { x: places.x, y: places.y, welded };
}

interface Places {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly state: Uint8Array;
  /** Points on the way to where one goes. */
  readonly trail: Int32List;
}

const ON_THE_WAY = 1;
const SETTLED = 2;

function settle({ x, y, state }: Places, p: number, px: number, py: number): void {
  x[p] = px;
  y[p] = py;
  state[p] = SETTLED;
}

/** Follows a welded point from point to point, to a foot, a point that stays, or two that point at each other. */
function follow(points: WeldPoints, hits: Hits, places: Places, first: number): void {
  const { state, trail } = places;
  trail.length = 0;
  let p = first;
  while (state[p] === 0) {
    state[p] = ON_THE_WAY;
    trail.push(p);
    const segment = hits.segment[p];
    if (segment < 0) {
      settle(places, p, points.x[p], points.y[p]);
      break;
    }
    const t = hits.t[p];
    const target = t === 0 ? segment : t === 1 ? segment + 1 : -1;
    const link = target < 0 ? -1 : points.ofVertex[target];
    if (link < 0) {
      settle(places, p, hits.footX[p], hits.footY[p]);
      break;
    }
    if (state[link] === ON_THE_WAY) {
      const smaller = isBefore(points.x[p], points.y[p], points.x[link], points.y[link]) ? p : link;
      settle(places, p, points.x[smaller], points.y[smaller]);
      settle(places, link, points.x[smaller], points.y[smaller]);
      break;
    }
    p = link;
  }
  for (let i = 0; i < trail.length; i++) {
    const q = trail.data[i];
    if (state[q] !== SETTLED) settle(places, q, places.x[p], places.y[p]);
  }
}

/**
 * Nodes to be put into segments: those of segment v stand from `start[v]` on, from the smaller end of the segment
 * (by x, then y) to the larger, whichever way the segment runs.
 */
export interface Splits {
  readonly start: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Share of the way from the smaller end. */
  readonly share: Float64Array;
  /** 1 where segment v runs from its smaller end. */
  readonly rising: Uint8Array;
}

/** The nodes that each segment gets: of all welded points whose final place lies on it, or within a step. */
export function* findSplits(
  { coords }: LineSet,
  hits: Hits,
  place: PlacedPoints,
  scratch: Scratch,
): Generator<number, Splits> {
  const vertices = coords.length / 2;
  const count = hits.nearPoint.length;
  const share = scratch.float64(count);
  const start = scratch.int32(vertices + 1);
  for (let i = 0; i < count; i++) {
    const p = hits.nearPoint.data[i];
    const v = hits.nearSegment.data[i];
    share[i] = hits.segment[p] < 0 ? -1 : shareOn(coords, v, place.x[p], place.y[p]);
    if (share[i] >= 0) start[v + 1]++;
    if (isBlockEnd(i)) yield (0.5 * i) / count;
  }
  for (let v = 0; v < vertices; v++) start[v + 1] += start[v];
  const total = start[vertices];
  const splits: Splits = {
    start,
    x: scratch.float64(total),
    y: scratch.float64(total),
    share: scratch.float64(total),
    rising: scratch.uint8(vertices),
  };
  const cursor = scratch.int32(vertices + 1);
  cursor.set(start);
  for (let i = 0; i < count; i++) {
    if (share[i] < 0) continue;
    const p = hits.nearPoint.data[i];
    const v = hits.nearSegment.data[i];
    splits.rising[v] = isRising(coords, v) ? 1 : 0;
    insert(splits, start[v], cursor[v]++, share[i], quantize(place.x[p]), quantize(place.y[p]));
    if (isBlockEnd(i)) yield 0.5 + (0.5 * i) / count;
  }
  return splits;
}

/** Keeps the nodes of one segment sorted. */
function insert(splits: Splits, first: number, end: number, share: number, x: number, y: number): void {
  let at = end;
  for (; at > first; at--) {
    const before = splits.share[at - 1];
    if (before < share || (before === share && !isBefore(x, y, splits.x[at - 1], splits.y[at - 1]))) break;
    splits.share[at] = before;
    splits.x[at] = splits.x[at - 1];
    splits.y[at] = splits.y[at - 1];
  }
  splits.share[at] = share;
  splits.x[at] = x;
  splits.y[at] = y;
}

/** Whether segment v runs from its smaller end to its larger one. */
function isRising(coords: Float64Array, v: number): boolean {
  return !isBefore(coords[2 * v + 2], coords[2 * v + 3], coords[2 * v], coords[2 * v + 1]);
}

/** Share of the way from the smaller end of segment v to a place that is to be a node of it; else -1. */
function shareOn(coords: Float64Array, v: number, x: number, y: number): number {
  const rising = isRising(coords, v);
  const from = rising ? 2 * v : 2 * v + 2;
  const to = rising ? 2 * v + 2 : 2 * v;
  const ax = coords[from] * STEPS_PER_MM;
  const ay = coords[from + 1] * STEPS_PER_MM;
  const dx = coords[to] * STEPS_PER_MM - ax;
  const dy = coords[to + 1] * STEPS_PER_MM - ay;
  const square = dx * dx + dy * dy;
  const share = ((x - ax) * dx + (y - ay) * dy) / square;
  const margin = AT_VERTEX / Math.sqrt(square);
  if (share <= margin || share >= 1 - margin) return -1;
  const away = (x - ax) * dy - (y - ay) * dx;
  if (away * away > SHARED * SHARED * square) return -1;
  return share;
}

/** The lines with the splits put in. */
export function* insertSplits(
  given: GridLines,
  splits: Splits,
  scratch: Scratch,
): Generator<number, GridLines> {
  const n = given.x.length + splits.share.length;
  const source = new Int32Array(n);
  const t = new Float64Array(n);
  const places = { x: scratch.float64(n), y: scratch.float64(n), last: scratch.uint8(n) };
  const lines = gridLines(places, source, t, given.welded);
  yield* inBlocks(given.x.length, (from, to) => copySplit(given, splits, from, to, lines, t));
  return lines;
}

/** Copies some vertices, and the nodes of their segments after them. */
function copySplit(
  given: GridLines,
  { start, rising, share, x: splitX, y: splitY }: Splits,
  from: number,
  to: number,
  { x, y, last, source }: GridLines,
  t: Float64Array,
): void {
  let at = from + start[from];
  for (let v = from; v < to; v++) {
    x[at] = given.x[v];
    y[at] = given.y[v];
    last[at] = given.last[v];
    source[at++] = v;
    const first = start[v];
    const end = start[v + 1];
    for (let n = first; n < end; n++) {
      const i = rising[v] === 1 ? n : end - 1 - (n - first);
      x[at] = splitX[i];
      y[at] = splitY[i];
      t[at] = rising[v] === 1 ? share[i] : 1 - share[i];
      source[at++] = v;
    }
  }
}
