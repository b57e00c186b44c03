import { borderDistance, borderRuns } from './border-runs.js';
import { type Bounds, EMPTY_BOUNDS } from './point.js';

/** The place inside an area that is furthest from its border, and how far that is. */
export interface Pole {
  readonly x: number;
  readonly y: number;
  /** Distance to the border; 0 or less where the area has no inside. */
  readonly room: number;
}

/** Squares looked at, at most: bounds the time on areas that are hardly there. */
const MOST_CELLS = 4096;

/**
 * The pole of inaccessibility of the area bounded by closed rings (even-odd; x, y, stride 2, last point not
 * repeated): the centre of the largest inscribed disc, to `precision`. Branch and bound on squares, the most
 * promising first. Garcia-Castellanos and Lombardo 2007 name the notion. O(n) per square looked at, n counted in
 * runs of eight segments.
 */
export function poleOf(rings: readonly Float64Array[], precision: number): Pole {
  const border = borderRuns(rings);
  if (border.segments.length === 0) return { x: 0, y: 0, room: 0 };
  const [x0, y0, x1, y1] = outerBox(border.boxes);
  const distanceAt = borderDistance(border);
  const best = { x: (x0 + x1) / 2, y: (y0 + y1) / 2, room: Number.NEGATIVE_INFINITY };
  best.room = distanceAt(best.x, best.y, Number.NEGATIVE_INFINITY);
  const size = Math.max(Math.min(x1 - x0, y1 - y0), Math.max(x1 - x0, y1 - y0) / 16);
  if (size === 0) return best;
  const queue = new CellQueue();
  const offer = (x: number, y: number, half: number): void => {
    const spread = half * Math.SQRT2;
    // A border nearer than this makes the square useless: no need to know how near.
    const room = distanceAt(x, y, best.room + precision - spread);
    if (room > best.room) {
      best.x = x;
      best.y = y;
      best.room = room;
    }
    if (room + spread > best.room + precision) queue.push(x, y, half, room + spread);
  };
  for (let x = x0; x < x1; x += size)
    for (let y = y0; y < y1; y += size) offer(x + size / 2, y + size / 2, size / 2);
  for (let looked = 0; queue.length > 0 && looked < MOST_CELLS; looked++) {
    queue.pop();
    const { x, y, most } = queue;
    if (most <= best.room + precision) break;
    const h = queue.half / 2;
    offer(x - h, y - h, h);
    offer(x + h, y - h, h);
    offer(x - h, y + h, h);
    offer(x + h, y + h, h);
  }
  return best;
}

function outerBox(boxes: Float64Array): Bounds {
  let [x0, y0, x1, y1] = EMPTY_BOUNDS;
  for (let k = 0; k < boxes.length; k += 4) {
    if (boxes[k] < x0) x0 = boxes[k];
    if (boxes[k + 1] < y0) y0 = boxes[k + 1];
    if (boxes[k + 2] > x1) x1 = boxes[k + 2];
    if (boxes[k + 3] > y1) y1 = boxes[k + 3];
  }
  return [x0, y0, x1, y1];
}

/** Squares of the search in a binary heap, the one that can hold the furthest point on top. */
class CellQueue {
  length = 0;
  /** The square taken off last: its centre, half its side, and how far inside any point of it may be. */
  x = 0;
  y = 0;
  half = 0;
  most = 0;
  /** x, y, half, most, stride 4. */
  private cells = new Float64Array(4 * 64);

  push(x: number, y: number, half: number, most: number): void {
    let i = this.length++;
    if (4 * this.length > this.cells.length) this.grow();
    const { cells } = this;
    while (i > 0) {
      const parent = (i - 1) >> 1;
      if (cells[4 * parent + 3] >= most) break;
      move(cells, parent, i);
      i = parent;
    }
    cells[4 * i] = x;
    cells[4 * i + 1] = y;
    cells[4 * i + 2] = half;
    cells[4 * i + 3] = most;
  }

  pop(): void {
    const { cells } = this;
    this.x = cells[0];
    this.y = cells[1];
    this.half = cells[2];
    this.most = cells[3];
    const last = --this.length;
    const most = cells[4 * last + 3];
    let i = 0;
    for (;;) {
      let child = 2 * i + 1;
      if (child >= last) break;
      if (child + 1 < last && cells[4 * child + 7] > cells[4 * child + 3]) child++;
      if (cells[4 * child + 3] <= most) break;
      move(cells, child, i);
      i = child;
    }
    move(cells, last, i);
  }

  private grow(): void {
    const larger = new Float64Array(2 * this.cells.length);
    larger.set(this.cells);
    this.cells = larger;
  }
}

function move(cells: Float64Array, from: number, to: number): void {
  cells[4 * to] = cells[4 * from];
  cells[4 * to + 1] = cells[4 * from + 1];
  cells[4 * to + 2] = cells[4 * from + 2];
  cells[4 * to + 3] = cells[4 * from + 3];
}
