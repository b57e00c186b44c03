import { DOUBT, exactSide, type GridPoint, meetsPixel, roundCrossing } from '../geometry/crossing.js';
import { Int32List } from './growing.js';
import type { Scratch } from './scratch.js';
import type { GridLines } from './weld.js';

/** Segments at most whose pairs are all tested. */
export const PIXEL_CROWD = 256;

/**
 * Grid steps along one axis. Of a chain whose segments are all longer and run into the same quadrant, no two
 * segments meet but at their joint, and no end is within a pixel's reach (1 + √2 steps) of another segment: what
 * lies between them adds up along both axes.
 */
const LONG = 3;

/** The work on one cell at a time, with its scratch arrays and the list of meetings found. */
export class CellWork {
  readonly segment: Int32List;
  readonly x: Int32List;
  readonly y: Int32List;
  readonly lines: GridLines;
  private readonly ids: Int32Array;
  private readonly ax: Float64Array;
  private readonly ay: Float64Array;
  private readonly bx: Float64Array;
  private readonly by: Float64Array;
  /** Chains of the cell: the first segment of each, and one past the last of all. */
  private readonly chains: Int32Array;
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
    this.chains = scratch.int32(PIXEL_CROWD + 1);
    this.hotX = scratch.float64(64);
    this.hotY = scratch.float64(64);
    this.slots = scratch.int32(1024);
    this.slotStamp = scratch.int32(1024);
  }

  /** Tests all pairs of `list[from … to - 1]`, at most PIXEL_CROWD segments, in the cell [x0, x1) × [y0, y1). */
  testAll(list: Int32Array, from: number, to: number, x0: number, y0: number, x1: number, y1: number): void {
    const count = this.load(list, from, to);
    if (count === 1) return;
    const { chains } = this;
    this.hots = 0;
    this.stamp++;
    for (let c = 0; c + 1 < count; c++) {
      const end = chains[c + 1];
      for (let i = chains[c]; i < end; i++) this.testAgainst(i, c + 1, count, x0, y0, x1, y1);
    }
    for (let h = 0; h < this.hots; h++) this.snapToHot(this.hotX[h], this.hotY[h], to - from);
  }

  /** Loads the segments, and joins those that run on in the same quadrant to chains; returns how many. */
  private load(list: Int32Array, from: number, to: number): number {
    const { ids, ax, ay, bx, by, chains } = this;
    const { x, y } = this.lines;
    let count = 0;
    let runsOn = -1;
    let quadrant = -1;
    for (let i = 0; i < to - from; i++) {
      const k = list[from + i];
      const aX = x[k];
      const aY = y[k];
      const bX = x[k + 1];
      const bY = y[k + 1];
      ids[i] = k;
      ax[i] = aX;
      ay[i] = aY;
      bx[i] = bX;
      by[i] = bY;
      const dx = bX - aX;
      const dy = bY - aY;
      const way = (dx > 0 ? 1 : 0) + (dy > 0 ? 2 : 0);
      const long = dx > LONG || dx < -LONG || dy > LONG || dy < -LONG;
      if (!long || k !== runsOn || way !== quadrant) chains[count++] = i;
      runsOn = long ? k + 1 : -1;
      quadrant = way;
    }
    chains[count] = to - from;
    return count;
  }

  /** Tests segment i of the cell against the chains from `first` on. */
  private testAgainst(
    i: number,
    first: number,
    count: number,
    x0: number,
    y0: number,
    x1: number,
    y1: number,
  ): void {
    const { ids, ax, ay, bx, by, chains } = this;
    const aX = ax[i];
    const aY = ay[i];
    const bX = bx[i];
    const bY = by[i];
    // A pixel reaches half a step beyond a segment, and its point half a step beyond an end.
    const minX = (aX < bX ? aX : bX) - 1;
    const maxX = (aX < bX ? bX : aX) + 1;
    const minY = (aY < bY ? aY : bY) - 1;
    const maxY = (aY < bY ? bY : aY) + 1;
    for (let c = first; c < count; c++) {
      const from = chains[c];
      const to = chains[c + 1];
      const cX = ax[from];
      const dX = bx[to - 1];
      if (cX < dX ? cX > maxX || dX < minX : dX > maxX || cX < minX) continue;
      const cY = ay[from];
      const dY = by[to - 1];
      if (cY < dY ? cY > maxY || dY < minY : dY > maxY || cY < minY) continue;
      this.testAfter(i, from, to, minX, maxX, minY, maxY, x0, y0, x1, y1);
    }
  }

  /** Tests segment i of the cell against the segments of a chain. */
  private testAfter(
    i: number,
    from: number,
    to: number,
    minX: number,
    maxX: number,
    minY: number,
    maxY: number,
    x0: number,
    y0: number,
    x1: number,
    y1: number,
  ): void {
    const { ids, ax, ay, bx, by } = this;
    const aX = ax[i];
    const aY = ay[i];
    const bX = bx[i];
    const bY = by[i];
    const dx = bX - aX;
    const dy = bY - aY;
    // An end whose pixel is met lies within two pixel reaches of the line.
    const reach = (dx < 0 ? -dx : dx) + (dy < 0 ? -dy : dy);
    const doubt = reach * DOUBT;
    for (let j = from; j < to; j++) {
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

  /** Snaps segment k to a hot pixel, if it meets that away from its own ends. */
  snapTo(k: number, ax: number, ay: number, bx: number, by: number, hx: number, hy: number): void {
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

  /** Whether segments k and m cross properly at a place that is rounded to (hx, hy). */
  crossIn(k: number, m: number, hx: number, hy: number): boolean {
    const { x, y } = this.lines;
    const [ax, ay, bx, by] = [x[k], y[k], x[k + 1], y[k + 1]];
    const [cx, cy, dx, dy] = [x[m], y[m], x[m + 1], y[m + 1]];
    if (!crossesExactly(ax, ay, bx, by, cx, cy, dx, dy)) return false;
    const o1 = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
    const o2 = (bx - ax) * (dy - ay) - (by - ay) * (dx - ax);
    const doubt = (Math.abs(bx - ax) + Math.abs(by - ay)) * DOUBT;
    roundCrossing(ax, ay, bx, by, cx, cy, dx, dy, o1, o2, doubt, this.crossing);
    return this.crossing.x === hx && this.crossing.y === hy;
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
