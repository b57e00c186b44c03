import { DOUBT, exactSide, type GridPoint, meetsPixel, roundCrossing } from '../geometry/crossing.js';
import type { GridLines } from './grid-lines.js';
import { Int32List } from './growing.js';
import type { Scratch } from './scratch.js';
import { quadrantOf } from './segment-chains.js';
import type { SegmentGrid } from './segment-grid.js';

/** Segments at most whose pairs are all tested. */
export const PIXEL_CROWD = 256;

/** The work on one cell at a time, with its scratch arrays and the list of meetings found. */
export class CellWork {
  readonly segment: Int32List;
  readonly x: Int32List;
  readonly y: Int32List;
  readonly lines: GridLines;
  /** Chains in the cell: their segments, and the places of their two ends. */
  private readonly first: Int32Array;
  private readonly end: Int32Array;
  private readonly ax: Float64Array;
  private readonly ay: Float64Array;
  private readonly bx: Float64Array;
  private readonly by: Float64Array;
  /** The cell: [left, right) × [top, bottom). */
  private left = 0;
  private top = 0;
  private right = 0;
  private bottom = 0;
  private readonly crossing: GridPoint = { x: 0, y: 0 };
  /** The ends of two segments that cross. */
  private readonly ends = new Float64Array(8);
  private hotX: Int32Array;
  private hotY: Int32Array;
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
    const { brief } = scratch;
    this.first = brief.int32(PIXEL_CROWD);
    this.end = brief.int32(PIXEL_CROWD);
    this.ax = brief.float64(PIXEL_CROWD);
    this.ay = brief.float64(PIXEL_CROWD);
    this.bx = brief.float64(PIXEL_CROWD);
    this.by = brief.float64(PIXEL_CROWD);
    this.hotX = brief.int32(64);
    this.hotY = brief.int32(64);
    this.slots = brief.int32(1024);
    this.slotStamp = brief.int32(1024);
  }

  /** Tests all pairs of `list[from … to - 1]`, at most PIXEL_CROWD segments, in the cell [x0, x1) × [y0, y1). */
  testAll(list: Int32Array, from: number, to: number, x0: number, y0: number, x1: number, y1: number): void {
    const { first, end } = this;
    const { x, y } = this.lines;
    let count = 0;
    let open = -1;
    for (let i = from; i < to; i++) {
      const k = list[i];
      const quadrant = quadrantOf(x, y, k);
      if (quadrant === open && end[count - 1] === k) end[count - 1]++;
      else {
        first[count] = k;
        end[count++] = k + 1;
      }
      open = quadrant;
    }
    this.testChains(count, x0, y0, x1, y1);
  }

  /** Tests all pairs of segments of the chains in cell k of a grid, at most PIXEL_CROWD. */
  testCell(grid: SegmentGrid, k: number): void {
    const from = grid.cellStart[k];
    const count = grid.cellStart[k + 1] - from;
    for (let i = 0; i < count; i++) {
      const c = grid.chains[from + i];
      this.first[i] = grid.first[c];
      this.end[i] = grid.end[c];
    }
    const size = 1 << grid.shift;
    const x0 = grid.x0 + (k % grid.columns) * size;
    const y0 = grid.y0 + Math.floor(k / grid.columns) * size;
    this.testChains(count, x0, y0, x0 + size, y0 + size);
  }

  private testChains(count: number, x0: number, y0: number, x1: number, y1: number): void {
    const { first, end, ax, ay, bx, by } = this;
    const { x, y } = this.lines;
    for (let i = 0; i < count; i++) {
      ax[i] = x[first[i]];
      ay[i] = y[first[i]];
      bx[i] = x[end[i]];
      by[i] = y[end[i]];
    }
    this.left = x0;
    this.top = y0;
    this.right = x1;
    this.bottom = y1;
    this.hots = 0;
    this.stamp++;
    for (let i = 0; i + 1 < count; i++) this.testAfter(i, count);
    for (let h = 0; h < this.hots; h++) this.snapToHot(this.hotX[h], this.hotY[h], count);
  }

  /** Tests chain i of the cell against those after it. */
  private testAfter(i: number, count: number): void {
    const { first, end, ax, ay, bx, by } = this;
    const aX = ax[i];
    const aY = ay[i];
    const bX = bx[i];
    const bY = by[i];
    // A pixel reaches half a step beyond a segment, and its point half a step beyond an end.
    const minX = (aX < bX ? aX : bX) - 1;
    const maxX = (aX < bX ? bX : aX) + 1;
    const minY = (aY < bY ? aY : bY) - 1;
    const maxY = (aY < bY ? bY : aY) + 1;
    for (let j = i + 1; j < count; j++) {
      const cX = ax[j];
      const dX = bx[j];
      if (cX < dX ? cX > maxX || dX < minX : dX > maxX || cX < minX) continue;
      const cY = ay[j];
      const dY = by[j];
      if (cY < dY ? cY > maxY || dY < minY : dY > maxY || cY < minY) continue;
      if (end[i] - first[i] === 1) this.testAgainst(first[i], first[j], end[j]);
      else this.testEach(i, j);
    }
  }

  /** Tests the segments of chain i that come near the box of chain j against its segments. */
  private testEach(i: number, j: number): void {
    const { first, end, ax, ay, bx, by } = this;
    const { x, y } = this.lines;
    const minX = (ax[j] < bx[j] ? ax[j] : bx[j]) - 1;
    const maxX = (ax[j] < bx[j] ? bx[j] : ax[j]) + 1;
    const minY = (ay[j] < by[j] ? ay[j] : by[j]) - 1;
    const maxY = (ay[j] < by[j] ? by[j] : ay[j]) + 1;
    for (let k = first[i]; k < end[i]; k++) {
      const aX = x[k];
      const bX = x[k + 1];
      if (aX < bX ? aX > maxX || bX < minX : bX > maxX || aX < minX) continue;
      const aY = y[k];
      const bY = y[k + 1];
      if (aY < bY ? aY > maxY || bY < minY : bY > maxY || aY < minY) continue;
      this.testAgainst(k, first[j], end[j]);
    }
  }

  /** Tests segment k against the segments `from … to - 1`. */
  private testAgainst(k: number, from: number, to: number): void {
    const { x, y } = this.lines;
    const aX = x[k];
    const aY = y[k];
    const bX = x[k + 1];
    const bY = y[k + 1];
    const minX = (aX < bX ? aX : bX) - 1;
    const maxX = (aX < bX ? bX : aX) + 1;
    const minY = (aY < bY ? aY : bY) - 1;
    const maxY = (aY < bY ? bY : aY) + 1;
    const dx = bX - aX;
    const dy = bY - aY;
    // An end whose pixel is met lies within two pixel reaches of the line.
    const reach = (dx < 0 ? -dx : dx) + (dy < 0 ? -dy : dy);
    const doubt = reach * DOUBT;
    for (let m = from; m < to; m++) {
      const cX = x[m];
      const dX = x[m + 1];
      if (cX < dX ? cX > maxX || dX < minX : dX > maxX || cX < minX) continue;
      const cY = y[m];
      const dY = y[m + 1];
      if (cY < dY ? cY > maxY || dY < minY : dY > maxY || cY < minY) continue;
      const o1 = dx * (cY - aY) - dy * (cX - aX);
      const o2 = dx * (dY - aY) - dy * (dX - aX);
      if (o1 > reach ? o2 > reach : o1 < -reach && o2 < -reach) continue;
      const ex = dX - cX;
      const ey = dY - cY;
      const o3 = ex * (aY - cY) - ey * (aX - cX);
      const o4 = ex * (bY - cY) - ey * (bX - cX);
      const reachM = (ex < 0 ? -ex : ex) + (ey < 0 ? -ey : ey);
      if (o3 > reachM ? o4 > reachM : o3 < -reachM && o4 < -reachM) continue;
      const doubtM = reachM * DOUBT;
      const cJoins = (cX === aX && cY === aY) || (cX === bX && cY === bY);
      const dJoins = (dX === aX && dY === aY) || (dX === bX && dY === bY);
      if (!cJoins && !dJoins) {
        const clear =
          (o1 > doubt || o1 < -doubt) &&
          (o2 > doubt || o2 < -doubt) &&
          (o3 > doubtM || o3 < -doubtM) &&
          (o4 > doubtM || o4 < -doubtM);
        if (clear ? o1 > 0 !== o2 > 0 && o3 > 0 !== o4 > 0 : crossesExactly(x, y, k, m)) {
          this.findCrossing(k, m);
          if (this.isIn(this.crossing.x, this.crossing.y)) this.addHot(this.crossing.x, this.crossing.y);
        }
      }
      // Most pairs that come near share an end.
      if (o1 <= reach && o1 >= -reach && !cJoins) this.snapEnd(k, m);
      if (o2 <= reach && o2 >= -reach && !dJoins) this.snapEnd(k, m + 1);
      if (o3 <= reachM && o3 >= -reachM && !((aX === cX && aY === cY) || (aX === dX && aY === dY)))
        this.snapEnd(m, k);
      if (o4 <= reachM && o4 >= -reachM && !((bX === cX && bY === cY) || (bX === dX && bY === dY)))
        this.snapEnd(m, k + 1);
    }
  }

  /** Rounds the place where segments k and m cross. */
  private findCrossing(k: number, m: number): void {
    const { ends } = this;
    const { x, y } = this.lines;
    ends[0] = x[k];
    ends[1] = y[k];
    ends[2] = x[k + 1];
    ends[3] = y[k + 1];
    ends[4] = x[m];
    ends[5] = y[m];
    ends[6] = x[m + 1];
    ends[7] = y[m + 1];
    roundCrossing(ends, this.crossing);
  }

  private isIn(hx: number, hy: number): boolean {
    return hx >= this.left && hx < this.right && hy >= this.top && hy < this.bottom;
  }

  /** Snaps segment k to the pixel of vertex v of another one, no end of its own, if that lies in the cell. */
  private snapEnd(k: number, v: number): void {
    const { x, y } = this.lines;
    const hx = Math.floor(x[v] + 0.5) | 0;
    const hy = Math.floor(y[v] + 0.5) | 0;
    if (this.isIn(hx, hy)) this.snapTo(k, hx, hy);
  }

  /** Snaps segment k to a hot pixel, if it meets that away from its own ends. */
  snapTo(k: number, hx: number, hy: number): void {
    const { x, y } = this.lines;
    if (!meetsPixel(x, y, k, hx, hy)) return;
    if (Math.floor(x[k] + 0.5) === hx && Math.floor(y[k] + 0.5) === hy) return;
    if (Math.floor(x[k + 1] + 0.5) === hx && Math.floor(y[k + 1] + 0.5) === hy) return;
    this.emit(k, hx, hy);
  }

  private emit(k: number, hx: number, hy: number): void {
    this.segment.push(k);
    this.x.push(hx);
    this.y.push(hy);
  }

  private snapToHot(hx: number, hy: number, count: number): void {
    const { first, end, ax, ay, bx, by } = this;
    for (let i = 0; i < count; i++) {
      if (ax[i] < bx[i] ? hx < ax[i] - 1 || hx > bx[i] + 1 : hx < bx[i] - 1 || hx > ax[i] + 1) continue;
      if (ay[i] < by[i] ? hy < ay[i] - 1 || hy > by[i] + 1 : hy < by[i] - 1 || hy > ay[i] + 1) continue;
      for (let k = first[i]; k < end[i]; k++) this.snapTo(k, hx, hy);
    }
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
    const x = new Int32Array(this.hotX.length * 2);
    const y = new Int32Array(this.hotX.length * 2);
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
    if ((ax === cx && ay === cy) || (ax === dx && ay === dy)) return false;
    if ((bx === cx && by === cy) || (bx === dx && by === dy)) return false;
    if (!crossesExactly(x, y, k, m)) return false;
    this.findCrossing(k, m);
    return this.crossing.x === hx && this.crossing.y === hy;
  }
}

/** Whether segments k and m cross properly; for where doubles cannot tell. */
function crossesExactly(x: Float64Array, y: Float64Array, k: number, m: number): boolean {
  const [ax, ay, bx, by] = [x[k], y[k], x[k + 1], y[k + 1]];
  const [cx, cy, dx, dy] = [x[m], y[m], x[m + 1], y[m + 1]];
  if (exactSide(ax, ay, bx, by, cx, cy) * exactSide(ax, ay, bx, by, dx, dy) >= 0) return false;
  return exactSide(cx, cy, dx, dy, ax, ay) * exactSide(cx, cy, dx, dy, bx, by) < 0;
}
