import { type Bounds, distance, type Point } from '../geometry/point.js';
import { OUTSIDE, type RegionMap } from '../plane/region-map.js';
import { distanceToField, type SegmentField, segmentField, wayIsFree } from './segment-field.js';

/** Room around the drawing on the least board, mm: the blade comes in from there. */
export const BOARD_ROOM = 15;

/** Directions looked at, and how far a first leg goes where no straight way is free, mm. */
const TURNS = 48;
const LEGS = [2, 4, 7, 11, 16, 23, 32, 45];

/** The way begins this far from the line that it leads to, mm. */
const OFF_LINE = 0.3;

/** A way keeps this far from the lines, mm, or the half of what there is where it comes to one. */
const KEEP_OFF = 2;

/** A way is looked at so often, mm. */
const LOOK = 1;

/** A way that only branches off one that is open counts as this much of its length: it parts less of the board. */
const BRANCH = 0.5;

/**
 * A way through the waste of the board to a place on the outline of the drawing, that crosses no line and keeps off
 * the lines: straight, or with one bend, from the edge of the board or from a way that is open already, the shortest of
 * those looked at. Empty where none is found.
 *
 * @param field the outline of the drawing, see `outlineField`; then the box around it
 * @param open ways that are sawn already
 */
export function wayIn(
  field: SegmentField,
  [x0, y0, x1, y1]: Bounds,
  at: Point,
  open: readonly (readonly Point[])[] = [],
): Point[] {
  const board: Bounds = [x0 - BOARD_ROOM, y0 - BOARD_ROOM, x1 + BOARD_ROOM, y1 + BOARD_ROOM];
  const known = open.find((way) => distance(way[way.length - 1], at) < OFF_LINE);
  if (known !== undefined) return [...known];
  const sources = open.flatMap(pointsOn);
  for (const strict of [true, false]) {
    const clear = (from: Point, to: Point): boolean =>
      wayIsFree(field, from, to) && (!strict || keepsOff(field, from, to, at));
    const best = bestWay(clear, board, at, sources);
    if (best !== null) return best;
  }
  return [];
}

/** Straight if there is such a way, else with one bend. */
function bestWay(clear: Clear, board: Bounds, at: Point, sources: readonly Point[]): Point[] | null {
  const straight = shortest(directions().map((d) => legTo(clear, board, step(at, d, OFF_LINE), d)));
  const branches = sources
    .map((end) => ({ end, length: BRANCH * distance(at, end) }))
    .filter(({ length }) => straight === null || length < straight.length)
    .sort((p, q) => p.length - q.length)
    .slice(0, MOST_BRANCHES);
  const branch = branches.find(({ end }) => clear(step(at, unit(at, end), OFF_LINE), end));
  if (branch !== undefined) return [branch.end, at];
  if (straight !== null) return [straight.end, at];
  const bent = directions().flatMap((d) =>
    LEGS.flatMap((leg) => {
      const bend = step(at, d, leg);
      if (!clear(step(at, d, OFF_LINE), bend)) return [];
      const rest = shortest(directions().map((e) => legTo(clear, board, bend, e)));
      return rest === null ? [] : [{ bend, end: rest.end, length: leg + rest.length }];
    }),
  );
  if (bent.length === 0) return null;
  const best = bent.reduce((least, way) => (way.length < least.length ? way : least));
  return [best.end, best.bend, at];
}

/** So many places to branch off are looked at. */
const MOST_BRANCHES = 40;

function keepsOff(field: SegmentField, from: Point, to: Point, at: Point): boolean {
  const count = Math.max(1, Math.ceil(distance(from, to) / LOOK));
  for (let i = 0; i <= count; i++) {
    const p: Point = [from[0] + ((to[0] - from[0]) * i) / count, from[1] + ((to[1] - from[1]) * i) / count];
    const wanted = Math.min(KEEP_OFF, distance(p, at) / 2);
    if (distanceToField(field, p, wanted) < wanted) return false;
  }
  return true;
}

/** Places along a way where another one may branch off. */
function pointsOn(way: readonly Point[]): Point[] {
  return way.slice(1).flatMap((to, i) => {
    const from = way[i];
    const count = Math.max(1, Math.round(distance(from, to) / KEEP_OFF));
    return Array.from(
      { length: count },
      (_, k): Point => [from[0] + ((to[0] - from[0]) * k) / count, from[1] + ((to[1] - from[1]) * k) / count],
    );
  });
}

function unit([x0, y0]: Point, [x1, y1]: Point): Point {
  const length = Math.hypot(x1 - x0, y1 - y0) || 1;
  return [(x1 - x0) / length, (y1 - y0) / length];
}

type Clear = (from: Point, to: Point) => boolean;

interface Leg {
  readonly end: Point;
  readonly length: number;
}

/** From a point straight out of the board, or null where a line is in the way. */
function legTo(clear: Clear, [x0, y0, x1, y1]: Bounds, from: Point, [dx, dy]: Point): Leg | null {
  const across = dx > 0 ? (x1 - from[0]) / dx : dx < 0 ? (x0 - from[0]) / dx : Number.POSITIVE_INFINITY;
  const down = dy > 0 ? (y1 - from[1]) / dy : dy < 0 ? (y0 - from[1]) / dy : Number.POSITIVE_INFINITY;
  const length = Math.min(across, down);
  const end = step(from, [dx, dy], length);
  return clear(from, end) ? { end, length } : null;
}

function shortest(legs: readonly (Leg | null)[]): Leg | null {
  return legs.reduce<Leg | null>(
    (best, leg) => (leg !== null && (best === null || leg.length < best.length) ? leg : best),
    null,
  );
}

function directions(): Point[] {
  return Array.from({ length: TURNS }, (_, i): Point => {
    const angle = (2 * Math.PI * i) / TURNS;
    return [Math.cos(angle), Math.sin(angle)];
  });
}

function step([x, y]: Point, [dx, dy]: Point, length: number): Point {
  return [x + dx * length, y + dy * length];
}

/** The outline of a drawing as segments. */
export function outlineField(
  edges: RegionMap['edges'],
  chords: (edge: number) => Float64Array,
): SegmentField {
  const ends = edges.flatMap(({ left, right }, e) => {
    if (left !== OUTSIDE && right !== OUTSIDE) return [];
    const xy = chords(e);
    return Array.from({ length: xy.length / 2 - 1 }, (_, i) => [...xy.subarray(2 * i, 2 * i + 4)]).flat();
  });
  return segmentField(Float64Array.from(ends));
}
