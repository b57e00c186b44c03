import { type Bounds, distance, type Point } from '../geometry/point.js';
import { NodeQueue } from './node-queue.js';

/** Distance of the places of the grid, mm; coarser where the board would have more than `MOST` of them. */
const STEP = 1;
const MOST = 60000;

/** A source is taken from a place of the grid that is so near, in steps. */
const NEAR = 1.6;

/** What a route may use. */
export interface RouteScene {
  readonly board: Bounds;
  /** Places to begin at besides the edge of the board, with what it costs to come to them. */
  readonly ends: readonly { readonly at: Point; readonly extra: number }[];
  /** Nothing is in the way between two points. */
  isClear(a: Point, b: Point): boolean;
}

/** A route: from an end, by its place among the ends, or from the edge of the board (-1). */
export interface Route {
  readonly points: readonly Point[];
  readonly end: number;
}

/**
 * A route through waste to a place, round as many corners as it takes: Dijkstra (1959) over a grid of places and their
 * eight neighbours, then straightened as far as nothing is in the way. Null where none is found, as where the waste is
 * narrower than the grid.
 */
export function findRoute(scene: RouteScene, at: Point): Route | null {
  const { board, ends, isClear } = scene;
  const [x0, y0, x1, y1] = board;
  const step = Math.max(STEP, Math.sqrt(((x1 - x0) * (y1 - y0)) / MOST));
  const columns = Math.floor((x1 - x0) / step) + 1;
  const rows = Math.floor((y1 - y0) / step) + 1;
  const placeOf = (node: number): Point => [
    x0 + (node % columns) * step,
    y0 + Math.floor(node / columns) * step,
  ];
  const cost = new Float64Array(columns * rows).fill(Number.POSITIVE_INFINITY);
  const from = new Int32Array(columns * rows).fill(-1);
  const queue = new NodeQueue();
  const reach = (node: number, by: number, length: number): void => {
    if (length >= cost[node]) return;
    cost[node] = length;
    from[node] = by;
    queue.push(length, node);
  };
  const around = (p: Point, far: number): number[] => {
    const [i, j] = [(p[0] - x0) / step, (p[1] - y0) / step];
    const nodes: number[] = [];
    for (let row = Math.max(0, Math.ceil(j - far)); row <= Math.min(rows - 1, j + far); row++) {
      for (let column = Math.max(0, Math.ceil(i - far)); column <= Math.min(columns - 1, i + far); column++) {
        nodes.push(row * columns + column);
      }
    }
    return nodes;
  };
  const endsAt = new Map<number, number[]>();
  ends.forEach(({ at: end }, e) => {
    for (const node of around(end, NEAR)) endsAt.set(node, [...(endsAt.get(node) ?? []), e]);
  });
  for (const node of around(at, 2 * NEAR)) {
    const place = placeOf(node);
    if (distance(place, at) > 0 && isClear(place, at)) reach(node, -1, distance(place, at));
  }
  let best: { length: number; node: number; begin: Point; end: number } | null = null;
  const done = new Uint8Array(columns * rows);
  for (let node = queue.pop(); node !== null; node = queue.pop()) {
    if (best !== null && cost[node] >= best.length) break;
    if (done[node] === 1) continue;
    done[node] = 1;
    const place = placeOf(node);
    for (const { begin, end, extra } of beginnings(scene, place, step, endsAt.get(node) ?? [])) {
      const length = cost[node] + distance(begin, place) + extra;
      const isNew = best === null || length < best.length;
      if (isNew && (distance(begin, place) === 0 || isClear(begin, place)))
        best = { length, node, begin, end };
    }
    for (const next of around(place, 1)) {
      const there = placeOf(next);
      const length = cost[node] + distance(place, there);
      if (next !== node && length < cost[next] && isClear(there, place)) reach(next, node, length);
    }
  }
  if (best === null) return null;
  const places: Point[] = [best.begin];
  for (let node = best.node; node >= 0; node = from[node]) places.push(placeOf(node));
  return { points: straightened([...places, at], isClear), end: best.end };
}

/** What a place may be come to from: ends near by, and the edge of the board. */
function* beginnings(
  { ends, board: [x0, y0, x1, y1] }: RouteScene,
  [x, y]: Point,
  step: number,
  near: readonly number[],
): Generator<{ begin: Point; end: number; extra: number }> {
  for (const end of near) yield { begin: ends[end].at, end, extra: ends[end].extra };
  const feet: Point[] = [
    [x0, y],
    [x1, y],
    [x, y0],
    [x, y1],
  ];
  for (const begin of feet) if (distance(begin, [x, y]) <= step) yield { begin, end: -1, extra: 0 };
}

/** Leaves out the corners between which nothing is in the way. */
function straightened(points: readonly Point[], isClear: RouteScene['isClear']): Point[] {
  const kept: Point[] = [points[0]];
  for (let i = 0; i < points.length - 1; ) {
    let next = points.length - 1;
    while (next > i + 1 && !isClear(points[i], points[next])) next--;
    kept.push(points[next]);
    i = next;
  }
  return kept.filter((p, i) => i === 0 || distance(p, kept[i - 1]) > 0);
}
