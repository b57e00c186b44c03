/**
 * Snap rounding on the integer grid (Hobby 1999; Guibas and Marimont 1998).
 *
 * Input: segments as given, unrounded. A grid point is *hot* if it is the rounding of an end of a segment or of
 * a proper crossing of two segments; the pixel of a point is the half-open square [−½, ½)² about it.
 * Output: for each segment the hot points, beside its ends, whose pixel it meets. Routed through their hot
 * points, in order, segments meet at nodes only.
 *
 * 1. Segments are registered in a uniform grid of cells (with a margin of a step).
 * 2. Each hot pixel belongs to the one cell that holds its point: a cell finds its crossings and tests all its
 *    hot pixels against its segments, on its own.
 * 3. A cell with more than CROWD segments is split in sixteen, down to single pixels. A single pixel met by
 *    more than PIXEL_CROWD different segments counts as hot without a search for a crossing: an extra hot
 *    pixel only snaps more, and the work stays bounded.
 *
 * Everything that is decided is decided exactly, so the result does not depend on the order or direction of
 * the segments or on the choice of cells. Expected O(n + crossings) on line work of even density; crowded
 * places cost O(log) more.
 */
import {
  DOUBT,
  exactSide,
  type GridPoint,
  meetsPixel,
  roundCrossing,
  STEP_PARTS,
} from '../geometry/crossing.js';
import { Int32List } from './growing.js';
import type { Scratch } from './scratch.js';
import { registerSegments, type SegmentGrid } from './segment-grid.js';
import { within } from './steps.js';
import type { GridLines } from './weld.js';

/** Segments in a cell above which it is split: below, testing all pairs costs less than splitting. */
const CROWD = 56;
/** See the file header, step 3. */
const PIXEL_CROWD = 256;

/** Hot points met by segments: `segment[i]` meets the pixel of (`x[i]`, `y[i]`), which is none of its ends. */
export interface Meetings {
  readonly segment: Int32Array;
  readonly x: Int32Array;
  readonly y: Int32Array;
  /** For segments that repeat another one: that one, whose meetings stand for both. null: none was looked for. */
  readonly copyOf: Int32Array | null;
  /** The cells in which segments were registered; of use to who looks for segments near a place. */
  readonly grid: SegmentGrid;
}

/** Finds all meetings; yields now and then with the share of the work done, 0 to 1. */
export function* snapRound(lines: GridLines, scratch: Scratch): Generator<number, Meetings> {
  const grid = yield* within(registerSegments(lines, scratch), 0, 0.4);
  const work = new CellWork(lines, scratch);
  const cells = grid.columns * grid.rows;
  const stride = 4096;
  for (let from = 0; from < cells; from += stride) {
    runCells(work, grid, from, Math.min(cells, from + stride));
    yield 0.4 + (0.6 * from) / cells;
  }
  const { segment, x, y, copyOf } = work;
  // A copy of a copy: cells may have told of different ones, the first one counts. Earlier segments come first.
  if (copyOf !== null) for (let k = 0; k < copyOf.length; k++) copyOf[k] = copyOf[copyOf[k]];
  return {
    segment: segment.data.subarray(0, segment.length),
    x: x.data.subarray(0, x.length),
    y: y.data.subarray(0, y.length),
    copyOf,
    grid,
  };
}

function runCells(work: CellWork, grid: SegmentGrid, from: number, to: number): void {
  for (let k = from; k < to; k++) {
    const first = grid.cellStart[k];
    const end = grid.cellStart[k + 1];
    if (end - first < 2) continue;
    const x0 = grid.x0 + ((k % grid.columns) << grid.shift);
    const y0 = grid.y0 + (Math.floor(k / grid.columns) << grid.shift);
    if (end - first <= CROWD) work.testAll(grid.segments, first, end, x0, y0, 1 << grid.shift);
    else work.split(work.distinct(grid.segments, first, end), x0, y0, 1 << grid.shift);
  }
}

/** The work on one cell at a time, with its scratch arrays and the list of meetings found. */
class CellWork {
  readonly segment: Int32List;
  readonly x: Int32List;
  readonly y: Int32List;
  copyOf: Int32Array | null = null;
  private readonly lines: GridLines;
  private readonly ids: Int32Array;
  private readonly ax: Float64Array;
  private readonly ay: Float64Array;
  private readonly bx: Float64Array;
  private readonly by: Float64Array;
  private readonly crossing: GridPoint = { x: 0, y: 0 };
  private hotX: Float64Array;
  private hotY: Float64Array;
  private hots = 0;
  private readonly slots: Int32Array;
  private readonly slotStamp: Int32Array;
  private stamp = 0;

  constructor(lines: GridLines, scratch: Scratch) {
    this.lines = lines;
    const room = Math.min(1024, lines.x.length + 16);
    this.segment = new Int32List(scratch.int32(room));
    this.x = new Int32List(scratch.int32(room));
    this.y = new Int32List(scratch.int32(room));
    this.ids = scratch.int32(PIXEL_CROWD);
    this.ax = scratch.float64(PIXEL_CROWD);
    this.ay = scratch.float64(PIXEL_CROWD);
    this.bx = scratch.float64(PIXEL_CROWD);
    this.by = scratch.float64(PIXEL_CROWD);
    this.hotX = scratch.float64(64);
    this.hotY = scratch.float64(64);
    this.slots = scratch.int32(1024);
    this.slotStamp = scratch.int32(1024);
  }

  /** Tests all pairs of a cell [x0, x0 + size) × [y0, y0 + size). */
  testAll(list: Int32Array, from: number, to: number, x0: number, y0: number, size: number): void {
    const { ids, ax, ay, bx, by } = this;
    const { x, y } = this.lines;
    const n = to - from;
    for (let i = 0; i < n; i++) {
      const k = list[from + i];
      ids[i] = k;
      ax[i] = x[k];
      ay[i] = y[k];
      bx[i] = x[k + 1];
      by[i] = y[k + 1];
    }
    this.hots = 0;
    this.stamp++;
    const x1 = x0 + size;
    const y1 = y0 + size;
    for (let i = 0; i < n; i++) this.testAfter(i, n, x0, y0, x1, y1);
    for (let h = 0; h < this.hots; h++) this.snapToHot(this.hotX[h], this.hotY[h], n);
  }

  /** Tests segment i of the cell against those after it. */
  private testAfter(i: number, n: number, x0: number, y0: number, x1: number, y1: number): void {
    const { ids, ax, ay, bx, by } = this;
    const aX = ax[i];
    const aY = ay[i];
    const bX = bx[i];
    const bY = by[i];
    // A pixel reaches half a step beyond a segment, and its point half a step beyond an end.
    const minX = (aX < bX ? aX : bX) - 1;
    const maxX = (aX < bX ? bX : aX) + 1;
    const minY = (aY < bY ? aY : bY) - 1;
    const maxY = (aY < bY ? bY : aY) + 1;
    const dx = bX - aX;
    const dy = bY - aY;
    // An end whose pixel is met lies within two pixel reaches of the line.
    const reach = (dx < 0 ? -dx : dx) + (dy < 0 ? -dy : dy);
    const doubt = reach * DOUBT;
    for (let j = i + 1; j < n; j++) {
      const cX = ax[j];
      const dX = bx[j];
      if (cX < dX ? cX > maxX || dX < minX : dX > maxX || cX < minX) continue;
      const cY = ay[j];
      const dY = by[j];
      if (cY < dY ? cY > maxY || dY < minY : dY > maxY || cY < minY) continue;
      const o1 = dx * (cY - aY) - dy * (cX - aX);
      const o2 = dx * (dY - aY) - dy * (dX - aX);
      if (o1 > reach ? o2 > reach : o1 < -reach && o2 < -reach) continue;
      const ex = dX - cX;
      const ey = dY - cY;
      const o3 = ex * (aY - cY) - ey * (aX - cX);
      const o4 = ex * (bY - cY) - ey * (bX - cX);
      const reachJ = (ex < 0 ? -ex : ex) + (ey < 0 ? -ey : ey);
      if (o3 > reachJ ? o4 > reachJ : o3 < -reachJ && o4 < -reachJ) continue;
      const doubtJ = reachJ * DOUBT;
      const clear =
        (o1 > doubt || o1 < -doubt) &&
        (o2 > doubt || o2 < -doubt) &&
        (o3 > doubtJ || o3 < -doubtJ) &&
        (o4 > doubtJ || o4 < -doubtJ);
      if (clear ? o1 > 0 !== o2 > 0 && o3 > 0 !== o4 > 0 : crossesExactly(aX, aY, bX, bY, cX, cY, dX, dY)) {
        const { crossing } = this;
        roundCrossing(aX, aY, bX, bY, cX, cY, dX, dY, o1, o2, doubt, crossing);
        if (crossing.x >= x0 && crossing.x < x1 && crossing.y >= y0 && crossing.y < y1)
          this.addHot(crossing.x, crossing.y);
      }
      if (o1 <= reach && o1 >= -reach) this.snapEnd(ids[i], aX, aY, bX, bY, cX, cY, x0, y0, x1, y1);
      if (o2 <= reach && o2 >= -reach) this.snapEnd(ids[i], aX, aY, bX, bY, dX, dY, x0, y0, x1, y1);
      if (o3 <= reachJ && o3 >= -reachJ) this.snapEnd(ids[j], cX, cY, dX, dY, aX, aY, x0, y0, x1, y1);
      if (o4 <= reachJ && o4 >= -reachJ) this.snapEnd(ids[j], cX, cY, dX, dY, bX, bY, x0, y0, x1, y1);
    }
  }

  /** Snaps segment k to the pixel of the end (ex, ey) of another one, if that pixel lies in the cell. */
  private snapEnd(
    k: number,
    ax: number,
    ay: number,
    bx: number,
    by: number,
    ex: number,
    ey: number,
    x0: number,
    y0: number,
    x1: number,
    y1: number,
  ): void {
    if ((ex === ax && ey === ay) || (ex === bx && ey === by)) return;
    const hx = Math.floor(ex + 0.5);
    const hy = Math.floor(ey + 0.5);
    if (hx >= x0 && hx < x1 && hy >= y0 && hy < y1) this.snapTo(k, ax, ay, bx, by, hx, hy);
  }

  private snapTo(k: number, ax: number, ay: number, bx: number, by: number, hx: number, hy: number): void {
    if (!meetsPixel(ax, ay, bx, by, hx, hy)) return;
    if (Math.floor(ax + 0.5) === hx && Math.floor(ay + 0.5) === hy) return;
    if (Math.floor(bx + 0.5) === hx && Math.floor(by + 0.5) === hy) return;
    this.emit(k, hx, hy);
  }

  private emit(k: number, hx: number, hy: number): void {
    this.segment.push(k);
    this.x.push(hx);
    this.y.push(hy);
  }

  private snapToHot(hx: number, hy: number, n: number): void {
    const { ids, ax, ay, bx, by } = this;
    for (let i = 0; i < n; i++) this.snapTo(ids[i], ax[i], ay[i], bx[i], by[i], hx, hy);
  }

  /** Remembers a crossing of the cell once. */
  private addHot(hx: number, hy: number): void {
    const { slots, slotStamp } = this;
    const full = this.hots >= slots.length >> 1;
    let slot = (Math.imul(hx, 0x9e3779b1) ^ Math.imul(hy, 0x85ebca77)) >>> 22;
    while (slotStamp[slot] === this.stamp) {
      const h = slots[slot];
      if (this.hotX[h] === hx && this.hotY[h] === hy) return;
      slot = (slot + 1) & 1023;
    }
    if (full && this.isHot(hx, hy)) return;
    if (this.hots === this.hotX.length) this.widen();
    if (!full) {
      slots[slot] = this.hots;
      slotStamp[slot] = this.stamp;
    }
    this.hotX[this.hots] = hx;
    this.hotY[this.hots++] = hy;
  }

  private isHot(hx: number, hy: number): boolean {
    for (let h = this.slots.length >> 1; h < this.hots; h++)
      if (this.hotX[h] === hx && this.hotY[h] === hy) return true;
    return false;
  }

  private widen(): void {
    const x = new Float64Array(this.hotX.length * 2);
    const y = new Float64Array(this.hotX.length * 2);
    x.set(this.hotX);
    y.set(this.hotY);
    this.hotX = x;
    this.hotY = y;
  }

  /** Splits a crowded cell in sixteen, as often as needed. `list` holds no segment twice. */
  split(list: Int32Array, x0: number, y0: number, size: number): void {
    if (size === 1) {
      this.testPixel(list, x0, y0);
      return;
    }
    const { x, y } = this.lines;
    const parts = size >= 4 ? 4 : size;
    const part = size / parts;
    const child = new Int32Array(list.length);
    for (let row = 0; row < parts; row++) {
      for (let column = 0; column < parts; column++) {
        const cx = x0 + column * part;
        const cy = y0 + row * part;
        let n = 0;
        for (let i = 0; i < list.length; i++) {
          const k = list[i];
          if (meetsBox(x[k], y[k], x[k + 1], y[k + 1], cx - 1, cy - 1, cx + part, cy + part)) child[n++] = k;
        }
        if (n < 2) continue;
        // Where splitting does not thin them out (lines along each other), it is given up in time.
        const thick = n <= PIXEL_CROWD && 4 * n > 3 * list.length;
        if (n <= CROWD || thick) this.testAll(child, 0, n, cx, cy, part);
        else this.split(child.slice(0, n), cx, cy, part);
      }
    }
  }

  private testPixel(list: Int32Array, hx: number, hy: number): void {
    const { x, y } = this.lines;
    if (list.length <= PIXEL_CROWD) {
      this.testAll(list, 0, list.length, hx, hy, 1);
      return;
    }
    const meets = list.filter((k) => meetsPixel(x[k], y[k], x[k + 1], y[k + 1], hx, hy));
    if (meets.length <= PIXEL_CROWD) {
      this.testAll(meets, 0, meets.length, hx, hy, 1);
      return;
    }
    for (const k of meets) {
      this.snapTo(k, x[k], y[k], x[k + 1], y[k + 1], hx, hy);
    }
  }

  /** The segments of a cell, of each set of equal ones only the first (in the order of all segments). */
  distinct(list: Int32Array, from: number, to: number): Int32Array {
    this.copyOf ??= ownNumbers(this.lines.last.length);
    return withoutCopies(this.lines, list.subarray(from, to), this.copyOf);
  }
}

/** Whether a–b and c–d cross properly; for where doubles cannot tell. */
function crossesExactly(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
): boolean {
  if ((ax === cx && ay === cy) || (ax === dx && ay === dy)) return false;
  if ((bx === cx && by === cy) || (bx === dx && by === dy)) return false;
  if (exactSide(ax, ay, bx, by, cx, cy) * exactSide(ax, ay, bx, by, dx, dy) >= 0) return false;
  return exactSide(cx, cy, dx, dy, ax, ay) * exactSide(cx, cy, dx, dy, bx, by) < 0;
}

/** Whether a segment meets a closed box; boxes have a margin of a step, so doubles do. */
function meetsBox(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
): boolean {
  if (ax < bx ? bx < x0 || ax > x1 : ax < x0 || bx > x1) return false;
  if (ay < by ? by < y0 || ay > y1 : ay < y0 || by > y1) return false;
  const dx = bx - ax;
  const dy = by - ay;
  // Twice the orientation of the box's centre, against twice the reach of the box along the normal.
  const o = dx * (y0 + y1 - 2 * ay) - dy * (x0 + x1 - 2 * ax);
  const reach = Math.abs(dx) * (y1 - y0) + Math.abs(dy) * (x1 - x0);
  return o <= reach && o >= -reach;
}

function ownNumbers(n: number): Int32Array {
  const numbers = new Int32Array(n);
  for (let k = 0; k < n; k++) numbers[k] = k;
  return numbers;
}

/** A list of segments, ascending, without those that repeat another one; what each of them repeats goes to `copyOf`. */
function withoutCopies(lines: GridLines, list: Int32Array, copyOf: Int32Array): Int32Array {
  const { x, y } = lines;
  let bits = 4;
  while (1 << bits < 2 * list.length) bits++;
  const table = new Int32Array(1 << bits).fill(-1);
  const mask = (1 << bits) - 1;
  return list.filter((k) => {
    const swap = x[k] > x[k + 1] || (x[k] === x[k + 1] && y[k] > y[k + 1]);
    const a = swap ? k + 1 : k;
    const b = swap ? k : k + 1;
    let hash = Math.imul(hashable(x[a]), 0x9e3779b1) ^ Math.imul(hashable(y[a]), 0x85ebca77);
    hash = Math.imul(hash ^ (hash >>> 15), 0xc2b2ae3d);
    hash ^= Math.imul(hashable(x[b]), 0x27d4eb2f) ^ Math.imul(hashable(y[b]), 0x165667b1);
    let slot = (hash ^ (hash >>> 16)) & mask;
    for (; table[slot] >= 0; slot = (slot + 1) & mask) {
      const m = table[slot];
      const same =
        (x[m] === x[a] && y[m] === y[a] && x[m + 1] === x[b] && y[m + 1] === y[b]) ||
        (x[m] === x[b] && y[m] === y[b] && x[m + 1] === x[a] && y[m + 1] === y[a]);
      if (!same) continue;
      if (m < copyOf[k]) copyOf[k] = m;
      return false;
    }
    table[slot] = k;
    return true;
  });
}

/** An integer that depends on all of a coordinate: whole steps, and the parts of a step. */
function hashable(steps: number): number {
  const whole = Math.floor(steps);
  return whole ^ Math.imul((steps - whole) * STEP_PARTS, 0x9e3779b1);
}
