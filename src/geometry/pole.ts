/** The place inside an area that is furthest from its border, and how far that is. */
export interface Pole {
  readonly x: number;
  readonly y: number;
  /** Distance to the border; 0 or less where the area has no inside. */
  readonly room: number;
}

/** A square of the search, with the distance of its centre to the border (negative outside). */
interface Cell {
  readonly x: number;
  readonly y: number;
  readonly half: number;
  readonly room: number;
  /** No point of the square is further inside than this. */
  readonly most: number;
}

/** Squares looked at, at most: bounds the time on areas that are hardly there. */
const MOST_CELLS = 4096;

/**
 * The pole of inaccessibility of the area bounded by closed rings (even-odd; x, y, stride 2, last point not
 * repeated): the centre of the largest inscribed disc, to `precision`. Branch and bound on squares, the most
 * promising first. Garcia-Castellanos and Lombardo 2007 name the notion. O(n) per square looked at.
 */
export function poleOf(rings: readonly Float64Array[], precision: number): Pole {
  const segments = segmentsOf(rings);
  if (segments.length === 0) return { x: 0, y: 0, room: 0 };
  let x0 = Number.POSITIVE_INFINITY;
  let y0 = Number.POSITIVE_INFINITY;
  let x1 = Number.NEGATIVE_INFINITY;
  let y1 = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < segments.length; i += 2) {
    x0 = Math.min(x0, segments[i]);
    x1 = Math.max(x1, segments[i]);
    y0 = Math.min(y0, segments[i + 1]);
    y1 = Math.max(y1, segments[i + 1]);
  }
  let best: Cell = { x: 0, y: 0, half: 0, room: Number.NEGATIVE_INFINITY, most: 0 };
  const cellAt = (x: number, y: number, half: number): Cell => {
    const spread = half * Math.SQRT2;
    // A border nearer than this makes the square useless: no need to know how near.
    const room = signedDistance(segments, x, y, best.room + precision - spread);
    return { x, y, half, room, most: room + spread };
  };
  const size = Math.max(Math.min(x1 - x0, y1 - y0), Math.max(x1 - x0, y1 - y0) / 16);
  best = cellAt((x0 + x1) / 2, (y0 + y1) / 2, 0);
  if (size === 0) return best;
  const heap: Cell[] = [];
  const offer = (cell: Cell): void => {
    if (cell.room > best.room) best = cell;
    if (cell.most > best.room + precision) push(heap, cell);
  };
  for (let x = x0; x < x1; x += size)
    for (let y = y0; y < y1; y += size) offer(cellAt(x + size / 2, y + size / 2, size / 2));
  for (let looked = 0; heap.length > 0 && looked < MOST_CELLS; looked++) {
    const cell = pop(heap);
    if (cell.most <= best.room + precision) break;
    const h = cell.half / 2;
    offer(cellAt(cell.x - h, cell.y - h, h));
    offer(cellAt(cell.x + h, cell.y - h, h));
    offer(cellAt(cell.x - h, cell.y + h, h));
    offer(cellAt(cell.x + h, cell.y + h, h));
  }
  return { x: best.x, y: best.y, room: best.room };
}

/** x0, y0, x1, y1 of every segment. */
function segmentsOf(rings: readonly Float64Array[]): Float64Array {
  const count = rings.reduce((sum, ring) => sum + ring.length / 2, 0);
  const segments = new Float64Array(4 * count);
  let at = 0;
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 2) {
      const next = i + 2 < ring.length ? i + 2 : 0;
      segments[at++] = ring[i];
      segments[at++] = ring[i + 1];
      segments[at++] = ring[next];
      segments[at++] = ring[next + 1];
    }
  }
  return segments;
}

/**
 * Distance from a point to the nearest segment, positive inside the area (even-odd). Where a segment comes
 * nearer than `enough`, −∞.
 */
function signedDistance(s: Float64Array, x: number, y: number, enough: number): number {
  let inside = false;
  let least = Number.POSITIVE_INFINITY;
  const stop = enough > 0 ? enough * enough : 0;
  for (let i = 0; i < s.length; i += 4) {
    const ax = s[i];
    const ay = s[i + 1];
    const bx = s[i + 2];
    const by = s[i + 3];
    const dx = bx - ax;
    const dy = by - ay;
    if (ay > y !== by > y && x < ax + ((y - ay) / dy) * dx) inside = !inside;
    let px = x - ax;
    let py = y - ay;
    const along = px * dx + py * dy;
    if (along > 0) {
      const square = dx * dx + dy * dy;
      const t = along < square ? along / square : 1;
      px -= t * dx;
      py -= t * dy;
    }
    const d = px * px + py * py;
    if (d < least) {
      if (d < stop) return Number.NEGATIVE_INFINITY;
      least = d;
    }
  }
  const distance = Math.sqrt(least);
  return inside ? distance : -distance;
}

/** A binary heap with the most promising cell on top. */
function push(heap: Cell[], cell: Cell): void {
  let i = heap.length;
  heap.push(cell);
  while (i > 0) {
    const parent = (i - 1) >> 1;
    if (heap[parent].most >= cell.most) break;
    heap[i] = heap[parent];
    i = parent;
  }
  heap[i] = cell;
}

function pop(heap: Cell[]): Cell {
  const top = heap[0];
  const last = heap.pop()!;
  if (heap.length === 0) return top;
  let i = 0;
  for (;;) {
    let child = 2 * i + 1;
    if (child >= heap.length) break;
    if (child + 1 < heap.length && heap[child + 1].most > heap[child].most) child++;
    if (heap[child].most <= last.most) break;
    heap[i] = heap[child];
    i = child;
  }
  heap[i] = last;
  return top;
}
