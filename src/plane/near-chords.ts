import { type BoxTree, boxTreeSteps, searchBoxes } from '../geometry/box-tree.js';
import type { FlatLines, MapCurve } from './flat-lines.js';
import { inBlocks, within } from './steps.js';

/** Chords of one curve that share a box, at most. */
const BLOCK = 8;

/** Blocks looked at between two chances to pause. */
const AT_ONCE = 256;

/** Up to so many blocks a sweep across the page is faster than a tree. */
const SWEPT = 2048;

/**
 * Two chords, segments v and w of the flat lines, of curves that run in directions too different for parallel tangents
 * (`areAcross`) or not.
 */
export type VisitChords = (v: number, w: number, areAcross: boolean) => void;

/**
 * Visits all pairs of chords of different curves, not both lines, whose boxes are within `margin` mm of each other, the
 * chord of the curve (or of the first of two) first. O(n log n) for chords that are near few others.
 */
export function* visitNearChords(
  curves: readonly MapCurve[],
  flat: FlatLines,
  margin: number,
  visitChords: VisitChords,
): Generator<number, void> {
  const blocks = yield* blocksOf(curves, flat);
  const { curve, isLine } = blocks;
  if (isLine.every((is) => is === 1)) return;
  const { coords } = flat.lines;
  const meet = (p: number, q: number): void => {
    if (curve[p] === curve[q] || (isLine[p] === 1 && isLine[q] === 1)) return;
    const isOrdered = isLine[q] === 1 || (isLine[p] === 0 && curve[p] < curve[q]);
    if (isOrdered) pairChords(coords, blocks, p, q, margin, visitChords);
    else pairChords(coords, blocks, q, p, margin, visitChords);
  };
  const count = curve.length;
  if (count <= SWEPT) {
    sweepPairs(blocks.boxes, margin, meet);
    return;
  }
  const tree = yield* within(boxTreeSteps(blocks.boxes), 0, 0.2);
  for (let from = 0; from < count; from += AT_ONCE) {
    searchPairs(blocks.boxes, tree, margin, meet, from, Math.min(count, from + AT_ONCE));
    yield 0.2 + (0.8 * from) / count;
  }
}

/** Visits the pairs that some boxes make with later ones that are near. */
function searchPairs(
  boxes: Float64Array,
  tree: BoxTree,
  margin: number,
  meet: (p: number, q: number) => void,
  from: number,
  to: number,
): void {
  for (let i = from; i < to; i++) {
    const k = 4 * i;
    const [x0, y0] = [boxes[k] - margin, boxes[k + 1] - margin];
    searchBoxes(tree, x0, y0, boxes[k + 2] + margin, boxes[k + 3] + margin, (j) => {
      if (j > i) meet(i, j);
      return false;
    });
  }
}

/** Boxes are swept in the order of their left sides, to this part of the width of all. */
const SWEEP_STEPS = 2 ** 32;

/** Visits all pairs of boxes that are near, and some that are nearly so, by a sweep along x. */
function sweepPairs(boxes: Float64Array, margin: number, meet: (p: number, q: number) => void): void {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < boxes.length; k += 4) {
    low = Math.min(low, boxes[k]);
    high = Math.max(high, boxes[k]);
  }
  const step = (high - low) / SWEEP_STEPS || 1;
  // Steps and numbers of boxes in one number each: these are sorted without comparing by a function.
  const keys = new Float64Array(boxes.length / 4);
  for (let i = 0; i < keys.length; i++) keys[i] = Math.floor((boxes[4 * i] - low) / step) * SWEPT + i;
  keys.sort();
  const order = new Int32Array(keys.length);
  // The boxes in that order, side by side in memory.
  const sorted = new Float64Array(boxes.length);
  for (let i = 0; i < order.length; i++) {
    order[i] = keys[i] % SWEPT;
    for (let side = 0; side < 4; side++) sorted[4 * i + side] = boxes[4 * order[i] + side];
  }
  for (let k = 0; k < sorted.length; k += 4) {
    const least = sorted[k + 1] - margin;
    const most = sorted[k + 3] + margin;
    const end = sorted[k + 2] + margin + step;
    for (let m = k + 4; m < sorted.length && sorted[m] <= end; m += 4)
      if (sorted[m + 1] <= most && least <= sorted[m + 3]) meet(order[k / 4], order[m / 4]);
  }
}

/** Runs of segments of the flat lines. Segments `first[b] … end[b] - 1` are those of block b, all of one curve. */
interface ChordBlocks {
  readonly curve: Int32Array;
  readonly first: Int32Array;
  readonly end: Int32Array;
  /** 1 where the curve is a line. */
  readonly isLine: Uint8Array;
  /** minX, minY, maxX, maxY, stride 4. */
  readonly boxes: Float64Array;
  /** Direction from the first point to the last, 0 to π, one for both ways. */
  readonly angle: Float64Array;
  /** How far the curve's tangents may turn from it. */
  readonly spread: Float64Array;
}

function* blocksOf(curves: readonly MapCurve[], flat: FlatLines): Generator<number, ChordBlocks> {
  const { curve } = flat;
  const starts = new Int32Array(curve.length);
  let vertex = 0;
  let count = 0;
  const cut = (_: number, to: number): void => {
    for (; vertex < to; vertex = blockEnd(curve, vertex)) if (curve[vertex] >= 0) starts[count++] = vertex;
  };
  yield* inBlocks(curve.length, cut, 0, 0);
  const blocks: ChordBlocks = {
    curve: new Int32Array(count),
    first: starts.slice(0, count),
    end: new Int32Array(count),
    isLine: new Uint8Array(count),
    boxes: new Float64Array(4 * count),
    angle: new Float64Array(count),
    spread: new Float64Array(count),
  };
  yield* inBlocks(count, (from, to) => measureBlocks(curves, flat, blocks, from, to), 0, 0);
  return blocks;
}

/** Where the block that begins at a vertex ends. */
function blockEnd(curve: Int32Array, first: number): number {
  let end = first + 1;
  while (end < curve.length && end - first < BLOCK && curve[end] === curve[first]) end++;
  return end;
}

function measureBlocks(
  curves: readonly MapCurve[],
  flat: FlatLines,
  blocks: ChordBlocks,
  from: number,
  to: number,
): void {
  for (let b = from; b < to; b++) {
    const curve = flat.curve[blocks.first[b]];
    blocks.curve[b] = curve;
    blocks.end[b] = blockEnd(flat.curve, blocks.first[b]);
    blocks.isLine[b] = curves[curve].curve.kind === 'line' ? 1 : 0;
    measureBlock(flat.lines.coords, blocks, b);
  }
}

/** Sine of a turn from the block's direction above which the spread is not worth knowing. */
const WIDE = 0.6;

/** Puts the box of a block, its direction and spread. */
function measureBlock(c: Float64Array, blocks: ChordBlocks, b: number): void {
  const first = blocks.first[b];
  const end = blocks.end[b];
  const dx = c[2 * end] - c[2 * first];
  const dy = c[2 * end + 1] - c[2 * first + 1];
  const square = dx * dx + dy * dy;
  let x0 = c[2 * first];
  let y0 = c[2 * first + 1];
  let x1 = x0;
  let y1 = y0;
  let most = 0;
  for (let v = first; v < end; v++) {
    const x = c[2 * v + 2];
    const y = c[2 * v + 3];
    if (x < x0) x0 = x;
    else if (x > x1) x1 = x;
    if (y < y0) y0 = y;
    else if (y > y1) y1 = y;
    const ex = x - c[2 * v];
    const ey = y - c[2 * v + 1];
    const cross = ex * dy - ey * dx;
    const part = ex * dx + ey * dy > 0 ? (cross * cross) / ((ex * ex + ey * ey) * square) : 1;
    if (!(part <= most)) most = part;
  }
  blocks.boxes[4 * b] = x0;
  blocks.boxes[4 * b + 1] = y0;
  blocks.boxes[4 * b + 2] = x1;
  blocks.boxes[4 * b + 3] = y1;
  blocks.angle[b] = dy > 0 ? Math.atan2(dy, dx) : Math.atan2(-dy, -dx);
  // Of two chords the tangents at the ends turn twice as far; a single one tells nothing of them.
  const isKnown = blocks.isLine[b] === 1 || (end - first > 1 && most < WIDE * WIDE);
  blocks.spread[b] = isKnown ? 2.2 * Math.asin(Math.sqrt(most)) : Math.PI;
}

/** Visits the chords of two blocks that are near each other. */
function pairChords(
  c: Float64Array,
  blocks: ChordBlocks,
  one: number,
  other: number,
  margin: number,
  visit: VisitChords,
): void {
  const { first, end, boxes } = blocks;
  const across = areAcross(blocks, one, other);
  for (let v = first[one]; v < end[one]; v++) {
    if (!nears(c, v, boxes, other, margin)) continue;
    for (let w = first[other]; w < end[other]; w++) if (areNear(c, v, w, margin)) visit(v, w, across);
  }
}

/** Whether two blocks run in directions too different for parallel tangents. */
function areAcross({ angle, spread }: ChordBlocks, one: number, other: number): boolean {
  const turn = Math.abs(angle[one] - angle[other]);
  return Math.min(turn, Math.PI - turn) > spread[one] + spread[other];
}

/** Whether the box of chord v is within reach of box b. */
function nears(c: Float64Array, v: number, boxes: Float64Array, b: number, reach: number): boolean {
  const ax = c[2 * v];
  const ay = c[2 * v + 1];
  const bx = c[2 * v + 2];
  const by = c[2 * v + 3];
  return (
    (ax > bx ? ax : bx) + reach >= boxes[4 * b] &&
    (ax < bx ? ax : bx) - reach <= boxes[4 * b + 2] &&
    (ay > by ? ay : by) + reach >= boxes[4 * b + 1] &&
    (ay < by ? ay : by) - reach <= boxes[4 * b + 3]
  );
}

/** Whether the boxes of two chords are within reach of each other. */
function areNear(c: Float64Array, v: number, w: number, reach: number): boolean {
  const ax = c[2 * v];
  const ay = c[2 * v + 1];
  const bx = c[2 * v + 2];
  const by = c[2 * v + 3];
  const dx = c[2 * w];
  const dy = c[2 * w + 1];
  const ex = c[2 * w + 2];
  const ey = c[2 * w + 3];
  return (
    (ax > bx ? ax : bx) + reach >= (dx < ex ? dx : ex) &&
    (dx > ex ? dx : ex) + reach >= (ax < bx ? ax : bx) &&
    (ay > by ? ay : by) + reach >= (dy < ey ? dy : ey) &&
    (dy > ey ? dy : ey) + reach >= (ay < by ? ay : by)
  );
}
