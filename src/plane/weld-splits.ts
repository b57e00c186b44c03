import { quantize } from '../geometry/crossing.js';
import { STEPS_PER_MM } from '../geometry/grid.js';
import { addUp } from './add-up.js';
import type { HitList } from './hit-list.js';
import type { LineSet } from './line-set.js';
import type { Scratch } from './scratch.js';
import { isBlockEnd } from './steps.js';
import { AT_VERTEX, isBefore, SHARED } from './weld-hits.js';
import type { HitPlaces } from './weld-places.js';

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
}

/** The nodes that each segment gets: of all welded points whose final place lies on it, or within a step. */
export function* findSplits(
  { coords }: LineSet,
  hits: HitList,
  place: HitPlaces,
  scratch: Scratch,
): Generator<number, Splits> {
  const vertices = coords.length / 2;
  const count = hits.nearPoint.length;
  const share = scratch.float64(count);
  // Two places on at first: counts become starts, and starts move up to the ends of their segments as these fill.
  const start = scratch.int32(vertices + 2);
  for (let i = 0; i < count; i++) {
    const h = hits.of[hits.nearPoint.data[i]];
    const v = hits.nearSegment.data[i];
    share[i] = h < 0 ? -1 : shareOn(coords, v, place.x[h], place.y[h]);
    if (share[i] >= 0) start[v + 2]++;
    if (isBlockEnd(i)) yield (0.4 * i) / count;
  }
  addUp(start);
  const total = start[vertices + 1];
  const splits: Splits = {
    start,
    x: scratch.float64(total),
    y: scratch.float64(total),
    share: scratch.float64(total),
  };
  for (let i = 0; i < count; i++) {
    if (share[i] >= 0) {
      const h = hits.of[hits.nearPoint.data[i]];
      put(splits, hits.nearSegment.data[i], share[i], place.x[h], place.y[h]);
    }
    if (isBlockEnd(i)) yield 0.5 + (0.5 * i) / count;
  }
  return splits;
}

function put({ start, x, y, share: shares }: Splits, v: number, share: number, px: number, py: number): void {
  const at = start[v + 1]++;
  x[at] = quantize(px);
  y[at] = quantize(py);
  shares[at] = share;
}

/** Longer lists than this are sorted by the engine instead of by insertion. */
const SHORT = 24;

/** Sorts the nodes of segment v. */
export function sortSplits(splits: Splits, v: number): void {
  const first = splits.start[v];
  const end = splits.start[v + 1];
  if (end - first > SHORT) sortByEngine(splits, first, end);
  else for (let i = first + 1; i < end; i++) insert(splits, first, i);
}

/** Puts the node at `end` among those from `first` on, which are sorted. */
function insert(splits: Splits, first: number, end: number): void {
  const share = splits.share[end];
  const x = splits.x[end];
  const y = splits.y[end];
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

function sortByEngine({ share, x, y }: Splits, first: number, end: number): void {
  const order = Uint32Array.from({ length: end - first }, (_, i) => first + i);
  order.sort((a, b) => share[a] - share[b] || x[a] - x[b] || y[a] - y[b]);
  for (const values of [share, x, y])
    values.set(
      Float64Array.from(order, (i) => values[i]),
      first,
    );
}

/** Whether segment v runs from its smaller end to its larger one. */
export function isRising(coords: Float64Array, v: number): boolean {
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
