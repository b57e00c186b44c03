import { type Bounds, boundsOf, EMPTY_BOUNDS, joinBounds, type Point } from '../geometry/point.js';
import { OUTSIDE, type RegionMap } from '../plane/region-map.js';
import { type Area, splitByNodes } from './areas.js';
import type { CutStep, Freed } from './cut-plan.js';
import type { LineShapes } from './line-shapes.js';
import type { SheetSet } from './sheet-sets.js';

/** Something to be sawn in one setting: what a step is made from. */
export interface Target {
  readonly kind: CutStep['kind'];
  readonly frees: Freed;
  /** The sheets in which it comes free. */
  readonly sheets: SheetSet;
  /** What comes free with it; for a block: the regions that its line goes around from outside. */
  readonly regions: readonly number[];
  /** All lines that must be open for it to come free. */
  readonly border: readonly number[];
  /** The lines of its own step; those that are sawn already are passed over. */
  readonly lines: readonly number[];
  /** A box around it: what lies inside a target has a smaller one. */
  readonly bounds: Bounds;
  /** A point to walk to. */
  readonly at: Point;
  /** mm² */
  readonly area: number;
}

/** The step that saws a cutout free. */
export function cutoutTarget(
  map: RegionMap,
  area: Area,
  sheets: SheetSet,
  lines: readonly number[] = area.border,
): Target {
  return {
    kind: 'cutout',
    frees: 'waste',
    sheets,
    regions: area.regions,
    border: area.border,
    lines,
    ...extent(map, area.regions),
  };
}

/** What comes free by itself once the lines around it are sawn by other steps. */
export function watchedWaste(map: RegionMap, area: Area, sheets: SheetSet): Target {
  return cutoutTarget(map, area, sheets, []);
}

/**
 * The steps that saw a body free: one for each line around it. Lines inside its outline free a block, which is
 * what stands inside the body.
 */
export function outlineTargets(map: RegionMap, shapes: LineShapes, area: Area, sheets: SheetSet): Target[] {
  const { regions, border } = area;
  const runs = splitByNodes(map, border);
  const piece = { kind: 'outline', frees: 'piece', sheets, regions, border } as const;
  if (runs.length === 1) return [{ ...piece, lines: border, ...extent(map, regions) }];
  const boxes = runs.map((run) => runBounds(shapes, run));
  const outer = boxes.reduce((best, box, i) => (boxSize(box) > boxSize(boxes[best]) ? i : best), 0);
  const holes = runs.flatMap((run, i) =>
    i === outer ? [] : [blockTarget(map, shapes, regions, sheets, run, boxes[i])],
  );
  return [...holes, { ...piece, lines: runs[outer], ...extent(map, regions) }];
}

/** The step along a line around a block that stands inside the regions `around`. */
export function blockTarget(
  map: RegionMap,
  shapes: LineShapes,
  around: readonly number[],
  sheets: SheetSet,
  lines: readonly number[],
  bounds: Bounds = runBounds(shapes, lines),
): Target {
  const { from } = map.edges[lines[0]];
  const at = map.nodes[from].at;
  const area = boxSize(bounds);
  return { kind: 'outline', frees: 'block', sheets, regions: around, border: lines, lines, bounds, at, area };
}

/** The step along veins that hang together. */
export function veinTarget(
  map: RegionMap,
  shapes: LineShapes,
  sheets: SheetSet,
  lines: readonly number[],
): Target {
  const at = map.nodes[map.edges[lines[0]].from].at;
  const bounds = runBounds(shapes, lines);
  return { kind: 'vein', frees: 'nothing', sheets, regions: [], border: lines, lines, bounds, at, area: 0 };
}

/** Area of a box, mm²; 0 for the empty one. */
export function boxSize([x0, y0, x1, y1]: Bounds): number {
  return x1 < x0 ? 0 : (x1 - x0) * (y1 - y0);
}

/** The box around lines. */
export function runBounds(shapes: LineShapes, edges: readonly number[]): Bounds {
  return edges.reduce((box, e) => joinBounds(box, chordBounds(shapes.chords(e))), EMPTY_BOUNDS);
}

function chordBounds(xy: Float64Array): Bounds {
  return boundsOf(Array.from({ length: xy.length / 2 }, (_, i): Point => [xy[2 * i], xy[2 * i + 1]]));
}

function extent(map: RegionMap, regions: readonly number[]): Pick<Target, 'bounds' | 'at' | 'area'> {
  const all = regions.filter((r) => r !== OUTSIDE).map((r) => map.regions[r]);
  const largest = all.reduce((best, region) => (region.area > best.area ? region : best));
  return {
    bounds: all.reduce((box, region) => joinBounds(box, region.bounds), EMPTY_BOUNDS),
    at: largest.labelPoint,
    area: all.reduce((sum, region) => sum + region.area, 0),
  };
}
