/**
 * A packed tree of boxes over a fixed set of items: items in Hilbert-curve order, FAN boxes under each
 * parent, built bottom-up in O(n log n). Bulk loading after Kamel and Faloutsos 1993, "On packing R-trees".
 */
export interface BoxTree {
  /** Boxes of all levels, items first, the root last: minX, minY, maxX, maxY, stride 4. */
  readonly boxes: Float64Array;
  /** Item index of each box of the lowest level. */
  readonly items: Uint32Array;
  /** Index of the first box of each level, and the number of boxes at the end. */
  readonly levels: readonly number[];
}

/** Children of a box. */
export const FAN = 8;

/** Builds a tree over `boxes` (minX, minY, maxX, maxY, stride 4). */
export function buildBoxTree(boxes: Float64Array): BoxTree {
  const steps = boxTreeSteps(boxes);
  let step = steps.next();
  while (!step.done) step = steps.next();
  return step.value;
}

/** The same with some chances to pause; yields the share of the work done. */
export function* boxTreeSteps(boxes: Float64Array): Generator<number, BoxTree> {
  const n = boxes.length / 4;
  const position = hilbertPositions(boxes, n);
  yield 0.3;
  const items = sortedBy(position);
  yield 0.6;
  const { all, levels } = roomForTree(n);
  for (let i = 0; i < n; i++) copyBox(all, i, boxes, items[i]);
  yield 0.9;
  return joinLevels(all, items, levels);
}

/**
 * The tree over most of another tree's items and some new ones: item i becomes item `number[i]`, or goes (-1); new
 * item k has the number `fresh[k]` and the k-th of `boxes`. Cheaper than a new tree, and as good for few changes.
 */
export function renumberBoxTree(
  tree: BoxTree,
  number: Int32Array,
  fresh: Int32Array,
  boxes: Float64Array,
): BoxTree {
  let n = fresh.length;
  for (let i = 0; i < number.length; i++) if (number[i] >= 0) n++;
  const items = new Uint32Array(n);
  const { all, levels } = roomForTree(n);
  let at = 0;
  for (let i = 0; i < tree.items.length; i++) {
    const item = number[tree.items[i]];
    if (item < 0) continue;
    items[at] = item;
    copyBox(all, at++, tree.boxes, i);
  }
  // New items near each other share a box: one in the order of their numbers would span the page.
  for (const k of sortedBy(hilbertPositions(boxes, fresh.length))) {
    items[at] = fresh[k];
    copyBox(all, at++, boxes, k);
  }
  return joinLevels(all, items, levels);
}

function copyBox(into: Float64Array, i: number, from: Float64Array, k: number): void {
  into[4 * i] = from[4 * k];
  into[4 * i + 1] = from[4 * k + 1];
  into[4 * i + 2] = from[4 * k + 2];
  into[4 * i + 3] = from[4 * k + 3];
}

/** Levels of a tree over `n` items, and room for its boxes. */
function roomForTree(n: number): { all: Float64Array; levels: number[] } {
  const levels = [0];
  let total = n;
  for (let width = n; width > 1; ) {
    levels.push(total);
    width = Math.ceil(width / FAN);
    total += width;
  }
  levels.push(total);
  return { all: new Float64Array(total * 4), levels };
}

/** Completes a tree whose lowest level is there. */
function joinLevels(all: Float64Array, items: Uint32Array, levels: readonly number[]): BoxTree {
  for (let level = 1; level + 1 < levels.length; level++) {
    joinLevel(all, levels[level - 1], levels[level], levels[level + 1]);
  }
  return { boxes: all, items, levels };
}

function joinLevel(all: Float64Array, below: number, from: number, to: number): void {
  for (let i = from; i < to; i++) {
    const first = below + (i - from) * FAN;
    const end = Math.min(first + FAN, from);
    let x0 = Number.POSITIVE_INFINITY;
    let y0 = Number.POSITIVE_INFINITY;
    let x1 = Number.NEGATIVE_INFINITY;
    let y1 = Number.NEGATIVE_INFINITY;
    for (let k = 4 * first; k < 4 * end; k += 4) {
      if (all[k] < x0) x0 = all[k];
      if (all[k + 1] < y0) y0 = all[k + 1];
      if (all[k + 2] > x1) x1 = all[k + 2];
      if (all[k + 3] > y1) y1 = all[k + 3];
    }
    all[4 * i] = x0;
    all[4 * i + 1] = y0;
    all[4 * i + 2] = x1;
    all[4 * i + 3] = y1;
  }
}

/** Cells of the Hilbert curve along a side: 12 bits; items in one cell stay in their order. */
const HILBERT_SIDE = 4095;

/** Positions on the curve are sorted by digits of as many bits. */
const DIGIT_BITS = 12;

/** Positions of the middles of boxes on the Hilbert curve. */
function hilbertPositions(boxes: Float64Array, n: number): Uint32Array {
  let x0 = Number.POSITIVE_INFINITY;
  let y0 = Number.POSITIVE_INFINITY;
  let x1 = Number.NEGATIVE_INFINITY;
  let y1 = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < 4 * n; k += 4) {
    if (boxes[k] < x0) x0 = boxes[k];
    if (boxes[k + 1] < y0) y0 = boxes[k + 1];
    if (boxes[k + 2] > x1) x1 = boxes[k + 2];
    if (boxes[k + 3] > y1) y1 = boxes[k + 3];
  }
  const scaleX = HILBERT_SIDE / (x1 - x0 || 1) / 2;
  const scaleY = HILBERT_SIDE / (y1 - y0 || 1) / 2;
  const position = new Uint32Array(n);
  for (let i = 0; i < n; i++) {
    const x = Math.floor((boxes[4 * i] + boxes[4 * i + 2] - 2 * x0) * scaleX);
    const y = Math.floor((boxes[4 * i + 1] + boxes[4 * i + 3] - 2 * y0) * scaleY);
    position[i] = hilbertPosition(x, y);
  }
  return position;
}

/** Up to so many items are sorted by comparing: fewer steps than the digits have values. */
const FEW = 512;

/** Items by their positions, equal ones as they come: O(n), by two passes of a radix sort, for many. */
function sortedBy(position: Uint32Array): Uint32Array {
  const order = new Uint32Array(position.length);
  if (order.length <= FEW) {
    const keys = new Float64Array(position.length);
    for (let i = 0; i < keys.length; i++) keys[i] = position[i] * FEW + i;
    keys.sort();
    for (let i = 0; i < keys.length; i++) order[i] = keys[i] % FEW;
    return order;
  }
  for (let i = 0; i < order.length; i++) order[i] = i;
  const counts = new Uint32Array(1 << DIGIT_BITS);
  const byLower = new Uint32Array(order.length);
  sortByDigit(position, 0, order, byLower, counts);
  counts.fill(0);
  sortByDigit(position, DIGIT_BITS, byLower, order, counts);
  return order;
}

function sortByDigit(
  key: Uint32Array,
  shift: number,
  order: Uint32Array,
  sorted: Uint32Array,
  counts: Uint32Array,
): void {
  const mask = counts.length - 1;
  for (let i = 0; i < key.length; i++) counts[(key[i] >>> shift) & mask]++;
  let sum = 0;
  for (let d = 0; d < counts.length; d++) {
    const count = counts[d];
    counts[d] = sum;
    sum += count;
  }
  for (let i = 0; i < order.length; i++) sorted[counts[(key[order[i]] >>> shift) & mask]++] = order[i];
}

/**
 * Four levels of the Hilbert curve at once: for a state · 256 + four bits of x · 16 + four bits of y, the position of
 * that cell among 256, · 4, + the state within it. State bit 0: x and y change places; bit 1: both count backwards.
 */
const HILBERT_STEPS = Uint16Array.from({ length: 1024 }, (_, entry) => {
  let state = entry >> 8;
  let position = 0;
  for (let bit = 3; bit >= 0; bit--) {
    const turn = state >> 1;
    const bitX = ((entry >> (4 + bit)) & 1) ^ turn;
    const bitY = ((entry >> bit) & 1) ^ turn;
    const [x, y] = (state & 1) === 0 ? [bitX, bitY] : [bitY, bitX];
    position = 4 * position + ((3 * x) ^ y);
    if (y === 0) state ^= x === 1 ? 3 : 1;
  }
  return 4 * position + state;
});

/** Position of a cell on the Hilbert curve over 2¹² × 2¹² cells (Hilbert 1891). */
function hilbertPosition(x: number, y: number): number {
  const high = HILBERT_STEPS[((x >> 4) & 0xf0) | (y >> 8)];
  const middle = HILBERT_STEPS[((high & 3) << 8) | (x & 0xf0) | ((y >> 4) & 0xf)];
  const low = HILBERT_STEPS[((middle & 3) << 8) | ((x & 0xf) << 4) | (y & 0xf)];
  return ((high >> 2) << 16) | ((middle >> 2) << 8) | (low >> 2);
}

/** A tree has fewer levels: a box that waits in a search is kept with its level, as LEVELS · box + level. */
const LEVELS = 16;

/** Calls `visit` for every item whose box meets the closed box; a visit that returns true ends the search. */
export function searchBoxes(
  tree: BoxTree,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  visit: (item: number) => boolean | undefined,
): void {
  const { boxes, items, levels } = tree;
  const meets = (i: number): boolean => {
    const k = 4 * i;
    return boxes[k] <= x1 && boxes[k + 2] >= x0 && boxes[k + 1] <= y1 && boxes[k + 3] >= y0;
  };
  const top = levels.length - 2;
  const root = levels[top];
  if (items.length === 0 || !meets(root)) return;
  if (top === 0) {
    visit(items[0]);
    return;
  }
  const stack = [LEVELS * root + top];
  for (let entry = stack.pop(); entry !== undefined; entry = stack.pop()) {
    const depth = entry % LEVELS;
    const first = levels[depth - 1] + ((entry - depth) / LEVELS - levels[depth]) * FAN;
    const end = Math.min(first + FAN, levels[depth]);
    if (depth > 1) {
      for (let child = end - 1; child >= first; child--)
        if (meets(child)) stack.push(LEVELS * child + depth - 1);
      continue;
    }
    for (let child = first; child < end; child++) if (meets(child) && visit(items[child]) === true) return;
  }
}

/**
 * The item hit first by the ray from (x, y) towards −y. `hit(item, best)` returns the y at which the ray
 * meets the item, or −∞ where it does not; less than `best` (the hit found so far, −∞ at first) is no better.
 * An item that is met at `best` takes its place: a caller who minds returns −∞ for the one that shall not.
 * Returns -1 where the ray meets nothing.
 */
export function firstAbove(
  tree: BoxTree,
  x: number,
  y: number,
  hit: (item: number, best: number) => number,
): number {
  const { boxes, items, levels } = tree;
  if (items.length === 0) return -1;
  const top = levels.length - 2;
  const stack = [LEVELS * levels[top] + top];
  let best = Number.NEGATIVE_INFINITY;
  let found = -1;
  const mayHit = (i: number): boolean => {
    const k = 4 * i;
    return boxes[k] <= x && boxes[k + 2] >= x && boxes[k + 1] <= y && boxes[k + 3] >= best;
  };
  for (let entry = stack.pop(); entry !== undefined; entry = stack.pop()) {
    const depth = entry % LEVELS;
    const node = (entry - depth) / LEVELS;
    if (!mayHit(node)) continue;
    if (depth === 0) {
      const at = hit(items[node], best);
      if (at >= best && at !== Number.NEGATIVE_INFINITY) {
        best = at;
        found = items[node];
      }
      continue;
    }
    const first = levels[depth - 1] + (node - levels[depth]) * FAN;
    const end = Math.min(first + FAN, levels[depth]);
    const from = stack.length;
    for (let child = first; child < end; child++) {
      if (!mayHit(child)) continue;
      // Kept with the lowest box on top of the stack: its hit prunes the others.
      let at = stack.length;
      stack.push(0);
      for (; at > from; at--) {
        const other = stack[at - 1];
        const bottom = 4 * ((other - (other % LEVELS)) / LEVELS) + 3;
        if (!(boxes[bottom] > boxes[4 * child + 3])) break;
        stack[at] = other;
      }
      stack[at] = LEVELS * child + depth - 1;
    }
  }
  return found;
}

/**
 * The item nearest to (x, y), -1 in an empty tree. `squareTo(item)` returns the square of an item's distance, which
 * is never less than that of its box; of equally near items any one may be returned.
 */
export function nearestItem(tree: BoxTree, x: number, y: number, squareTo: (item: number) => number): number {
  const { boxes, items, levels } = tree;
  if (items.length === 0) return -1;
  const stack = [levels[levels.length - 1] - 1];
  const level = [levels.length - 2];
  const away = [0];
  let least = Number.POSITIVE_INFINITY;
  let found = -1;
  while (stack.length > 0) {
    const node = stack.pop()!;
    const depth = level.pop()!;
    if (away.pop()! >= least) continue;
    if (depth === 0) {
      const square = squareTo(items[node]);
      if (square < least) {
        least = square;
        found = items[node];
      }
      continue;
    }
    const first = levels[depth - 1] + (node - levels[depth]) * FAN;
    const end = Math.min(first + FAN, levels[depth]);
    const from = stack.length;
    for (let child = first; child < end; child++) {
      const k = 4 * child;
      const dx = x < boxes[k] ? boxes[k] - x : x > boxes[k + 2] ? x - boxes[k + 2] : 0;
      const dy = y < boxes[k + 1] ? boxes[k + 1] - y : y > boxes[k + 3] ? y - boxes[k + 3] : 0;
      const square = dx * dx + dy * dy;
      if (square >= least) continue;
      // Kept with the nearest box on top of the stack.
      let at = stack.length;
      stack.push(child);
      level.push(depth - 1);
      away.push(square);
      while (at > from && away[at - 1] < square) {
        stack[at] = stack[at - 1];
        away[at] = away[at - 1];
        at--;
      }
      stack[at] = child;
      away[at] = square;
    }
  }
  return found;
}
