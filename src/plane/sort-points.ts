import type { Scratch } from './scratch.js';
import { BLOCK, inBlocks, inBlocksBackwards } from './steps.js';

/** Points by their numbers: in the order of y, then x; equal points share a number. */
export interface NumberedPoints {
  /** Number of each point. */
  readonly number: Int32Array;
  /** By number. */
  readonly x: Int32Array;
  readonly y: Int32Array;
}

/**
 * Numbers points by y, then x.
 *
 * Points are dropped into as many bands of y as there are points; each band is sorted by itself and its points are
 * numbered while they are at hand: O(n) expected where y is spread evenly. Crowded bands (many points of a few
 * heights, as on a grid) go through a radix sort.
 */
export function* numberPoints(
  x: Int32Array,
  y: Int32Array,
  scratch: Scratch,
): Generator<number, NumberedPoints> {
  const n = x.length;
  const numbered: Numbering = {
    number: scratch.int32(n),
    x: scratch.brief.int32(n),
    y: scratch.brief.int32(n),
    count: 0,
  };
  if (n > 0) yield* numberAll(x, y, numbered, scratch.brief);
  const { count } = numbered;
  return { number: numbered.number, x: numbered.x.slice(0, count), y: numbered.y.slice(0, count) };
}

/** What is numbered so far. */
interface Numbering {
  readonly number: Int32Array;
  readonly x: Int32Array;
  readonly y: Int32Array;
  count: number;
}

function* numberAll(
  x: Int32Array,
  y: Int32Array,
  into: Numbering,
  scratch: Scratch,
): Generator<number, void> {
  const n = x.length;
  const { low, range } = extent(y);
  let shift = 0;
  while (range >> shift > n) shift++;
  const bands = (range >> shift) + 1;
  const start = scratch.int32(bands + 1);
  yield* inBlocks(n, (from, to) => countInBands(y, low, shift, start, from, to), 0, 0.2);
  if (addUpCrowded(start) > n >> 3) {
    const order = yield* radixSort(x, y, scratch);
    yield* inBlocks(n, (from, to) => numberSorted(order, x, y, from, to, into), 0.5, 1);
    return;
  }
  const order = scratch.int32(n);
  const drop = (from: number, to: number): void => dropIntoBands(y, low, shift, start, order, from, to);
  yield* inBlocksBackwards(n, drop, 0.2, 0.4);
  for (let first = 0; first < bands; first += BLOCK) {
    const beyond = Math.min(bands, first + BLOCK);
    sortBands(order, start, first, beyond, x, y);
    numberSorted(order, x, y, start[first], start[beyond], into);
    yield 0.4 + (0.6 * first) / bands;
  }
}

/** Counts some points in their bands. */
function countInBands(
  y: Int32Array,
  low: number,
  shift: number,
  counts: Int32Array,
  from: number,
  to: number,
): void {
  for (let i = from; i < to; i++) counts[(y[i] - low) >> shift]++;
}

/** Counts become the places after each of them; returns the number of points in crowded bands. */
function addUpCrowded(counts: Int32Array): number {
  let sum = 0;
  let crowded = 0;
  for (let b = 0; b < counts.length; b++) {
    const count = counts[b];
    if (count > CROWD) crowded += count;
    sum += count;
    counts[b] = sum;
  }
  return crowded;
}

/** Numbers points that stand sorted in `order[from … to - 1]`, after those before them. */
function numberSorted(
  order: Int32Array,
  x: Int32Array,
  y: Int32Array,
  from: number,
  to: number,
  into: Numbering,
): void {
  const { number, x: distinctX, y: distinctY } = into;
  let n = into.count - 1;
  let lastX = n < 0 ? 0 : distinctX[n];
  let lastY = n < 0 ? 0 : distinctY[n];
  for (let i = from; i < to; i++) {
    const k = order[i];
    if (n < 0 || x[k] !== lastX || y[k] !== lastY) {
      n++;
      distinctX[n] = lastX = x[k];
      distinctY[n] = lastY = y[k];
    }
    number[k] = n;
  }
  into.count = n + 1;
}

/** Drops some points into their bands, each band being filled from its end. */
function dropIntoBands(
  y: Int32Array,
  low: number,
  shift: number,
  start: Int32Array,
  order: Int32Array,
  from: number,
  to: number,
): void {
  for (let i = to - 1; i >= from; i--) order[--start[(y[i] - low) >> shift]] = i;
}

/** Sorts the points of some bands. */
function sortBands(
  order: Int32Array,
  start: Int32Array,
  first: number,
  beyond: number,
  x: Int32Array,
  y: Int32Array,
): void {
  for (let b = first; b < beyond; b++) {
    const from = start[b];
    const to = start[b + 1];
    if (to - from > CROWD) order.subarray(from, to).sort((a, c) => y[a] - y[c] || x[a] - x[c] || a - c);
    else if (to - from > 1) insertionSort(order, from, to, x, y);
  }
}

/** Points in a band above which insertion costs more than another sort. */
const CROWD = 24;

function insertionSort(order: Int32Array, from: number, to: number, x: Int32Array, y: Int32Array): void {
  for (let i = from + 1; i < to; i++) {
    const k = order[i];
    const kx = x[k];
    const ky = y[k];
    let j = i - 1;
    for (; j >= from; j--) {
      const m = order[j];
      if (y[m] < ky || (y[m] === ky && x[m] <= kx)) break;
      order[j + 1] = m;
    }
    order[j + 1] = k;
  }
}

const DIGIT_BITS = 11;
const DIGIT_MASK = (1 << DIGIT_BITS) - 1;

/** Least significant digit first, x before y: O(n) for any grid coordinates. */
function* radixSort(x: Int32Array, y: Int32Array, scratch: Scratch): Generator<number, Int32Array> {
  const n = x.length;
  let order = scratch.int32(n);
  let spare = scratch.int32(n);
  for (let i = 0; i < n; i++) order[i] = i;
  const counts = scratch.int32(1 << DIGIT_BITS);
  for (const key of [x, y]) {
    const { low, range } = extent(key);
    for (let shift = 0; range >> shift > 0 && shift < 32; shift += DIGIT_BITS) {
      sortByDigit(key, low, shift, order, spare, counts);
      yield 0.5;
      [order, spare] = [spare, order];
    }
  }
  return order;
}

/** One pass of the radix sort: by the digit at `shift`, from `order` into `sorted`. */
function sortByDigit(
  key: Int32Array,
  low: number,
  shift: number,
  order: Int32Array,
  sorted: Int32Array,
  counts: Int32Array,
): void {
  counts.fill(0);
  for (let i = 0; i < key.length; i++) counts[((key[i] - low) >>> shift) & DIGIT_MASK]++;
  let sum = 0;
  for (let d = 0; d < counts.length; d++) {
    const count = counts[d];
    counts[d] = sum;
    sum += count;
  }
  for (let i = 0; i < key.length; i++) {
    const k = order[i];
    sorted[counts[((key[k] - low) >>> shift) & DIGIT_MASK]++] = k;
  }
}

function extent(values: Int32Array): { low: number; range: number } {
  let low = values[0];
  let high = low;
  for (let i = 1; i < values.length; i++) {
    const v = values[i];
    if (v < low) low = v;
    else if (v > high) high = v;
  }
  return { low, range: high - low };
}
