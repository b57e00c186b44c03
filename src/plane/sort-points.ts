import type { Scratch } from './scratch.js';
import { BLOCK, inBlocksBackwards } from './steps.js';

/**
 * Sorts points by y, then x; returns the order: the indices of the points, sorted, equal points in index order.
 *
 * Points are dropped into as many bands of y as there are points, each band is sorted by itself: O(n) expected
 * where y is spread evenly. Crowded bands (many points of a few heights, as on a grid) go through a radix sort.
 */
export function* sortPoints(x: Int32Array, y: Int32Array, scratch: Scratch): Generator<number, Int32Array> {
  const n = x.length;
  const order = scratch.int32(n);
  if (n === 0) return order;
  const { low, range } = extent(y);
  let shift = 0;
  while (range >> shift > n) shift++;
  const bands = (range >> shift) + 1;
  const start = scratch.int32(bands + 1);
  for (let i = 0; i < n; i++) start[(y[i] - low) >> shift]++;
  let sum = 0;
  for (let b = 0; b < bands; b++) {
    sum += start[b];
    start[b] = sum;
  }
  start[bands] = n;
  const drop = (from: number, to: number): void => dropIntoBands(y, low, shift, start, order, from, to);
  yield* inBlocksBackwards(n, drop, 0.2, 0.4);
  let crowded = 0;
  for (let first = 0; first < bands; first += BLOCK) {
    crowded += sortBands(order, start, first, Math.min(bands, first + BLOCK), x, y);
    yield 0.4 + (0.6 * first) / bands;
  }
  if (crowded > n >> 3) return yield* radixSort(x, y, scratch);
  if (crowded === 0) return order;
  for (let b = 0; b < bands; b++) {
    if (start[b + 1] - start[b] <= CROWD) continue;
    order.subarray(start[b], start[b + 1]).sort((a, c) => y[a] - y[c] || x[a] - x[c] || a - c);
  }
  return order;
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

/** Sorts the bands that are not crowded; returns the number of points in those that are. */
function sortBands(
  order: Int32Array,
  start: Int32Array,
  first: number,
  beyond: number,
  x: Int32Array,
  y: Int32Array,
): number {
  let crowded = 0;
  for (let b = first; b < beyond; b++) {
    const from = start[b];
    const to = start[b + 1];
    if (to - from > CROWD) crowded += to - from;
    else if (to - from > 1) insertionSort(order, from, to, x, y);
  }
  return crowded;
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
