import { BorderSearch, borderRuns } from './border-runs.js';
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
  const search = new BorderSearch(border);
  const best = { x: (x0 + x1) / 2, y: (y0 + y1) / 2, room: Number.NEGATIVE_INFINITY };
  best.room = search.distance(best.x, best.y, Number.NEGATIVE_INFINITY);
  const size = Math.max(Math.min(x1 - x0, y1 - y0), Math.max(x1 - x0, y1 - y0) / 16);
  if (size === 0) return best;
  // No disc is wider than the box.
  const widest = Math.min(x1 - x0, y1 - y0) / 2;
  const queue = new CellQueue();
  const offer = (x: number, y: number, half: number): void => {
    const spread = half * Math.SQRT2;
    // A border nearer than this makes the square useless: no need to know how near.
    const room = search.distance(x, y, best.room + precision - spread);
    if (room > best.room) {
      best.x = x;
      best.y = y;
      best.room = room;
    }
    const enough = best.room + precision;
    if (widest > enough && room + spread > enough) queue.push(x, y, half, room + spread, search.nearest);
  };
  for (let x = x0; x < x1; x += size)
    for (let y = y0; y < y1; y += size) offer(x + size / 2, y + size / 2, size / 2);
  for (let looked = 0; queue.length > 0 && looked < MOST_CELLS; looked++) {
    queue.pop();
    const { x, y, half, most } = queue;
    if (Math.min(most, widest) <= best.room + precision) break;
    const h = half / 2;
    let narrowed = false;
    for (let quarter = 0; quarter < 4; quarter++) {
      const cx = (quarter & 1) === 0 ? x - h : x + h;
      const cy = (quarter & 2) === 0 ? y - h : y + h;
      search.nearest = queue.nearest;
      if (search.isNear(cx, cy, best.room + precision - h * Math.SQRT2)) continue;
      if (!narrowed) search.narrow(x, y, most - half * Math.SQRT2, half * Math.SQRT1_2);
      narrowed = true;
      offer(cx, cy, h);
    }
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

/** Numbers kept of a square. */
const STRIDE = 5;

/** Squares of the search in a binary heap, the one that can hold the furthest point on top. */
class CellQueue {
  length = 0;
  /** The square taken off last: its centre, half its side, and how far inside any point of it may be. */
  x = 0;
  y = 0;
  half = 0;
  most = 0;
  /** The segment nearest to its centre. */
  nearest = 0;
  /** x, y, half, most, nearest, stride 5. */
  private cells = new Float64Array(STRIDE * 16);

  push(x: number, y: number, half: number, most: number, nearest: number): void {
    let i = this.length++;
    if (STRIDE * this.length > this.cells.length) this.grow();
    const { cells } = this;
    while (i > 0) {
      const parent = (i - 1) >> 1;
      if (cells[STRIDE * parent + 3] >= most) break;
      move(cells, parent, i);
      i = parent;
    }
    cells[STRIDE * i] = x;
    cells[STRIDE * i + 1] = y;
    cells[STRIDE * i + 2] = half;
    cells[STRIDE * i + 3] = most;
    cells[STRIDE * i + 4] = nearest;
  }

  pop(): void {
    const { cells } = this;
    this.x = cells[0];
    this.y = cells[1];
    this.half = cells[2];
    this.most = cells[3];
    this.nearest = cells[4];
    const last = --this.length;
    const most = cells[STRIDE * last + 3];
    let i = 0;
    for (;;) {
      let child = 2 * i + 1;
      if (child >= last) break;
      if (child + 1 < last && cells[STRIDE * child + STRIDE + 3] > cells[STRIDE * child + 3]) child++;
      if (cells[STRIDE * child + 3] <= most) break;
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
  cells[STRIDE * to] = cells[STRIDE * from];
  cells[STRIDE * to + 1] = cells[STRIDE * from + 1];
  cells[STRIDE * to + 2] = cells[STRIDE * from + 2];
  cells[STRIDE * to + 3] = cells[STRIDE * from + 3];
  cells[STRIDE * to + 4] = cells[STRIDE * from + 4];
}
