import { pointAt } from '../geometry/curve.js';
import { fromGrid, GRID_STEP } from '../geometry/grid.js';
import { nearestOnCurve } from '../geometry/nearest-on-curve.js';
import { distance, hypotenuse, type Point } from '../geometry/point.js';
import { findOverlays } from './coincident-curves.js';
import { meetingOf, SAME_STOP } from './curve-stops.js';
import { findPlaces, type Incidence, type Place, WINDOW } from './find-places.js';
import type { ChordRules, CurveStop, FlatLines, MapCurve } from './flat-lines.js';
import type { GridLines } from './grid-lines.js';
import { pairKey } from './pair-key.js';
import type { Meetings } from './snap-round.js';
import { isTurnEnd, within } from './steps.js';

/** A node on chords of curves that lies off the curves themselves, and how far, mm. */
export interface Stray {
  readonly at: Point;
  readonly away: number;
}

/** What a round of refinement found: rules for the next one (null: nothing to refine), and nodes off their curves. */
export interface Refinement {
  readonly rules: ChordRules | null;
  readonly strays: readonly Stray[];
}

/**
 * Where nodes were found on chords of curves, finds the true places on the curves: crossings by Newton's
 * method on both curves, ends that lie on a curve by their nearest point; and which curves run along each
 * other (in the first round: `shared` has the junctions that pairs have by the rules, null later). Where that tells nothing new, since chords cross and their curves do not, the curves get
 * the points beside the node: finer chords. Yields the share of the work done.
 */
export function* refineRules(
  curves: readonly MapCurve[],
  ranks: Int32Array,
  flat: FlatLines,
  grid: GridLines,
  meetings: Meetings,
  rules: ChordRules,
  weld: number,
  shared: ReadonlyMap<number, number> | null,
): Generator<number, Refinement> {
  const places = yield* within(findPlaces(curves, flat, grid, meetings), 0, 0.5);
  const first = shared !== null;
  const overlays = first
    ? findOverlays(curves, pairsAt(places, shared, curves.length), ranks, weld)
    : rules.overlays;
  const found: CurveVertex[] = [];
  const strays: Stray[] = [];
  const isOverlaid = (curve: number, t: number): boolean =>
    overlays.get(curve)?.some(({ from, to }) => t > from && t < to) ?? false;
  const isNew = ({ curve, stop }: CurveVertex): boolean =>
    !isOverlaid(curve, stop.t) && !isKnown(curves, rules.stops, curve, stop);
  for (const [i, { x, y, list: all }] of places.entries()) {
    if (isTurnEnd(i)) yield 0.6 + (0.4 * i) / places.length;
    // Along an overlay the carrier's vertices count.
    const list = all.filter(({ curve, t }) => !isOverlaid(curve, t));
    const at: Point = [fromGrid(x), fromGrid(y)];
    const beside = list.filter(({ inside }) => inside).map(({ curve, t }) => ownPoint(curves, curve, t));
    // Near an end the weld moves lines, by design.
    const isEnd = list.some(({ curve, t }) => endDistance(curves[curve], t, at) <= 2 * weld);
    const away =
      isEnd || list.length < 2 ? 0 : Math.max(0, ...beside.map(({ stop }) => distance(at, [stop.x, stop.y])));
    if (away > STRAY) strays.push({ at, away });
    const stops = refineNode(curves, ranks, list).filter(isNew);
    const finer = !first && stops.length === 0 && away > STRAY;
    found.push(...(finer ? beside.filter(isNew) : stops));
  }
  const more = first && overlays.size > 0;
  if (found.length === 0 && !more) return { rules: null, strays };
  const known = more ? outsideOverlays(rules.stops, isOverlaid) : rules.stops;
  return { rules: { stops: mergeStops(curves, known, found), overlays, bare: rules.bare }, strays };
}

/** From a place to the end of a curve that is nearer by its parameter, mm. */
function endDistance({ curve }: MapCurve, t: number, at: Point): number {
  return distance(t < 0.5 ? curve.from : curve.to, at);
}

/** A vertex that a curve is to have. */
interface CurveVertex {
  readonly curve: number;
  readonly stop: CurveStop;
}

/** Further than this, mm, no node lies from its curves by its rounding alone. */
const STRAY = GRID_STEP;

function ownPoint(curves: readonly MapCurve[], curve: number, t: number): CurveVertex {
  const [x, y] = pointAt(curves[curve].curve, t);
  return { curve, stop: { t, x, y } };
}

function outsideOverlays(
  stops: ReadonlyMap<number, readonly CurveStop[]>,
  isOverlaid: (curve: number, t: number) => boolean,
): Map<number, readonly CurveStop[]> {
  return new Map([...stops].map(([curve, list]) => [curve, list.filter(({ t }) => !isOverlaid(curve, t))]));
}

/** Pairs of curves that share at least two nodes, in order; `shared` counts those that are no places. */
function pairsAt(
  places: readonly Place[],
  shared: ReadonlyMap<number, number>,
  count: number,
): [number, number][] {
  const counts = new Map(shared);
  for (const { list } of places) {
    for (const { curve: a } of list) {
      for (const { curve: b } of list)
        if (a < b) counts.set(pairKey(a, b, count), (counts.get(pairKey(a, b, count)) ?? 0) + 1);
    }
  }
  const pairs = [...counts.keys()].filter((pair) => counts.get(pair)! >= 2).sort((p, q) => p - q);
  return pairs.map((pair) => [Math.floor(pair / count), pair % count]);
}

/** Stops of the curves at a node. Curves that meet there get one and the same point. */
function refineNode(
  curves: readonly MapCurve[],
  ranks: Int32Array,
  unsorted: readonly Incidence[],
): CurveVertex[] {
  const stops: CurveVertex[] = [];
  const points: Point[] = [];
  const list = [...unsorted].sort((a, b) => ranks[a.curve] - ranks[b.curve] || a.t - b.t);
  const add = (curve: number, t: number, p: Point): void => {
    if (t <= 0 || t >= 1) return;
    const known = points.find((q) => distance(p, q) < SAME_STOP);
    if (known === undefined) points.push(p);
    const [x, y] = known ?? p;
    stops.push({ curve, stop: { t, x, y } });
  };
  const fixed = list.find(({ t }) => t === 0 || t === 1);
  if (fixed !== undefined) {
    const end = pointAt(curves[fixed.curve].curve, fixed.t);
    for (const { curve, t, inside } of list) {
      if (!inside) continue;
      const near = nearestOnCurve(curves[curve].curve, end, Math.max(0, t - WINDOW), Math.min(1, t + WINDOW));
      add(curve, near.t, near.point);
    }
    return stops;
  }
  const lead = list.find(({ inside }) => inside);
  // The curve has a vertex at the node already, by another of its chords.
  if (lead === undefined) return stops;
  for (const other of list) {
    if (other === lead) continue;
    const meeting = meetingOf(curves[lead.curve].curve, lead.t, curves[other.curve].curve, other.t);
    if (meeting === null) continue;
    const { ta, tb, point, gap } = meeting;
    add(lead.curve, ta, gap <= SAME_STOP ? point : pointAt(curves[lead.curve].curve, ta));
    add(other.curve, tb, gap <= SAME_STOP ? point : pointAt(curves[other.curve].curve, tb));
  }
  return stops;
}

function isKnown(
  curves: readonly MapCurve[],
  known: ReadonlyMap<number, readonly CurveStop[]>,
  curve: number,
  stop: CurveStop,
): boolean {
  const list = known.get(curve);
  return list?.some((other) => isSameStop(curves[curve], other, stop)) ?? false;
}

function isSameStop({ curve }: MapCurve, a: CurveStop, b: CurveStop): boolean {
  if (a.t === b.t) return true;
  const [ax, ay] = pointAt(curve, a.t);
  const [bx, by] = pointAt(curve, b.t);
  return Math.abs(a.t - b.t) < WINDOW && hypotenuse(bx - ax, by - ay) < SAME_STOP;
}

function mergeStops(
  curves: readonly MapCurve[],
  known: ReadonlyMap<number, readonly CurveStop[]>,
  found: readonly CurveVertex[],
): Map<number, CurveStop[]> {
  const all = new Map<number, CurveStop[]>();
  for (const [curve, list] of known) all.set(curve, [...list]);
  for (const { curve, stop } of found) {
    const list = all.get(curve) ?? [];
    if (!list.some((other) => isSameStop(curves[curve], other, stop))) list.push(stop);
    all.set(curve, list);
  }
  for (const list of all.values()) list.sort((a, b) => a.t - b.t);
  return all;
}
