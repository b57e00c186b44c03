import { quantize } from '../geometry/crossing.js';
import { STEPS_PER_MM } from '../geometry/grid.js';
import type { LineSet } from './line-set.js';
import type { GridLines } from './weld.js';
import { AT_VERTEX, type Hits, isBefore, SHARED } from './weld-hits.js';
import type { WeldPoints } from './weld-points.js';

/** Where every point goes, in grid steps, and how many points were moved or put on a line. */
export function placePoints(points: WeldPoints, hits: Hits) {
  const n = points.x.length;
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  const state = new Uint8Array(n);
  const trail: number[] = [];
  let welded = 0;
  const settle = (p: number, px: number, py: number): void => {
    x[p] = px;
    y[p] = py;
    state[p] = 2;
  };
  for (let first = 0; first < n; first++) {
    let p = first;
    while (state[p] === 0) {
      state[p] = 1;
      trail.push(p);
      const segment = hits.segment[p];
      if (segment < 0) {
        settle(p, points.x[p], points.y[p]);
        break;
      }
      const t = hits.t[p];
      const target = t === 0 ? segment : t === 1 ? segment + 1 : -1;
      const link = target < 0 ? -1 : points.ofVertex[target];
      if (link < 0) {
        settle(p, hits.footX[p], hits.footY[p]);
        break;
      }
      if (state[link] === 1) {
        const smaller = isBefore(points.x[p], points.y[p], points.x[link], points.y[link]) ? p : link;
        settle(p, points.x[smaller], points.y[smaller]);
        settle(link, points.x[smaller], points.y[smaller]);
        break;
      }
      p = link;
    }
    const rootX = x[p];
    const rootY = y[p];
    for (const q of trail) if (state[q] !== 2) settle(q, rootX, rootY);
    trail.length = 0;
  }
  for (let p = 0; p < n; p++) if (hits.segment[p] >= 0) welded++;
  return { x, y, welded };
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
export function findSplits(
  { coords }: LineSet,
  hits: Hits,
  place: { readonly x: Float64Array; readonly y: Float64Array },
): Splits {
  const vertices = coords.length / 2;
  const count = hits.nearPoint.length;
  const share = new Float64Array(count);
  const start = new Int32Array(vertices + 1);
  for (let i = 0; i < count; i++) {
    const p = hits.nearPoint.data[i];
    const v = hits.nearSegment.data[i];
    share[i] = hits.segment[p] < 0 ? -1 : shareOn(coords, v, place.x[p], place.y[p]);
    if (share[i] >= 0) start[v + 1]++;
  }
  for (let v = 0; v < vertices; v++) start[v + 1] += start[v];
  const total = start[vertices];
  const splits: Splits = {
    start,
    x: new Float64Array(total),
    y: new Float64Array(total),
    share: new Float64Array(total),
    rising: new Uint8Array(vertices),
  };
  const cursor = start.slice(0, vertices);
  for (let i = 0; i < count; i++) {
    if (share[i] < 0) continue;
    const p = hits.nearPoint.data[i];
    const v = hits.nearSegment.data[i];
    splits.rising[v] = isRising(coords, v) ? 1 : 0;
    insert(splits, start[v], cursor[v]++, share[i], quantize(place.x[p]), quantize(place.y[p]));
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
export function insertSplits(given: GridLines, splits: Splits): GridLines {
  const n = given.x.length + splits.share.length;
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  const last = new Uint8Array(n);
  const source = new Int32Array(n);
  const t = new Float64Array(n);
  let at = 0;
  for (let v = 0; v < given.x.length; v++) {
    x[at] = given.x[v];
    y[at] = given.y[v];
    last[at] = given.last[v];
    source[at++] = v;
    const first = splits.start[v];
    const end = splits.start[v + 1];
    for (let n = first; n < end; n++) {
      const i = splits.rising[v] === 1 ? n : end - 1 - (n - first);
      x[at] = splits.x[i];
      y[at] = splits.y[i];
      t[at] = splits.rising[v] === 1 ? splits.share[i] : 1 - splits.share[i];
      source[at++] = v;
    }
  }
  return { ...given, x, y, last, source, t };
}
