import { quantize } from '../geometry/crossing.js';
import { STEPS_PER_MM } from '../geometry/grid.js';
import { HitList } from './hit-list.js';
import type { LineSet } from './line-set.js';
import type { Scratch } from './scratch.js';
import { BLOCK } from './steps.js';
import type { WeldPoints } from './weld-points.js';

/** A foot nearer than this to an end of its segment, in grid steps, is that end: no edge shorter than a step
 * (and a part, so that rounding does not tell one direction of a line from the other). */
export const AT_VERTEX = 1 + 2 ** -20;

/** A node that lies this near to a line, in grid steps, is a node of it: lines that coincide share their nodes.
 * (A part more than a step, so that rounding does not decide about whole steps.) */
export const SHARED = 1 + 2 ** -10;

/** What the search for hits reads. */
interface Search {
  readonly coords: Float64Array;
  readonly last: Uint8Array;
  readonly points: WeldPoints;
  /** Grid steps. */
  readonly reach: number;
  readonly hits: HitList;
}

/** For every point the nearest place on another line within `reach` grid steps. */
export function* findHits(
  lines: LineSet,
  last: Uint8Array,
  points: WeldPoints,
  reach: number,
  scratch: Scratch,
): Generator<number, HitList> {
  const hits = new HitList(points.x.length, scratch);
  const search: Search = { coords: lines.coords, last, points, reach, hits };
  for (let from = 0; from + 1 < last.length; from += BLOCK) {
    visitBlock(search, from, Math.min(last.length - 1, from + BLOCK));
    yield from / last.length;
  }
  return hits;
}

/** Looks for points near the segments `from … to - 1`: chains at once, other segments one by one. */
function visitBlock(search: Search, from: number, to: number): void {
  for (let v = from; v < to; ) {
    const end = chainEnd(search, v, to);
    if (end > v + 1) visitChain(search, v, end);
    else if (search.last[v] === 0) visitCells(search, v);
    v = end > v ? end : v + 1;
  }
}

/**
 * Where the chain that begins with segment v ends (v itself: it does not begin one). The segments of a chain run on
 * in the same quadrant, each for more than the reach along one axis, so none is within reach of a vertex of the
 * chain that is not its own end. A chain stays within two cells, so that few points are about it.
 */
function chainEnd({ coords, last, points, reach }: Search, v: number, to: number): number {
  const long = (reach + 2 * SHARED) / STEPS_PER_MM;
  const most = CHAIN_CELLS / (points.cell.scale * STEPS_PER_MM);
  const startX = coords[2 * v];
  const startY = coords[2 * v + 1];
  let x = startX;
  let y = startY;
  let quadrant = -1;
  let k = v;
  for (; k < to && last[k] === 0; k++) {
    const bx = coords[2 * k + 2];
    const by = coords[2 * k + 3];
    const dx = bx - x;
    const dy = by - y;
    if (dx <= long && dx >= -long && dy <= long && dy >= -long) break;
    const way = (dx > 0 ? 1 : 0) + (dy > 0 ? 2 : 0);
    if (k > v && way !== quadrant) break;
    if (bx - startX > most || startX - bx > most || by - startY > most || startY - by > most) break;
    quadrant = way;
    x = bx;
    y = by;
  }
  return k;
}

/** Cells of the points that a chain spans at most. */
const CHAIN_CELLS = 2;

/** Tests the segments `v … end - 1` of a chain against the points near it. */
function visitChain(search: Search, v: number, end: number): void {
  const { coords, points } = search;
  const { cell, cellStart } = points;
  const reach = search.reach + SHARED;
  const fromX = coords[2 * v] * STEPS_PER_MM - cell.x0;
  const fromY = coords[2 * v + 1] * STEPS_PER_MM - cell.y0;
  const toX = coords[2 * end] * STEPS_PER_MM - cell.x0;
  const toY = coords[2 * end + 1] * STEPS_PER_MM - cell.y0;
  const minX = (fromX < toX ? fromX : toX) - reach;
  const maxX = (fromX < toX ? toX : fromX) + reach;
  const minY = (fromY < toY ? fromY : toY) - reach;
  const maxY = (fromY < toY ? toY : fromY) + reach;
  if (maxX < 0 || maxY < 0) return;
  const { scale, columns } = cell;
  const row0 = minY < 0 ? 0 : (minY * scale) | 0;
  const row1 = Math.min(cell.rows - 1, (maxY * scale) | 0);
  const column0 = minX < 0 ? 0 : (minX * scale) | 0;
  const column1 = Math.min(columns - 1, (maxX * scale) | 0);
  if (column1 < column0) return;
  for (let row = row0; row <= row1; row++) {
    const beyond = cellStart[row * columns + column1 + 1];
    for (let p = cellStart[row * columns + column0]; p < beyond; p++) {
      const x = points.x[p] - cell.x0;
      const y = points.y[p] - cell.y0;
      if (x < minX) continue;
      if (x > maxX) break;
      if (y < minY || y > maxY) continue;
      const first = points.vertices[points.vertexStart[p]];
      if (first < v || first > end) testChain(search, v, end, p);
    }
  }
}

/** Tests a point against the segments of a chain. */
function testChain(search: Search, v: number, end: number, p: number): void {
  const { coords, points } = search;
  const reach = search.reach + SHARED;
  const px = points.x[p];
  const py = points.y[p];
  let ax = coords[2 * v] * STEPS_PER_MM;
  let ay = coords[2 * v + 1] * STEPS_PER_MM;
  for (let k = v; k < end; k++) {
    const bx = coords[2 * k + 2] * STEPS_PER_MM;
    const by = coords[2 * k + 3] * STEPS_PER_MM;
    if (px === ax && py === ay) join(search, k, p);
    else if (px === bx && py === by) join(search, k + 1, p);
    else if (isInBox(px, py, ax, ay, bx, by, reach)) tryHit(search, k, p);
    ax = bx;
    ay = by;
  }
}

function isInBox(
  px: number,
  py: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  reach: number,
): boolean {
  if (ax < bx ? px < ax - reach || px > bx + reach : px < bx - reach || px > ax + reach) return false;
  return ay < by ? py >= ay - reach && py <= by + reach : py >= by - reach && py <= ay + reach;
}

function visitCells(search: Search, v: number): void {
  const { coords, points } = search;
  const { cell, cellStart } = points;
  const ax = coords[2 * v] * STEPS_PER_MM;
  const ay = coords[2 * v + 1] * STEPS_PER_MM;
  const bx = coords[2 * v + 2] * STEPS_PER_MM;
  const by = coords[2 * v + 3] * STEPS_PER_MM;
  if (ax === bx && ay === by) return;
  const reach = search.reach + SHARED;
  // From the corner of the grid; all that follows uses these, so that their rounding cancels.
  const fromX = ax - cell.x0;
  const fromY = ay - cell.y0;
  const toX = bx - cell.x0;
  const toY = by - cell.y0;
  const top = fromY < toY ? fromY : toY;
  const bottom = fromY < toY ? toY : fromY;
  const minX = (fromX < toX ? fromX : toX) - reach;
  const maxX = (fromX < toX ? toX : fromX) + reach;
  const minY = top - reach;
  const maxY = bottom + reach;
  if (maxX < 0 || maxY < 0) return;
  const { scale, columns } = cell;
  const row0 = minY < 0 ? 0 : (minY * scale) | 0;
  const row1 = Math.min(cell.rows - 1, (maxY * scale) | 0);
  let column0 = minX < 0 ? 0 : (minX * scale) | 0;
  let column1 = Math.min(columns - 1, (maxX * scale) | 0);
  const slanted = row1 > row0 && column1 > column0 && fromY !== toY;
  const slope = slanted ? (toX - fromX) / (toY - fromY) : 0;
  for (let row = row0; row <= row1; row++) {
    if (slanted) {
      // The part of the segment in this row of cells, reach more on every side.
      const y0 = Math.max(row / scale - reach, top);
      const y1 = Math.min((row + 1) / scale + reach, bottom);
      const xa = fromX + (y0 - fromY) * slope;
      const xb = fromX + (y1 - fromY) * slope;
      // One step of margin pays for the rounding of the clip.
      const from = (xa < xb ? xa : xb) - reach - 1;
      const to = (xa < xb ? xb : xa) + reach + 1;
      column0 = Math.max(0, ((from < minX ? minX : from) * scale) | 0);
      column1 = Math.min(columns - 1, ((to > maxX ? maxX : to) * scale) | 0);
    }
    if (column1 < column0) continue;
    const first = cellStart[row * columns + column0];
    const end = cellStart[row * columns + column1 + 1];
    for (let p = first; p < end; p++) {
      const px = points.x[p];
      const py = points.y[p];
      const x = px - cell.x0;
      const y = py - cell.y0;
      if (x < minX) continue;
      // In a row of cells points come by x.
      if (x > maxX) break;
      if (y < minY || y > maxY) continue;
      // A vertex at a point goes where the point goes, corner or not.
      if (px === ax && py === ay) join(search, v, p);
      else if (px === bx && py === by) join(search, v + 1, p);
      else tryHit(search, v, p);
    }
  }
}

/** Vertex v lies at the place of point p: it goes where that goes. */
function join({ points, hits }: Search, v: number, p: number): void {
  if (points.ofVertex[v] === p) return;
  points.ofVertex[v] = p;
  hits.joinedVertex.push(v);
  hits.joinedPoint.push(p);
}

/** Tests a point against a segment. */
function tryHit(search: Search, v: number, p: number): void {
  const { coords, points, hits } = search;
  const px = points.x[p];
  const py = points.y[p];
  const ax = coords[2 * v] * STEPS_PER_MM;
  const ay = coords[2 * v + 1] * STEPS_PER_MM;
  const bx = coords[2 * v + 2] * STEPS_PER_MM;
  const by = coords[2 * v + 3] * STEPS_PER_MM;
  // From the smaller end, so that both directions of a line give the same foot to the last bit.
  const swapped = isBefore(bx, by, ax, ay);
  const fromX = swapped ? bx : ax;
  const fromY = swapped ? by : ay;
  const toX = swapped ? ax : bx;
  const toY = swapped ? ay : by;
  const dx = toX - fromX;
  const dy = toY - fromY;
  const square = dx * dx + dy * dy;
  let share = ((px - fromX) * dx + (py - fromY) * dy) / square;
  const margin = AT_VERTEX / Math.sqrt(square);
  if (share <= margin || share >= 1 - margin) share = share <= 0.5 ? 0 : 1;
  const footX = share === 0 ? fromX : share === 1 ? toX : fromX + share * dx;
  const footY = share === 0 ? fromY : share === 1 ? toY : fromY + share * dy;
  const t = swapped ? 1 - share : share;
  const distance = (px - footX) * (px - footX) + (py - footY) * (py - footY);
  if (distance > (search.reach + SHARED) * (search.reach + SHARED) || isOwn(search, v, p)) return;
  hits.nearPoint.push(p);
  hits.nearSegment.push(v);
  const known = hits.of[p];
  const best = known < 0 ? search.reach * search.reach : hits.distance[known];
  if (distance > best * (1 + EQUALLY_NEAR)) return;
  if (known >= 0 && distance >= best * (1 - EQUALLY_NEAR)) {
    // Compared from the point, so that a shift of everything decides the same.
    const x = quantize(footX - px);
    const y = quantize(footY - py);
    const knownX = quantize(hits.footX[known] - px);
    const knownY = quantize(hits.footY[known] - py);
    if (isBefore(knownX, knownY, x, y)) return;
    // At one place a vertex counts before the inside of a segment: it may go elsewhere.
    const atVertex = t === 0 || t === 1;
    if (x === knownX && y === knownY && (!atVertex || hits.t[known] === 0 || hits.t[known] === 1)) return;
  }
  const h = known < 0 ? hits.add(p) : known;
  hits.distance[h] = distance;
  hits.segment[h] = v;
  hits.t[h] = t;
  hits.footX[h] = footX;
  hits.footY[h] = footY;
}

/** Squares of distances that differ by less, relatively, are equal: the rounding of their arithmetic. */
const EQUALLY_NEAR = 1e-9;

/** Lexicographic order of places. */
export const isBefore = (ax: number, ay: number, bx: number, by: number): boolean =>
  ax < bx || (ax === bx && ay < by);

/** Whether segment v is reached from point p along a line that stays within reach. */
function isOwn(search: Search, v: number, p: number): boolean {
  const { vertexStart, vertices } = search.points;
  // The point's vertices are in order: only the nearest one before and the nearest one after can lead here.
  let low = vertexStart[p];
  let high = vertexStart[p + 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (vertices[middle] <= v) low = middle + 1;
    else high = middle;
  }
  if (low > vertexStart[p] && isNearAlong(search, p, vertices[low - 1], v)) return true;
  return low < vertexStart[p + 1] && isNearAlong(search, p, vertices[low], v + 1);
}

/** Whether a line stays within reach of point p on the way from vertex `start` to vertex `target`. */
function isNearAlong(
  { coords, last, points, reach }: Search,
  p: number,
  start: number,
  target: number,
): boolean {
  const px = points.x[p];
  const py = points.y[p];
  const far = reach * reach * (1 + EQUALLY_NEAR);
  const step = start <= target ? 1 : -1;
  for (let k = start; k !== target; ) {
    if (last[step > 0 ? k : k - 1] === 1) return false;
    k += step;
    const dx = coords[2 * k] * STEPS_PER_MM - px;
    const dy = coords[2 * k + 1] * STEPS_PER_MM - py;
    if (dx * dx + dy * dy > far) return false;
  }
  return true;
}
