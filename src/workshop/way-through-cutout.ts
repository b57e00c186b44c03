import { distance, lerp, type Point } from '../geometry/point.js';
import type { SegmentField } from '../geometry/segment-field.js';
import { OUTSIDE, type RegionMap } from '../plane/region-map.js';
import { gatherChords, isInside } from './clearance.js';
import { type LineGraph, someLineAt } from './line-graph.js';
import type { LineShapes } from './line-shapes.js';
import { acrossEdge } from './standing-stock.js';
import { fieldOf, type WasteBorder } from './waste-border.js';

/** Waste inside the outline of a picture that is to be sawn out, and touches the waste around. */
export interface Cutout {
  /** All lines around it. */
  readonly lines: readonly number[];
}

/** The waste at a node, with all that hangs together with it; null: there is none. */
export function cutoutAt(
  map: RegionMap,
  graph: LineGraph,
  node: number,
  isWaste: (region: number) => boolean,
): Cutout | null {
  const pending: number[] = [];
  someLineAt(graph, node, (e) => {
    pending.push(map.edges[e].left, map.edges[e].right);
    return false;
  });
  const regions = new Set<number>();
  for (let r = pending.pop(); r !== undefined; r = pending.pop()) {
    if (r === OUTSIDE || regions.has(r) || !isWaste(r)) continue;
    regions.add(r);
    for (const { edge } of map.regions[r].loops.flat()) pending.push(acrossEdge(map, edge, r));
  }
  if (regions.size === 0) return null;
  const lines = [...regions].flatMap((r) =>
    map.regions[r].loops.flat().flatMap(({ edge }) => {
      const other = acrossEdge(map, edge, r);
      return other !== OUTSIDE && regions.has(other) ? [] : [edge];
    }),
  );
  return { lines };
}

/** What a way may not cross that goes through the waste around and through a cutout. */
export function openField({ lines }: WasteBorder, cutout: Cutout, shapes: LineShapes): SegmentField {
  const own = new Set(cutout.lines);
  const border = new Set(lines);
  return fieldOf(
    [...lines.filter((e) => !own.has(e)), ...cutout.lines.filter((e) => !border.has(e))],
    shapes,
  );
}

/** The direction from a place inside an outline is looked at this far off it, mm: there are lines at the place itself. */
const BESIDE = 0.05;

/** The direction from a place to a point goes into the cutout, and not into the picture beside it. */
export function leadsIntoCutout(cutout: Cutout, at: Point, towards: Point, shapes: LineShapes): boolean {
  const far = distance(at, towards);
  if (far === 0) return false;
  return isInside(gatherChords(shapes, cutout.lines), lerp(at, towards, Math.min(0.5, BESIDE / far)));
}

/** The part of a way that lies in the waste around: up to the first line of the cutout that it crosses. */
export function upToLines(
  points: readonly Point[],
  { lines }: WasteBorder,
  cutout: Cutout,
  shapes: LineShapes,
): readonly Point[] {
  const border = new Set(lines);
  const chords = cutout.lines.filter((e) => border.has(e)).map((e) => shapes.chords(e));
  for (let i = 1; i < points.length; i++) {
    const first = chords
      .flatMap((xy) => crossings(points[i - 1], points[i], xy))
      .reduce((least, t) => Math.min(least, t), Number.POSITIVE_INFINITY);
    if (Number.isFinite(first)) return [...points.slice(0, i), lerp(points[i - 1], points[i], first)];
  }
  return points;
}

/** Where a leg crosses chords, as parts of it. */
function crossings(a: Point, b: Point, xy: Float64Array): number[] {
  const found: number[] = [];
  for (let k = 0; k + 3 < xy.length; k += 2) {
    const [c, d]: [Point, Point] = [
      [xy[k], xy[k + 1]],
      [xy[k + 2], xy[k + 3]],
    ];
    const cross = (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0]);
    if (cross === 0 || distance(c, d) === 0) continue;
    const t = ((c[0] - a[0]) * (d[1] - c[1]) - (c[1] - a[1]) * (d[0] - c[0])) / cross;
    const u = ((c[0] - a[0]) * (b[1] - a[1]) - (c[1] - a[1]) * (b[0] - a[0])) / cross;
    if (t > 0 && t < 1 && u >= 0 && u <= 1) found.push(t);
  }
  return found;
}
