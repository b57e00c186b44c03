import { type Bounds, distance, lerp, type Point } from '../geometry/point.js';
import { distanceToField, type SegmentField, wayIsFree } from '../geometry/segment-field.js';
import { segmentsMeet } from '../geometry/segment-meeting.js';

import { findRoute } from './way-grid.js';

/** What a way through waste may begin at. */
export interface WaySource {
  readonly kind: 'edge' | 'way' | 'kerf';
  /** Number of the way, of a way; else -1. */
  readonly way: number;
  readonly points: readonly Point[];
  /** What it costs to come to these places, mm: the way leads there, but not yet through all the sheets. */
  readonly extra: number;
}

/** What is around a place that the blade has to come to. */
export interface WayScene {
  /** The border of the waste with the picture. */
  readonly field: SegmentField;
  readonly board: Bounds;
  /** Ways that are there: a new one does not cross them. */
  readonly ways: readonly (readonly Point[])[];
  readonly sources: readonly WaySource[];
  /** The direction from `at` to a point goes into the waste. */
  leadsIn(towards: Point): boolean;
}

/** A way from a source to the place. */
export interface FoundWay {
  readonly points: readonly Point[];
  readonly source: WaySource;
}

/** Directions looked at, and how far a first leg goes where there is a bend, mm. */
const TURNS = 48;
const LEGS = [2, 4, 7, 11, 16, 23, 32, 45, 64, 90];

/** Crossings are looked for from this far off either end of a leg, mm: the ends themselves lie on lines. */
const OFF_LINE = 0.02;

/**
 * A way keeps this far from the lines, mm, or this part of the distance to the place where it comes to one: so much
 * stays of the waste beside it, and the blade can turn. What can't be had is asked for less.
 */
const KEEP_OFF = [
  { mm: 2, part: 0.5 },
  { mm: 0.6, part: 0.15 },
  { mm: 0, part: 0 },
] as const;

/** A way round more corners is looked for before one that comes nearer to the lines than this. */
const ROUTE_AFTER = KEEP_OFF[1];

/** A way is looked at so often, mm. */
const LOOK = 1;

/** A way with a bend is looked for where the straight one is longer than this many times the nearest source. */
const DETOUR = 1.15;

/** So many places to begin at are tried for one leg. */
const MOST_TRIED = 120;

/**
 * The shortest way through waste to a place, of those looked at: straight, or with a bend or two, from the edge of the
 * board, from a way that is there, or out of a kerf; round more corners where that does not lead there. Null where none
 * is found.
 */
export function findWay(scene: WayScene, at: Point): FoundWay | null {
  for (const keep of KEEP_OFF) {
    const straight = shortestLeg(scene, keep, at, at, Number.POSITIVE_INFINITY);
    const nearest = Math.min(
      ...scene.sources.flatMap(({ points, extra }) => points.map((p) => distance(p, at) + extra)),
      ...feet(scene.board, at).map((p) => distance(p, at)),
    );
    if (straight !== null && straight.length <= DETOUR * nearest) return straight.way;
    const bent = bestBend(scene, keep, at, straight?.length ?? Number.POSITIVE_INFINITY);
    const best = bent ?? straight;
    if (best !== null) return turnOff(scene, keep, at, best).way;
    if (keep === ROUTE_AFTER) {
      const route = routeTo(scene, keep, at);
      if (route !== null) return route;
    }
  }
  return null;
}

function routeTo(scene: WayScene, keep: Keep, at: Point): FoundWay | null {
  const ends = scene.sources.flatMap((source) =>
    source.points.map((end) => ({ at: end, extra: source.extra, source })),
  );
  const kerfs = ends.filter(({ source }) => source.kind === 'kerf').map((end) => end.at);
  const isClear = (a: Point, b: Point): boolean => {
    if ((a === at && !scene.leadsIn(b)) || (b === at && !scene.leadsIn(a))) return false;
    return isOn(scene.board, lerp(a, b, 0.5)) && isClearLeg(scene, keep, a, b, at, kerfs);
  };
  const found = findRoute({ board: scene.board, ends, isClear }, at);
  if (found === null) return null;
  const edge: WaySource = { kind: 'edge', way: -1, extra: 0, points: [] };
  return { points: found.points, source: found.end < 0 ? edge : ends[found.end].source };
}

/** As `isClear`; a leg that begins at a kerf may come near to it there. */
function isClearLeg(
  scene: WayScene,
  keep: Keep,
  a: Point,
  b: Point,
  at: Point,
  kerfs: readonly Point[],
): boolean {
  return isClear(scene, keep, a, b, at, kerfs.includes(a) ? a : null);
}

type Keep = (typeof KEEP_OFF)[number];

interface Leg {
  readonly way: FoundWay;
  readonly length: number;
}

/** A leg from a source to a point that is shorter than `most`. */
function shortestLeg(scene: WayScene, keep: Keep, to: Point, at: Point, most: number): Leg | null {
  const { board, sources } = scene;
  const edge: WaySource = {
    kind: 'edge',
    way: -1,
    extra: 0,
    points: [...feet(board, to), ...rays(board, to)],
  };
  const tried = [edge, ...sources]
    .flatMap((source) =>
      source.points.map((end) => ({ source, end, length: distance(end, to) + source.extra })),
    )
    .filter(({ length, end }) => length < most && distance(end, to) > 2 * OFF_LINE)
    .filter(({ end }) => to !== at || scene.leadsIn(end))
    .sort((a, b) => a.length - b.length)
    .slice(0, MOST_TRIED);
  for (const { source, end, length } of tried) {
    if (isClear(scene, keep, end, to, at, source.kind === 'kerf' ? end : null))
      return { way: { points: [end, to], source }, length };
  }
  return null;
}

function bestBend(scene: WayScene, keep: Keep, at: Point, most: number): Leg | null {
  let best: Leg | null = null;
  let least = most;
  for (const leg of LEGS) {
    if (leg >= least) break;
    for (const [dx, dy] of DIRECTIONS) {
      const bend: Point = [at[0] + leg * dx, at[1] + leg * dy];
      if (!isOn(scene.board, bend) || !scene.leadsIn(bend) || !isClear(scene, keep, bend, at, at, null))
        continue;
      const rest = shortestLeg(scene, keep, bend, at, least - leg);
      if (rest === null) continue;
      least = leg + rest.length;
      best = { way: { points: [rest.way.points[0], bend, at], source: rest.way.source }, length: least };
    }
  }
  return best;
}

/** The way again, turned off its first leg where something to begin at is nearer than where that begins. */
function turnOff(scene: WayScene, keep: Keep, at: Point, found: Leg): Leg {
  const [begin, next, ...on] = found.way.points;
  const first = distance(begin, next);
  const beyond = found.length - first - found.way.source.extra;
  let best = found;
  for (let far = TURN_OFF; far < first; far += TURN_OFF) {
    const bend = lerp(next, begin, far / first);
    const rest = shortestLeg(scene, keep, bend, at, best.length - beyond - far);
    if (rest === null) continue;
    const { points, source } = rest.way;
    best = { way: { points: [points[0], bend, next, ...on], source }, length: beyond + far + rest.length };
  }
  return best;
}

/** Places to turn off a leg are this far apart, mm. */
const TURN_OFF = 2;

/** Nothing is crossed between two points, and lines are kept off. */
function isClear(scene: WayScene, keep: Keep, a: Point, b: Point, at: Point, kerf: Point | null): boolean {
  const length = distance(a, b);
  const off = Math.min(OFF_LINE, length / 4) / length;
  const [from, to] = [lerp(a, b, off), lerp(a, b, 1 - off)];
  if (!wayIsFree(scene.field, from, to)) return false;
  for (const way of scene.ways) {
    for (let i = 1; i < way.length; i++) if (segmentsMeet(from, to, way[i - 1], way[i])) return false;
  }
  if (keep.mm === 0) return true;
  const count = Math.max(1, Math.ceil(length / LOOK));
  for (let i = 0; i <= count; i++) {
    const p = lerp(a, b, i / count);
    const near = Math.min(distance(p, at), kerf === null ? Number.POSITIVE_INFINITY : distance(p, kerf));
    const wanted = Math.min(keep.mm, keep.part * near);
    if (distanceToField(scene.field, p, wanted) < wanted) return false;
  }
  return true;
}

function isOn([x0, y0, x1, y1]: Bounds, [x, y]: Point): boolean {
  return x > x0 && x < x1 && y > y0 && y < y1;
}

/** The places of the board's edge right across from a point. */
function feet([x0, y0, x1, y1]: Bounds, [x, y]: Point): Point[] {
  return [
    [x0, y],
    [x1, y],
    [x, y0],
    [x, y1],
  ];
}

const DIRECTIONS = Array.from({ length: TURNS }, (_, i): Point => {
  const angle = (2 * Math.PI * i) / TURNS;
  return [Math.cos(angle), Math.sin(angle)];
});

/** Where straight ways out of a point come to the edge of the board. */
function rays([x0, y0, x1, y1]: Bounds, [x, y]: Point): Point[] {
  return DIRECTIONS.map(([dx, dy]): Point => {
    const across = dx > 0 ? (x1 - x) / dx : dx < 0 ? (x0 - x) / dx : Number.POSITIVE_INFINITY;
    const down = dy > 0 ? (y1 - y) / dy : dy < 0 ? (y0 - y) / dy : Number.POSITIVE_INFINITY;
    // The side that is met is meant to the last digit.
    return across < down ? [dx > 0 ? x1 : x0, y + across * dy] : [x + down * dx, dy > 0 ? y1 : y0];
  });
}
