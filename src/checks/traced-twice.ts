import { type BoxTree, buildBoxTree, searchBoxes } from '../geometry/box-tree.js';
import { pointAt } from '../geometry/curve.js';
import { curveBounds } from '../geometry/curve-bounds.js';
import { nearestOnCurve } from '../geometry/nearest-on-curve.js';
import { distance, type Point } from '../geometry/point.js';
import type { CurvePiece, RegionMap } from '../plane/region-map.js';

/** Distance of the places on a line that are looked at, mm, and the most of them on one curve. */
const STEP = 0.5;
const MOST_LOOKS = 256;

/** Shortest second run that is told, in welds: shorter ones are how lines meet. */
const SHORTEST = 10;

/** Part of a curve's parameters that counts as all of it. */
const FULL = 1 - 1e-3;

/** What one shape draws a second time. */
export interface SecondRun {
  readonly shape: number;
  /** Where, on the line; in the middle of what was found. */
  readonly at: Point;
  /** mm, to the step of the looks. */
  readonly length: number;
}

interface Search {
  readonly map: RegionMap;
  /** Parameter ranges of each curve that are part of an edge. */
  readonly drawn: readonly (readonly [number, number][])[];
  /** Curves that are not in edges as a whole, and the tree of their boxes. */
  readonly open: readonly number[];
  readonly tree: BoxTree;
}

/**
 * Stretches of line that one shape draws more than once: places on its edges that another curve of the same shape passes
 * within the weld, with a part that is in no edge itself. By shape. O(n log n).
 */
export function tracedTwice(map: RegionMap): SecondRun[] {
  const drawn = partsDrawn(map);
  // A second run is in no edge: what is drawn in full needs no look.
  const open = drawn.flatMap((parts, k) =>
    parts.reduce((sum, [from, to]) => sum + to - from, 0) < FULL ? [k] : [],
  );
  const shapes = new Set(open.map((k) => map.curveShapes[k]));
  const boxes = new Float64Array(4 * open.length);
  open.forEach((k, item) => {
    boxes.set(curveBounds(map.curves[k]), 4 * item);
  });
  const search: Search = { map, drawn, open, tree: buildBoxTree(boxes) };
  const found = new Map<number, { at: Point; length: number }[]>();
  for (const piece of map.edges.flatMap(({ pieces }) => pieces)) {
    const shape = piece.curve < 0 ? -1 : map.curveShapes[piece.curve];
    if (shape < 0 || !shapes.has(shape)) continue;
    const hits = looksAlong(map, piece).filter(({ at }) => passesHere(search, piece.curve, at));
    if (hits.length > 0) found.set(shape, [...(found.get(shape) ?? []), ...hits]);
  }
  return [...found]
    .map(([shape, hits]) => ({
      shape,
      at: hits[hits.length >> 1].at,
      length: hits.reduce((sum, hit) => sum + hit.length, 0),
    }))
    .filter(({ length }) => length >= SHORTEST * map.options.weld)
    .sort((p, q) => p.shape - q.shape);
}

/** Places along a piece, and the length that each stands for. */
function looksAlong({ curves }: RegionMap, { curve, t0, t1 }: CurvePiece): { at: Point; length: number }[] {
  const at = (share: number): Point => pointAt(curves[curve], t0 + share * (t1 - t0));
  const rough = distance(at(0), at(0.5)) + distance(at(0.5), at(1));
  const count = Math.min(MOST_LOOKS, Math.max(1, Math.ceil(rough / STEP)));
  return Array.from({ length: count }, (_, k) => ({
    at: at((k + 0.5) / count),
    length: distance(at(k / count), at((k + 1) / count)),
  }));
}

/** Parameter ranges of each curve that are part of an edge. */
function partsDrawn({ curves, edges }: RegionMap): [number, number][][] {
  const parts: [number, number][][] = curves.map(() => []);
  for (const { pieces } of edges) {
    for (const { curve, t0, t1 } of pieces) {
      if (curve >= 0) parts[curve].push([Math.min(t0, t1), Math.max(t0, t1)]);
    }
  }
  return parts;
}

/** Whether another curve of the same shape runs through a place, not with its end, and is no edge there. */
function passesHere({ map, drawn, open, tree }: Search, own: number, [x, y]: Point): boolean {
  const { curves, curveShapes } = map;
  const { weld } = map.options;
  let met = false;
  searchBoxes(tree, x - weld, y - weld, x + weld, y + weld, (item) => {
    const k = open[item];
    if (k === own || curveShapes[k] !== curveShapes[own]) return false;
    const { t, distance: off } = nearestOnCurve(curves[k], [x, y]);
    met = off <= weld && t > 0 && t < 1 && !drawn[k].some(([from, to]) => from <= t && t <= to);
    return met;
  });
  return met;
}
