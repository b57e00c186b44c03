/**
 * Where curves touch: a smooth place of one on another is a junction, as an end on a line is one.
 *
 * Input: the places where two curves run side by side within the weld tolerance (find-touches.ts): they just miss, or
 * cross twice with a sickle thinner than the weld between. Output: for both curves a vertex at one and the same
 * point, and around it chords that cannot cross for being chords: what vertices the curves had there goes, and they
 * get vertices side by side until they are further apart than chords can deviate.
 *
 * No touch is: a place within whose reach one of the curves ends (the weld sees to ends), or that has another such
 * place within reach, or where the curves part so slowly that chords would stray further than the weld. Such curves run
 * along each other (coincident-curves.ts), or their strips are slivers.
 */
import { pointAt } from '../geometry/curve.js';
import { parameterAlong } from '../geometry/curve-tangency.js';
import { GRID_STEP } from '../geometry/grid.js';
import { lerp, type Point } from '../geometry/point.js';
import type { Touch } from './find-touches.js';
import { type BareStretch, type ChordRules, type CurveStop, type MapCurve, NO_RULES } from './flat-lines.js';
import { pairKey } from './pair-key.js';
import { mapInTurns } from './steps.js';

/** How far apart, mm, curves are where their first vertices beside a touch stand: rounding keeps their order. */
const CLEAR = 4 * GRID_STEP;

/** Curves further apart than so many times the tolerance have chords that do not cross. */
const CHORDS_APART = 2.5;

/** A touch, the stretches of both curves within the weld of each other, and those that lose their vertices. */
interface Settled {
  readonly touch: Touch;
  readonly near: readonly [BareStretch, BareStretch];
  readonly bare: readonly [BareStretch, BareStretch];
  readonly stops: readonly [readonly CurveStop[], readonly CurveStop[]];
}

/** The rules that touches make; see the header. `weld` and `tolerance` in mm. */
export function* touchRules(
  curves: readonly MapCurve[],
  touches: readonly Touch[],
  weld: number,
  tolerance: number,
): Generator<number, ChordRules> {
  if (touches.length === 0) return NO_RULES;
  const settling = mapInTurns(touches, (touch) => settle(curves, touch, weld, tolerance));
  const settled = (yield* settling).filter((one) => one !== null);
  const pairs = new Map<number, Settled[]>();
  for (const one of settled) listOf(pairs, pairKey(one.touch.a, one.touch.b, curves.length)).push(one);
  const stops = new Map<number, CurveStop[]>();
  const bare = new Map<number, BareStretch[]>();
  for (const one of settled) {
    const pair = listOf(pairs, pairKey(one.touch.a, one.touch.b, curves.length));
    if (pair.some((other) => other !== one && areClose(one, other))) continue;
    [one.touch.a, one.touch.b].forEach((c, side) => {
      listOf(stops, c).push(...one.stops[side]);
      listOf(bare, c).push(one.bare[side]);
    });
  }
  for (const list of stops.values()) list.sort((a, b) => a.t - b.t);
  return { stops, overlays: NO_RULES.overlays, bare };
}

/** The list under a key, a new one at first. */
function listOf<T>(lists: Map<number, T[]>, key: number): T[] {
  const list = lists.get(key) ?? [];
  lists.set(key, list);
  return list;
}

/** Two touches of one pair of curves within each other's reach. */
function areClose(one: Settled, other: Settled): boolean {
  return one.near.every(({ from, to }, side) => from < other.near[side].to && other.near[side].from < to);
}

function settle(curves: readonly MapCurve[], touch: Touch, weld: number, tolerance: number): Settled | null {
  const { gap, bend, tightest, along, pa, pb, ta, tb } = touch.place;
  const depth = gap * bend < 0 ? Math.abs(gap) : 0;
  /** Where the curves are so far apart, on the far side of a sickle. */
  const reachOf = (apart: number): number => Math.sqrt((2 * (depth + apart)) / Math.abs(bend));
  const first = reachOf(CLEAR);
  if (!((tightest * first * first) / 8 <= weld)) return null;
  const pair = [curves[touch.a].curve, curves[touch.b].curve] as const;
  // As far as an end would be welded, chords aside.
  const end = reachOf(Math.max(0, weld - tolerance - (depth > 0 ? 0 : Math.abs(gap))));
  const places = [first];
  const last = Math.max(first, reachOf(CHORDS_APART * tolerance));
  const steps = Math.ceil((last - first) / Math.sqrt((8 * tolerance) / tightest));
  for (let k = 1; k <= steps; k++) places.push(first + ((last - first) * k) / steps);
  // A line stays straight; two curves meet halfway.
  const point = pair[1].kind === 'line' ? pb : lerp(pa, pb, 0.5);
  const found = pair.map((curve, side) => {
    const t = side === 0 ? ta : tb;
    const at = (x: number): number | null => parameterAlong(curve, t, pa, along, x);
    const ends = [at(-end), at(end)];
    const beside = places.flatMap((x) => [at(-x), at(x)]);
    if ([...ends, ...beside].includes(null)) return null;
    const [from, to] = (ends as number[]).sort((p, q) => p - q);
    const own = (beside as number[]).map((s): CurveStop => stopAt(s, pointAt(curve, s)));
    return { near: { from, to }, beside: own, stop: stopAt(t, point) };
  });
  const [a, b] = found;
  if (a === null || b === null || !partOnOneSide(touch, a.beside, b.beside)) return null;
  return {
    touch,
    near: [a.near, b.near],
    bare: [bareBetween(a.beside), bareBetween(b.beside)],
    stops: [
      [a.stop, ...a.beside],
      [b.stop, ...b.beside],
    ],
  };
}

const stopAt = (t: number, [x, y]: Point): CurveStop => ({ t, x, y });

function bareBetween(stops: readonly CurveStop[]): BareStretch {
  const all = stops.map(({ t }) => t);
  return { from: Math.min(...all), to: Math.max(...all) };
}

/** Whether the true curves keep the side that their curvatures tell, at all places beside the touch. */
function partOnOneSide({ place }: Touch, a: readonly CurveStop[], b: readonly CurveStop[]): boolean {
  const side = Math.sign(place.bend);
  return a.every((stop, i) => {
    const away = (b[i].x - stop.x) * place.across[0] + (b[i].y - stop.y) * place.across[1];
    return side * away > 0;
  });
}
