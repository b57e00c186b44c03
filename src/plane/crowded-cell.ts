import { meetsPixel, STEP_PARTS } from '../geometry/crossing.js';
import { type CellWork, PIXEL_CROWD } from './cell-work.js';
import type { GridLines } from './grid-lines.js';

/** Segments in a cell above which it is split: below, testing all pairs costs less than splitting. */
export const CROWD = 56;

/** Parts that a cell is split into, each way. */
const PARTS = 4;

/** A box of pixels: [x0, x1) × [y0, y1), sides powers of two. */
interface Cell {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/**
 * Splits a crowded cell as often as needed: into rows or columns where that thins its segments out (lines along each
 * other), else into both, down to single pixels. `list` holds no segment twice.
 */
export function* splitCell(work: CellWork, list: Int32Array, cell: Cell): Generator<number, void> {
  const { x0, y0, x1, y1 } = cell;
  if (x1 - x0 === 1 && y1 - y0 === 1) {
    testPixel(work, list, x0, y0);
    return;
  }
  const { rows, columns } = chooseParts(work.lines, list, cell);
  const child = new Int32Array(list.length);
  const width = (x1 - x0) / columns;
  const height = (y1 - y0) / rows;
  for (let part = 0; part < rows * columns; part++) {
    const left = x0 + (part % columns) * width;
    const top = y0 + Math.floor(part / columns) * height;
    const inner = { x0: left, y0: top, x1: left + width, y1: top + height };
    const n = segmentsIn(work.lines, list, inner, child);
    if (n < 2) continue;
    // Where splitting does not thin them out, it is given up in time.
    const thick = n <= PIXEL_CROWD && 4 * n > 3 * list.length;
    if (n <= CROWD || thick) work.testAll(child, 0, n, left, top, inner.x1, inner.y1);
    else yield* splitCell(work, child.slice(0, n), inner);
  }
  yield 0;
}

/** Rows or columns alone, where the segments fall into them without being in more than two each. */
function chooseParts(lines: GridLines, list: Int32Array, { x0, y0, x1, y1 }: Cell) {
  const columns = Math.min(PARTS, x1 - x0);
  const rows = Math.min(PARTS, y1 - y0);
  const [width, height] = [(x1 - x0) / columns, (y1 - y0) / rows];
  let inColumns = 0;
  for (let i = 0; i < columns; i++) {
    const left = x0 + i * width;
    inColumns += segmentsIn(lines, list, { x0: left, y0, x1: left + width, y1 }, null);
  }
  let inRows = 0;
  for (let i = 0; i < rows; i++) {
    const top = y0 + i * height;
    inRows += segmentsIn(lines, list, { x0, y0: top, x1, y1: top + height }, null);
  }
  if (rows > 1 && inRows <= inColumns && inRows <= 2 * list.length) return { rows, columns: 1 };
  if (columns > 1 && inColumns <= 2 * list.length) return { rows: 1, columns };
  return { rows, columns };
}

/** The segments of a list that come within a step of a cell: their number; they themselves go to `found`. */
function segmentsIn(
  { x, y }: GridLines,
  list: Int32Array,
  { x0, y0, x1, y1 }: Cell,
  found: Int32Array | null,
): number {
  let n = 0;
  for (let i = 0; i < list.length; i++) {
    const k = list[i];
    if (!meetsBox(x[k], y[k], x[k + 1], y[k + 1], x0 - 1, y0 - 1, x1, y1)) continue;
    if (found !== null) found[n] = k;
    n++;
  }
  return n;
}

function testPixel(work: CellWork, list: Int32Array, hx: number, hy: number): void {
  const { x, y } = work.lines;
  if (list.length <= PIXEL_CROWD) {
    work.testAll(list, 0, list.length, hx, hy, hx + 1, hy + 1);
    return;
  }
  const meets = list.filter((k) => meetsPixel(x, y, k, hx, hy));
  if (meets.length <= PIXEL_CROWD) {
    work.testAll(meets, 0, meets.length, hx, hy, hx + 1, hy + 1);
    return;
  }
  if (!isHotForCrowd(work, meets, hx, hy)) return;
  for (const k of meets) work.snapTo(k, hx, hy);
}

/**
 * Whether a pixel that is met by a crowd is hot: for an end in it, or a crossing. Rays from one point do not cross,
 * so of those with the commonest end only pairs with others are tested. A crowd of others counts as a crossing.
 */
function isHotForCrowd(work: CellWork, meets: Int32Array, hx: number, hy: number): boolean {
  const { x, y } = work.lines;
  const isIn = (v: number): boolean => Math.floor(x[v] + 0.5) === hx && Math.floor(y[v] + 0.5) === hy;
  if (meets.some((k) => isIn(k) || isIn(k + 1))) return true;
  const end = commonestEnd(work.lines, meets);
  const isThere = (v: number): boolean => x[v] === x[end] && y[v] === y[end];
  const others = meets.filter((k) => !isThere(k) && !isThere(k + 1));
  if (others.length > PIXEL_CROWD) return true;
  return others.some((k) => meets.some((m) => k !== m && work.crossIn(k, m, hx, hy)));
}

/** A vertex at the end that most segments of a list share. */
function commonestEnd({ x, y }: GridLines, list: Int32Array): number {
  const counts = new Map<string, number>();
  let best = list[0];
  let most = 0;
  for (const k of list) {
    for (const v of [k, k + 1]) {
      const place = `${x[v]} ${y[v]}`;
      const count = (counts.get(place) ?? 0) + 1;
      counts.set(place, count);
      if (count <= most) continue;
      most = count;
      best = v;
    }
  }
  return best;
}

/** The segments of a cell, of each set of equal ones only the first; `copyOf` learns of which the others are copies. */
export function withoutCopies(lines: GridLines, list: Int32Array, copyOf: Int32Array): Int32Array {
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
