import { type Curve, derivativeAt } from '../geometry/curve.js';
import { findTangency, type Tangency } from '../geometry/curve-tangency.js';
import { distance } from '../geometry/point.js';
import type { FlatLines, MapCurve } from './flat-lines.js';
import { pairKey } from './pair-key.js';

/** Two curves that touch between their ends. */
export interface Touch {
  readonly a: number;
  readonly b: number;
  readonly place: Tangency;
}

/** Sine of the angle beyond which chords have no parallel tangents: an arc turns by an eighth along a chord at most. */
const STEEP = 0.8;

/** Places of one pair of curves that lie nearer than this, mm, are one: found from two chords. */
const SAME_PLACE = 1e-3;

/** The places where each pair of curves touches, by `pairKey`. */
export type KnownTouches = Map<number, Touch[]>;

/**
 * A place between two near chords where a curve runs side by side with another curve or line: between the chords' ends
 * the tangents become parallel. Added to `known`.
 */
export function addTouch(
  curves: readonly MapCurve[],
  flat: FlatLines,
  v: number,
  w: number,
  known: KnownTouches,
): void {
  if (!mayTouch(flat.lines.coords, v, w)) return;
  const place = tangencyBetween(curves, flat, v, w);
  if (place === null) return;
  const [a, b] = [flat.curve[v], flat.curve[w]];
  const pair = pairKey(a, b, curves.length);
  const places = known.get(pair);
  if (places === undefined) known.set(pair, [{ a, b, place }]);
  else if (!places.some((other) => distance(other.place.pa, place.pa) < SAME_PLACE))
    places.push({ a, b, place });
}

/** Whether two near segments may have a touch: their directions are not far apart, and they have no end in common. */
function mayTouch(c: Float64Array, v: number, w: number): boolean {
  const ax = c[2 * v];
  const ay = c[2 * v + 1];
  const bx = c[2 * v + 2];
  const by = c[2 * v + 3];
  const dx = c[2 * w];
  const dy = c[2 * w + 1];
  const ex = c[2 * w + 2];
  const ey = c[2 * w + 3];
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
