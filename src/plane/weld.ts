/**
 * Weld: an end or corner within the weld tolerance of a line is a node on that line.
 *
 * Input: polylines in doubles. Output: polylines on the grid in which every such end or corner is a vertex
 * of the line that it lies on. Decided on the lines as given, before anything is rounded: rounding first
 * would push ends off the lines that they were drawn on and lose faces.
 *
 * 1. Ends and corners are collected, equal coordinates merged (weld-points.ts).
 * 2. Each line looks for points of *other* lines within the tolerance; each point keeps the nearest place.
 *    A point's own line counts as other once the line has left the point's neighbourhood.
 * 3. A point nearest to the inside of a segment becomes a node there: the point moves, the line is split at
 *    the rounded foot of the perpendicular, so it bends by less than a grid step.
 *    A point nearest to a vertex moves to where that vertex goes; two points that are nearest to each other
 *    meet at the lexicographically smaller one.
 * 4. Everything is rounded to the grid.
 *
 * Independent of the order, direction and repetition of the lines. O(n + points) expected.
 */
import { STEPS_PER_MM } from '../geometry/grid.js';
import type { LineSet } from './line-set.js';
import { collectWeldPoints, markCandidates, type WeldPoints } from './weld-points.js';

/** Polylines on the grid, in the order of the input lines, with split points put in. */
export interface GridLines {
  readonly x: Int32Array;
  readonly y: Int32Array;
  /** 1 for the last vertex of a line: no segment runs on from there. */
  readonly last: Uint8Array;
  /** Input vertex that starts the input segment which runs on from this vertex. */
  readonly source: Int32Array;
  /** Place on that input segment, 0 to 1: above 0 only for split points. null where nothing was split. */
  readonly t: Float64Array | null;
  /** Points that were put on another line, or moved to another point. */
  readonly welded: number;
}

/** A foot nearer than this to an end of its segment, in grid steps, is that end: no edge shorter than a step. */
const AT_VERTEX = 1;

/** Where each point goes: nearest place found so far. Distances in grid steps. */
interface Hits {
  readonly distance: Float64Array;
  /** Segment (by its first vertex), or -1. */
  readonly segment: Int32Array;
  readonly t: Float64Array;
  readonly footX: Float64Array;
  readonly footY: Float64Array;
}

/** What the search for hits reads. */
interface Search {
  readonly coords: Float64Array;
  readonly last: Uint8Array;
  readonly points: WeldPoints;
  /** Grid steps. */
  readonly reach: number;
  readonly hits: Hits;
}

/** Welds and rounds; `weld` in mm, 0 rounds only. See the file header. */
export function weldLines(lines: LineSet, weld: number): GridLines {
  if (!(weld > 0)) return roundLines(lines);
  const { marks, count } = markCandidates(lines);
  const reach = weld * STEPS_PER_MM;
  const points = collectWeldPoints(lines, marks, count, STEPS_PER_MM, reach);
  const rounded = roundLines(lines);
  const hits = findHits(lines, rounded.last, points, reach);
  return applyHits(rounded, points, hits);
}

function roundLines({ coords, starts }: LineSet): GridLines {
  const n = coords.length / 2;
  const x = new Int32Array(n);
  const y = new Int32Array(n);
  const source = new Int32Array(n);
  const last = new Uint8Array(n);
  for (let v = 0; v < n; v++) {
    x[v] = Math.floor(coords[2 * v] * STEPS_PER_MM + 0.5);
    y[v] = Math.floor(coords[2 * v + 1] * STEPS_PER_MM + 0.5);
    source[v] = v;
  }
  for (let i = 0; i + 1 < starts.length; i++) if (starts[i + 1] > starts[i]) last[starts[i + 1] - 1] = 1;
  return { x, y, last, source, t: null, welded: 0 };
}

function findHits(lines: LineSet, last: Uint8Array, points: WeldPoints, reach: number): Hits {
  const n = points.x.length;
  const hits: Hits = {
    distance: new Float64Array(n).fill(reach * reach * (1 + 1e-12)),
    segment: new Int32Array(n).fill(-1),
    t: new Float64Array(n),
    footX: new Float64Array(n),
    footY: new Float64Array(n),
  };
  const search: Search = { coords: lines.coords, last, points, reach, hits };
  for (let v = 0; v + 1 < last.length; v++) if (last[v] === 0) visitCells(search, v);
  return hits;
}

function visitCells(search: Search, v: number): void {
  const { coords, points, reach } = search;
  const { cell, cellStart } = points;
  const ax = coords[2 * v] * STEPS_PER_MM;
  const ay = coords[2 * v + 1] * STEPS_PER_MM;
  const bx = coords[2 * v + 2] * STEPS_PER_MM;
  const by = coords[2 * v + 3] * STEPS_PER_MM;
  const minX = (ax < bx ? ax : bx) - reach;
  const maxX = (ax < bx ? bx : ax) + reach;
  const minY = (ay < by ? ay : by) - reach;
  const maxY = (ay < by ? by : ay) + reach;
  const size = cell.size;
  const row0 = Math.max(0, Math.floor((minY - cell.y0) / size));
  const row1 = Math.min(cell.rows - 1, Math.floor((maxY - cell.y0) / size));
  const slope = by === ay ? 0 : (bx - ax) / (by - ay);
  for (let row = row0; row <= row1; row++) {
    let x0 = minX;
    let x1 = maxX;
    if (row1 > row0 && by !== ay) {
      const top = cell.y0 + row * size - reach;
      const bottom = cell.y0 + (row + 1) * size + reach;
      const xTop = ax + (Math.min(Math.max(top, Math.min(ay, by)), Math.max(ay, by)) - ay) * slope;
      const xBottom = ax + (Math.min(Math.max(bottom, Math.min(ay, by)), Math.max(ay, by)) - ay) * slope;
      // One step of margin pays for the rounding of the clip.
      x0 = (xTop < xBottom ? xTop : xBottom) - reach - 1;
      x1 = (xTop < xBottom ? xBottom : xTop) + reach + 1;
    }
    const column0 = Math.max(0, Math.floor((x0 - cell.x0) / size));
    const column1 = Math.min(cell.columns - 1, Math.floor((x1 - cell.x0) / size));
    const from = cellStart[row * cell.columns + column0];
    const to = column1 < column0 ? from : cellStart[row * cell.columns + column1 + 1];
    for (let p = from; p < to; p++) {
      const px = points.x[p];
      const py = points.y[p];
      if (px < minX || px > maxX || py < minY || py > maxY) continue;
      tryHit(search, v, p, ax, ay, bx - ax, by - ay);
    }
  }
}

function tryHit(search: Search, v: number, p: number, ax: number, ay: number, dx: number, dy: number): void {
  const { points, hits } = search;
  const px = points.x[p];
  const py = points.y[p];
  const square = dx * dx + dy * dy;
  let t = square === 0 ? 0 : ((px - ax) * dx + (py - ay) * dy) / square;
  const margin = square === 0 ? 1 : AT_VERTEX / Math.sqrt(square);
  if (t <= margin || t >= 1 - margin) t = t * 2 < 1 ? 0 : 1;
  const footX = t === 0 ? ax : t === 1 ? ax + dx : ax + t * dx;
  const footY = t === 0 ? ay : t === 1 ? ay + dy : ay + t * dy;
  const distance = (px - footX) * (px - footX) + (py - footY) * (py - footY);
  const best = hits.distance[p];
  if (distance > best) return;
  if (distance === best && hits.segment[p] >= 0 && !isBefore(footX, footY, hits.footX[p], hits.footY[p]))
    return;
  if (isOwn(search, v, p)) return;
  hits.distance[p] = distance;
  hits.segment[p] = v;
  hits.t[p] = t;
  hits.footX[p] = footX;
  hits.footY[p] = footY;
}

const isBefore = (ax: number, ay: number, bx: number, by: number): boolean =>
  ax < bx || (ax === bx && ay < by);

/** Whether segment v hangs on point p: touches it, or is reached from it along a line that stays within reach. */
function isOwn({ coords, last, points, reach }: Search, v: number, p: number): boolean {
  const { vertexStart, vertices } = points;
  const px = points.x[p];
  const py = points.y[p];
  const isNearAlong = (start: number, target: number): boolean => {
    const step = start <= target ? 1 : -1;
    for (let k = start; k !== target; ) {
      if (last[step > 0 ? k : k - 1] === 1) return false;
      k += step;
      const dx = coords[2 * k] * STEPS_PER_MM - px;
      const dy = coords[2 * k + 1] * STEPS_PER_MM - py;
      if (dx * dx + dy * dy > reach * reach) return false;
    }
    return true;
  };
  for (let end = v; end <= v + 1; end++) {
    if (coords[2 * end] * STEPS_PER_MM === px && coords[2 * end + 1] * STEPS_PER_MM === py) return true;
  }
  // The point's vertices are in order: only the nearest one before and the nearest one after can lead here.
  let low = vertexStart[p];
  let high = vertexStart[p + 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (vertices[middle] <= v) low = middle + 1;
    else high = middle;
  }
  if (low > vertexStart[p] && isNearAlong(vertices[low - 1], v)) return true;
  if (low < vertexStart[p + 1] && isNearAlong(vertices[low], v + 1)) return true;
  return false;
}

/** Rounded place of every point, in two arrays, and how many points were moved or put on a line. */
function placePoints(points: WeldPoints, hits: Hits) {
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

function applyHits(rounded: GridLines, points: WeldPoints, hits: Hits): GridLines {
  const { x: px, y: py, welded } = placePoints(points, hits);
  const splits: number[] = [];
  for (let p = 0; p < px.length; p++) {
    if (hits.segment[p] >= 0 && hits.t[p] > 0 && hits.t[p] < 1) splits.push(p);
  }
  splits.sort(
    (a, b) => hits.segment[a] - hits.segment[b] || hits.t[a] - hits.t[b] || px[a] - px[b] || py[a] - py[b],
  );
  for (let v = 0; v < points.ofVertex.length; v++) {
    const p = points.ofVertex[v];
    if (p < 0) continue;
    rounded.x[v] = Math.floor(px[p] + 0.5);
    rounded.y[v] = Math.floor(py[p] + 0.5);
  }
  return splits.length === 0 ? { ...rounded, welded } : insertSplits(rounded, splits, px, py, hits, welded);
}

function insertSplits(
  rounded: GridLines,
  splits: readonly number[],
  px: Float64Array,
  py: Float64Array,
  hits: Hits,
  welded: number,
): GridLines {
  const n = rounded.x.length + splits.length;
  const x = new Int32Array(n);
  const y = new Int32Array(n);
  const last = new Uint8Array(n);
  const source = new Int32Array(n);
  const t = new Float64Array(n);
  let at = 0;
  let next = 0;
  for (let v = 0; v < rounded.x.length; v++) {
    x[at] = rounded.x[v];
    y[at] = rounded.y[v];
    last[at] = rounded.last[v];
    source[at++] = v;
    while (next < splits.length && hits.segment[splits[next]] === v) {
      const p = splits[next++];
      x[at] = Math.floor(px[p] + 0.5);
      y[at] = Math.floor(py[p] + 0.5);
      t[at] = hits.t[p];
      source[at++] = v;
    }
  }
  return { x, y, last, source, t, welded };
}
