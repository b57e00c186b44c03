/**
 * Junctions that are plain to see before anything is arranged: ends of lines on curves, and curves that cross.
 *
 * What is found here saves a round of arranging: the curves have their vertices there at once. Only what leaves no doubt
 * is taken: an end on one curve, or two curves that cross at an angle, away from their ends. The rest is found where
 * nodes come to lie on chords (find-places.ts), and so is what is missed; a vertex too many does no harm.
 */
import { type Curve, derivativeAt } from '../geometry/curve.js';
import { nearestOnCurve } from '../geometry/nearest-on-curve.js';
import { distance, hypotenuse, type Point } from '../geometry/point.js';
import { meetingOf, SAME_STOP } from './curve-stops.js';
import { WINDOW } from './find-places.js';
import type { CurveStop, FlatLines, MapCurve } from './flat-lines.js';
import { mapInTurns, within } from './steps.js';

/** Crossings nearer to an end of their curves than so many times the weld tolerance are left to the rounds. */
const ROOM = 4;

/** Sine of the angle at which curves must cross. */
const LEAST_SINE = 0.1;

/** An end of a curve near a chord of another, and the parameter of the place that is nearest to it. */
interface NearEnd {
  readonly curve: number;
  readonly end: 0 | 1;
  readonly on: number;
  readonly t: number;
}

/** Chords that cross, by the parameters of their curves. */
interface ChordCrossing {
  readonly a: number;
  readonly b: number;
  readonly ta: number;
  readonly tb: number;
}

/** What near chords show of junctions. */
export interface JunctionSigns {
  readonly ends: NearEnd[];
  readonly crossings: ChordCrossing[];
}

/** A vertex that a curve gets for a junction with another curve. */
export interface Junction {
  readonly curve: number;
  readonly other: number;
  readonly stop: CurveStop;
  /** Both curves have a junction there: they cross. */
  readonly crossed: boolean;
}

/**
 * What two near chords show of a junction, the first of a curve: an end within `reach` mm of the other, or that they
 * cross. Added to `signs`.
 */
export function addSigns(
  flat: FlatLines,
  isLine: (curve: number) => boolean,
  v: number,
  w: number,
  reach: number,
  signs: JunctionSigns,
): void {
  addCrossing(flat, v, w, signs);
  addEnds(flat, w, v, reach, signs);
  if (!isLine(flat.curve[w])) addEnds(flat, v, w, reach, signs);
}

/** Adds a crossing inside both chords. */
function addCrossing({ lines, curve, t0, t1 }: FlatLines, v: number, w: number, signs: JunctionSigns): void {
  const c = lines.coords;
  const ux = c[2 * v + 2] - c[2 * v];
  const uy = c[2 * v + 3] - c[2 * v + 1];
  const wx = c[2 * w + 2] - c[2 * w];
  const wy = c[2 * w + 3] - c[2 * w + 1];
  const cross = ux * wy - uy * wx;
  if (cross === 0) return;
  const x = c[2 * w] - c[2 * v];
  const y = c[2 * w + 1] - c[2 * v + 1];
  const s = (x * wy - y * wx) / cross;
  const t = (x * uy - y * ux) / cross;
  if (!(s > 0 && s < 1 && t > 0 && t < 1)) return;
  const ta = t0[v] + s * (t1[v] - t0[v]);
  const tb = t0[w] + t * (t1[w] - t0[w]);
  signs.crossings.push({ a: curve[v], b: curve[w], ta, tb });
}

/** Adds the ends of chord v's curve that chord v has, where they are within reach of chord w. */
function addEnds(flat: FlatLines, v: number, w: number, reach: number, signs: JunctionSigns): void {
  const { curve, t0, t1 } = flat;
  if (t0[v] === 0) addEnd(flat, curve[v], 0, v, w, reach, signs);
  if (t1[v] === 1) addEnd(flat, curve[v], 1, v + 1, w, reach, signs);
}

function addEnd(
  { lines: { coords: c }, curve, t0, t1 }: FlatLines,
  of: number,
  end: 0 | 1,
  vertex: number,
  w: number,
  reach: number,
  { ends }: JunctionSigns,
): void {
  const dx = c[2 * w + 2] - c[2 * w];
  const dy = c[2 * w + 3] - c[2 * w + 1];
  const px = c[2 * vertex] - c[2 * w];
  const py = c[2 * vertex + 1] - c[2 * w + 1];
  const square = dx * dx + dy * dy;
  const along = square > 0 ? Math.min(1, Math.max(0, (px * dx + py * dy) / square)) : 0;
  const t = t0[w] + along * (t1[w] - t0[w]);
  // An end by an end, as where curves go on in one another, is a joint.
  if (t === 0 || t === 1) return;
  const away = hypotenuse(px - along * dx, py - along * dy);
  if (away <= reach) ends.push({ curve: of, end, on: curve[w], t });
}

/** The junctions that signs leave no doubt of. `weld` and `tolerance` in mm. Yields the share of the work done. */
export function* plainJunctions(
  curves: readonly MapCurve[],
  { ends, crossings }: JunctionSigns,
  weld: number,
  tolerance: number,
): Generator<number, Junction[]> {
  const onCurves = yield* within(
    mapInTurns(ends, (sign) => endJunction(curves, sign, weld, tolerance)),
    0,
    0.6,
  );
  const across = yield* within(
    mapInTurns(crossings, (sign) => crossingJunctions(curves, sign, ROOM * weld)),
    0.6,
    1,
  );
  return [...singleEnds(onCurves.filter((one) => one !== null)), ...across.flat()];
}

/** A junction at an end, and the end. */
interface EndJunction extends Junction {
  readonly at: Point;
}

function endJunction(
  curves: readonly MapCurve[],
  { curve, end, on, t }: NearEnd,
  weld: number,
  tolerance: number,
): EndJunction | null {
  const own = curves[curve].curve;
  const carrier = curves[on].curve;
  const at = end === 0 ? own.from : own.to;
  if (isByEnds(carrier, at, weld / 2)) return null;
  const near = nearestOnCurve(carrier, at, Math.max(0, t - WINDOW), Math.min(1, t + WINDOW));
  // Its chords may be further away by the tolerance.
  if (!(near.distance + tolerance <= weld)) return null;
  const stop = { t: near.t, x: near.point[0], y: near.point[1] };
  return { curve: on, other: curve, at, stop, crossed: false };
}

function isByEnds({ from, to }: Curve, p: Point, room: number): boolean {
  return distance(from, p) <= room || distance(to, p) <= room;
}

/** The vertices that both curves get where they cross plainly. */
function crossingJunctions(
  curves: readonly MapCurve[],
  { a, b, ta, tb }: ChordCrossing,
  room: number,
): Junction[] {
  const one = curves[a].curve;
  const other = curves[b].curve;
  const meeting = meetingOf(one, ta, other, tb);
  if (meeting === null || meeting.gap > SAME_STOP) return [];
  const { point } = meeting;
  if (isByEnds(one, point, room) || isByEnds(other, point, room)) return [];
  const [ux, uy] = derivativeAt(one, meeting.ta);
  const [vx, vy] = derivativeAt(other, meeting.tb);
  if (!(Math.abs(ux * vy - uy * vx) >= LEAST_SINE * hypotenuse(ux, uy) * hypotenuse(vx, vy))) return [];
  const [x, y] = point;
  return [
    { curve: a, other: b, stop: { t: meeting.ta, x, y }, crossed: true },
    { curve: b, other: a, stop: { t: meeting.tb, x, y }, crossed: true },
  ];
}

/** Ends that lie on one curve only, and at one place of it. */
function singleEnds(junctions: readonly EndJunction[]): Junction[] {
  return byPlace(junctions).flatMap((list) => {
    const [{ curve, stop }] = list;
    const isOne = list.every((other) => other.curve === curve && isSame(other.stop, stop));
    return isOne ? uniqueBy(list, ({ other }) => other) : [];
  });
}

/** Junctions with ends at one point together. */
function byPlace(junctions: readonly EndJunction[]): EndJunction[][] {
  const all: EndJunction[][] = [];
  const byX = new Map<number, Map<number, EndJunction[]>>();
  for (const junction of junctions) {
    const [x, y] = junction.at;
    const column = byX.get(x) ?? new Map<number, EndJunction[]>();
    if (column.size === 0) byX.set(x, column);
    const list = column.get(y);
    if (list !== undefined) {
      list.push(junction);
      continue;
    }
    const place = [junction];
    column.set(y, place);
    all.push(place);
  }
  return all;
}

const isSame = (p: CurveStop, q: CurveStop): boolean => hypotenuse(p.x - q.x, p.y - q.y) < SAME_STOP;

function uniqueBy<T>(list: readonly T[], key: (item: T) => number): T[] {
  return list.filter((item, i) => list.findIndex((other) => key(other) === key(item)) === i);
}
