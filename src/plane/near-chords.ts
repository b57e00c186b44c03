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
  const visit = (one: ChordBlock, other: ChordBlock): void =>
    pairChords(flat.lines.coords, one, other, margin, visitChords);
  const blocks = yield* blocksOf(curves, flat);
  if (blocks.every(({ isLine }) => isLine)) return;
  const meet = (p: ChordBlock, q: ChordBlock): void => {
    if (p.curve === q.curve || (p.isLine && q.isLine)) return;
    if (q.isLine || (!p.isLine && p.curve < q.curve)) visit(p, q);
    else visit(q, p);
  };
  if (blocks.length <= SWEPT) {
    sweepPairs(blocks, margin, meet);
    return;
  }
  const boxes = new Float64Array(4 * blocks.length);
  blocks.forEach(({ x0, y0, x1, y1 }, i) => {
    boxes.set([x0, y0, x1, y1], 4 * i);
  });
  const tree = yield* within(boxTreeSteps(boxes), 0, 0.2);
  for (let from = 0; from < blocks.length; from += AT_ONCE) {
    searchPairs(blocks, tree, margin, meet, from, Math.min(blocks.length, from + AT_ONCE));
    yield 0.2 + (0.8 * from) / blocks.length;
  }
}

/** Visits the pairs that some blocks make with later ones whose boxes are near. */
function searchPairs(
  blocks: readonly ChordBlock[],
  tree: BoxTree,
  margin: number,
  meet: (p: ChordBlock, q: ChordBlock) => void,
  from: number,
  to: number,
): void {
  for (let i = from; i < to; i++) {
    const one = blocks[i];
    searchBoxes(tree, one.x0 - margin, one.y0 - margin, one.x1 + margin, one.y1 + margin, (j) => {
      if (j > i) meet(one, blocks[j]);
      return false;
    });
  }
}

/** Visits all pairs of blocks whose boxes are near, by a sweep along x. */
function sweepPairs(
  blocks: readonly ChordBlock[],
  margin: number,
  meet: (p: ChordBlock, q: ChordBlock) => void,
): void {
  const order = [...blocks].sort((p, q) => p.x0 - q.x0);
  for (let i = 0; i < order.length; i++) {
    const one = order[i];
    const most = one.x1 + margin;
    for (let j = i + 1; j < order.length && order[j].x0 <= most; j++) {
      const other = order[j];
      if (other.y0 <= one.y1 + margin && one.y0 <= other.y1 + margin) meet(one, other);
    }
  }
}

/** Segments `first … end - 1` of the flat lines, all of one curve. */
interface ChordBlock {
  readonly curve: number;
  readonly first: number;
  readonly end: number;
  readonly isLine: boolean;
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  /** Direction from the first point to the last, 0 to π, one for both ways; how far the curve's tangents may turn from it. */
  readonly angle: number;
  readonly spread: number;
}

function* blocksOf(curves: readonly MapCurve[], flat: FlatLines): Generator<number, ChordBlock[]> {
  const { curve } = flat;
  const blocks: ChordBlock[] = [];
  let first = 0;
  const cut = (_: number, to: number): void => {
    first = cutBlocks(curves, flat, first, to, blocks);
  };
  yield* inBlocks(curve.length, cut, 0, 0);
  return blocks;
}

/** Adds the blocks from vertex `from` on that begin before `to`; returns where the next one begins. */
function cutBlocks(
  curves: readonly MapCurve[],
  flat: FlatLines,
  from: number,
  to: number,
  blocks: ChordBlock[],
): number {
  const { curve } = flat;
  let first = from;
  while (first < to) {
    let end = first + 1;
    while (end < curve.length && end - first < BLOCK && curve[end] === curve[first]) end++;
    if (curve[first] >= 0) blocks.push(blockOf(flat, first, end, curves[curve[first]].curve.kind === 'line'));
    first = end;
  }
  return first;
}

/** Sine of a turn from the block's direction above which the spread is not worth knowing. */
const WIDE = 0.6;

function blockOf(
  { curve, lines: { coords: c } }: FlatLines,
  first: number,
  end: number,
  isLine: boolean,
): ChordBlock {
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
  const angle = dy > 0 ? Math.atan2(dy, dx) : Math.atan2(-dy, -dx);
  // Of two chords the tangents at the ends turn twice as far; a single one tells nothing of them.
  const isKnown = isLine || (end - first > 1 && most < WIDE * WIDE);
  const spread = isKnown ? 2.2 * Math.asin(Math.sqrt(most)) : Math.PI;
  return { curve: curve[first], first, end, isLine, x0, y0, x1, y1, angle, spread };
}

/** Visits the chords of two blocks that are near each other. */
function pairChords(
  c: Float64Array,
  one: ChordBlock,
  other: ChordBlock,
  margin: number,
  visit: VisitChords,
): void {
  const across = areAcross(one, other);
  for (let v = one.first; v < one.end; v++) {
    if (!nears(c, v, other, margin)) continue;
    for (let w = other.first; w < other.end; w++) if (areNear(c, v, w, margin)) visit(v, w, across);
  }
}

/** Whether two blocks run in directions too different for parallel tangents. */
function areAcross(one: ChordBlock, other: ChordBlock): boolean {
  const turn = Math.abs(one.angle - other.angle);
  return Math.min(turn, Math.PI - turn) > one.spread + other.spread;
}

/** Whether the box of chord v is within reach of a block's. */
function nears(c: Float64Array, v: number, block: ChordBlock, reach: number): boolean {
  const ax = c[2 * v];
  const ay = c[2 * v + 1];
  const bx = c[2 * v + 2];
  const by = c[2 * v + 3];
  return (
    (ax > bx ? ax : bx) + reach >= block.x0 &&
    (ax < bx ? ax : bx) - reach <= block.x1 &&
    (ay > by ? ay : by) + reach >= block.y0 &&
    (ay < by ? ay : by) - reach <= block.y1
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
