import { boxTreeSteps, searchBoxes } from '../geometry/box-tree.js';
import { type Curve, derivativeAt } from '../geometry/curve.js';
import { findTangency, type Tangency } from '../geometry/curve-tangency.js';
import { distance, type Point } from '../geometry/point.js';
import type { FlatLines, MapCurve } from './flat-lines.js';
import { inBlocks, isTurnEnd, within } from './steps.js';

/** Two curves that touch between their ends. */
export interface Touch {
  readonly a: number;
  readonly b: number;
  readonly place: Tangency;
}

/** Chords of one curve that share a box, at most. */
const BLOCK = 8;

/** Up to so many blocks a sweep across the page is faster than a tree. */
const SWEPT = 2048;

/** Sine of the angle beyond which chords have no parallel tangents: an arc turns by an eighth along a chord at most. */
const STEEP = 0.8;

/** Places of one pair of curves that lie nearer than this, mm, are one: found from two chords. */
const SAME_PLACE = 1e-3;

/**
 * Where a curve runs side by side with another curve or line, no further than `reach` mm away. Candidates are pairs of
 * chords in boxes that near each other, between whose ends the tangents become parallel. O(n log n) for chords that
 * are near few others.
 */
export function* findTouches(
  curves: readonly MapCurve[],
  flat: FlatLines,
  reach: number,
  tolerance: number,
): Generator<number, Touch[]> {
  const blocks = yield* blocksOf(curves, flat);
  if (blocks.every(({ isLine }) => isLine)) return [];
  const margin = reach + 2 * tolerance;
  const touches: Touch[] = [];
  const known: KnownPlaces = new Map();
  yield* nearPairs(blocks, margin, (one, other) => {
    if (!areAcross(one, other)) tryBlocks(curves, flat, one, other, margin, touches, known);
  });
  return touches.filter(({ place }) => Math.abs(place.gap) <= reach);
}

/** Visits all pairs of blocks of different curves whose boxes are near, the curve (or the first of two) first. */
function* nearPairs(
  blocks: readonly Block[],
  margin: number,
  visit: (one: Block, other: Block) => void,
): Generator<number, void> {
  const meet = (p: Block, q: Block): void => {
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
  const tree = yield* within(boxTreeSteps(boxes), 0, 0);
  for (const [i, one] of blocks.entries()) {
    if (isTurnEnd(i)) yield i / blocks.length;
    searchBoxes(tree, one.x0 - margin, one.y0 - margin, one.x1 + margin, one.y1 + margin, (j) => {
      if (j > i) meet(one, blocks[j]);
      return false;
    });
  }
}

/** Visits all pairs of blocks whose boxes are near, by a sweep along x. */
function sweepPairs(blocks: readonly Block[], margin: number, meet: (p: Block, q: Block) => void): void {
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
interface Block {
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

function* blocksOf(curves: readonly MapCurve[], flat: FlatLines): Generator<number, Block[]> {
  const { curve } = flat;
  const blocks: Block[] = [];
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
  blocks: Block[],
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
): Block {
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

/** Whether two blocks run in directions too different for parallel tangents. */
function areAcross(one: Block, other: Block): boolean {
  const turn = Math.abs(one.angle - other.angle);
  return Math.min(turn, Math.PI - turn) > one.spread + other.spread;
}

/** The places found for each pair of curves. */
type KnownPlaces = Map<number, readonly Point[]>;

function tryBlocks(
  curves: readonly MapCurve[],
  flat: FlatLines,
  one: Block,
  other: Block,
  margin: number,
  touches: Touch[],
  known: KnownPlaces,
): void {
  const { coords } = flat.lines;
  for (let v = one.first; v < one.end; v++) {
    for (let w = other.first; w < other.end; w++) {
      if (!mayTouch(coords, v, w, margin)) continue;
      const place = tangencyBetween(curves, flat, v, w);
      if (place === null) continue;
      const [a, b] = [one.curve, other.curve];
      const pair = a * curves.length + b;
      const places = known.get(pair) ?? [];
      if (places.some((p) => distance(p, place.pa) < SAME_PLACE)) continue;
      known.set(pair, [...places, place.pa]);
      touches.push({ a, b, place });
    }
  }
}

/** Whether two segments may have a touch: their boxes are near, their directions not far apart, no end in common. */
function mayTouch(c: Float64Array, v: number, w: number, margin: number): boolean {
  const ax = c[2 * v];
  const ay = c[2 * v + 1];
  const bx = c[2 * v + 2];
  const by = c[2 * v + 3];
  const dx = c[2 * w];
  const dy = c[2 * w + 1];
  const ex = c[2 * w + 2];
  const ey = c[2 * w + 3];
  if ((ax > bx ? ax : bx) + margin < (dx < ex ? dx : ex)) return false;
  if ((dx > ex ? dx : ex) + margin < (ax < bx ? ax : bx)) return false;
  if ((ay > by ? ay : by) + margin < (dy < ey ? dy : ey)) return false;
  if ((dy > ey ? dy : ey) + margin < (ay < by ? ay : by)) return false;
  const cross = (bx - ax) * (ey - dy) - (by - ay) * (ex - dx);
  const squares = ((bx - ax) ** 2 + (by - ay) ** 2) * ((ex - dx) ** 2 + (ey - dy) ** 2);
  if (cross * cross > STEEP * STEEP * squares) return false;
  // Curves that go on in one another touch there anyhow.
  const isEnd = (x: number, y: number): boolean => (x === dx && y === dy) || (x === ex && y === ey);
  return !isEnd(ax, ay) && !isEnd(bx, by);
}

function tangencyBetween(
  curves: readonly MapCurve[],
  { curve, t0, t1 }: FlatLines,
  v: number,
  w: number,
): Tangency | null {
  const a = curves[curve[v]].curve;
  const b = curves[curve[w]].curve;
  if (!becomeParallel(a, t0[v], t1[v], b, t0[w], t1[w])) return null;
  return findTangency(a, (t0[v] + t1[v]) / 2, b, (t0[w] + t1[w]) / 2);
}

/** Whether the tangents can be parallel: their product does not have one sign at all four pairs of ends. */
function becomeParallel(a: Curve, a0: number, a1: number, b: Curve, b0: number, b1: number): boolean {
  const [ux, uy] = derivativeAt(a, a0);
  const [vx, vy] = derivativeAt(a, a1);
  let signs = 0;
  for (const s of b.kind === 'line' ? [b0] : [b0, b1]) {
    const [wx, wy] = derivativeAt(b, s);
    signs |= signOf(ux * wy - uy * wx) | signOf(vx * wy - vy * wx);
  }
  return signs === 3;
}

/** 1 for a negative number, 2 for a positive one, both for 0. */
const signOf = (value: number): number => (value < 0 ? 1 : value > 0 ? 2 : 3);
