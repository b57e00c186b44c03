import type { Point } from '../point.js';
import type { AreaBoundary } from './area-boundary.js';
import { alongOf, inwards, type Spot, walkedLength } from './spot.js';
import { type TangentDisc, tangentDisc } from './tangent-disc.js';

/** One end of a chord, with the unit vector to the other end; [0, 0] for a touch. */
export interface Side {
  readonly spot: Spot;
  readonly way: Point;
}

/** Parts into which looks cut a straight segment, and each eighth of a turn at a vertex. */
const LOOKS = 2;

/** Halvings with which the place is found where a disc leaves one side of the area for another. */
const HALVINGS = 12;

/** Places on the boundary nearer than this are one, mm. */
const SAME = 1e-6;

/** A stretch along which discs are looked at: a part of a segment, or a turn about a vertex; by a share 0 to 1. */
interface Stretch {
  readonly at: (share: number) => TangentDisc | null;
  readonly looks: number;
}

/**
 * The largest width that the area has between two chords that end on one loop, as seen from the boundary walked
 * forward from the one end to the other; Infinity where it rises to `2 radius` or more. Discs that touch there
 * are looked at on every segment and about every reflex vertex; where two looks touch different segments across, the
 * place where the disc leaves the first is searched, since the width has no maximum while the disc touches the same.
 */
export function widestBetween(b: AreaBoundary, one: Side, other: Side, radius: number): number {
  let most = 0;
  for (const stretch of stretchesBetween(b, one, other, radius)) {
    let last: TangentDisc | null = null;
    for (let i = 0; i <= stretch.looks; i++) {
      const disc = stretch.at(i / stretch.looks);
      if (disc === null) return Number.POSITIVE_INFINITY;
      most = Math.max(most, disc.radius, last === null ? 0 : radiusAtChange(b, stretch, i, last, disc));
      if (most === Number.POSITIVE_INFINITY) return most;
      last = disc;
    }
  }
  return 2 * most;
}

/** The radius where the discs between two looks change from one segment across to another; 0 where they do not. */
function radiusAtChange(
  b: AreaBoundary,
  { at, looks }: Stretch,
  i: number,
  before: TangentDisc,
  after: TangentDisc,
): number {
  const touched = before.other.segment;
  if (after.other.segment === touched || isBeside(b, touched, after.other.segment)) return 0;
  let [low, high] = [(i - 1) / looks, i / looks];
  let most = 0;
  for (let k = 0; k < HALVINGS; k++) {
    const share = (low + high) / 2;
    const disc = at(share);
    if (disc === null) return Number.POSITIVE_INFINITY;
    most = Math.max(most, disc.radius);
    if (disc.other.segment === touched) low = share;
    else high = share;
  }
  return most;
}

function isBeside(b: AreaBoundary, i: number, j: number): boolean {
  return b.next[i] === j || b.next[j] === i;
}

/** The boundary between the two ends in stretches; discs of `radius` and more are null. */
function* stretchesBetween(b: AreaBoundary, one: Side, other: Side, radius: number): Generator<Stretch> {
  const [from, to] = [one.spot, other.spot];
  const start = from.segment;
  const loop = b.loop[start];
  const back = walkedLength(b, loop, alongOf(b, to), alongOf(b, from));
  // The same place but for rounding, in the wrong order: not once round the loop.
  if (back < SAME && !(start === to.segment && to.part >= from.part)) return;
  if (start === to.segment && from.part === 0 && to.part === 0) {
    yield turn(b, start, one.way, other.way, radius);
    return;
  }
  if (from.part === 0) yield turn(b, start, one.way, inwards(b, start), radius);
  if (start === to.segment && to.part >= from.part) {
    yield slide(b, start, from.part, to.part, radius);
    return;
  }
  yield slide(b, start, from.part, 1, radius);
  for (let before = start, i = b.next[start]; ; before = i, i = b.next[i]) {
    const ends = i === to.segment && to.part === 0;
    if (isReflex(b, i)) yield turn(b, i, inwards(b, before), ends ? other.way : inwards(b, i), radius);
    if (ends) return;
    yield slide(b, i, 0, i === to.segment ? to.part : 1, radius);
    if (i === to.segment) return;
  }
}

/** Discs that touch a segment between two parts of it. */
function slide(b: AreaBoundary, segment: number, from: number, to: number, radius: number): Stretch {
  const end = b.next[segment];
  const [nx, ny] = inwards(b, segment);
  const at = (share: number): TangentDisc | null => {
    // Never quite at a vertex: at a convex one the disc has no size.
    const part = from + (to - from) * (share * (1 - 2 * INSIDE) + INSIDE);
    const x = b.x[segment] + part * (b.x[end] - b.x[segment]);
    const y = b.y[segment] + part * (b.y[end] - b.y[segment]);
    return tangentDisc(b, x, y, nx, ny, segment, segment, radius);
  };
  return { at, looks: b.loops[b.loop[segment]][b.curve[segment]].kind === 'line' ? LOOKS : 1 };
}

/** Part of a stretch left out at its ends. */
const INSIDE = 1e-6;

/** Discs that touch a vertex, by their direction. */
function turn(b: AreaBoundary, v: number, from: Point, to: Point, radius: number): Stretch {
  const angle = Math.atan2(from[0] * to[1] - from[1] * to[0], from[0] * to[0] + from[1] * to[1]);
  const at = (share: number): TangentDisc | null => {
    const [cos, sin] = [Math.cos(angle * share), Math.sin(angle * share)];
    const [x, y] = [from[0] * cos - from[1] * sin, from[1] * cos + from[0] * sin];
    return tangentDisc(b, b.x[v], b.y[v], x, y, v, b.prev[v], radius);
  };
  return { at, looks: Math.max(1, Math.ceil((Math.abs(angle) / Math.PI) * 4 * LOOKS)) };
}

function isReflex(b: AreaBoundary, v: number): boolean {
  const [p, n] = [b.prev[v], b.next[v]];
  return (b.x[v] - b.x[p]) * (b.y[n] - b.y[v]) < (b.y[v] - b.y[p]) * (b.x[n] - b.x[v]);
}
