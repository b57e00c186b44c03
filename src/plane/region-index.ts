import { demandBox, demandMembers, demandPoint, demandStage } from '../arguments.js';
import { type BoxTree, buildBoxTree, firstAbove, searchBoxes } from '../geometry/box-tree.js';
import { curveBounds } from '../geometry/curve-bounds.js';
import { flattenParameters, flattenPoints } from '../geometry/flatten.js';
import type { Bounds, Point } from '../geometry/point.js';
import { edgeCurves } from './edge-curves.js';
import { heightAt } from './locate-face.js';
import { OUTSIDE, type RegionMap } from './region-map.js';

/**
 * An index over a region map: for many questions about places. Plain data, valid for the map that it was built
 * from; build it once, in O(n log n) of the chords of all lines.
 */
export interface RegionIndex {
  /** Chords of all border edges: x0, y0, x1, y1, stride 4; mm. Base edges first, then those of add-ons. */
  readonly chords: Float64Array;
  /** Map edge of each chord; the chord runs as the edge does. */
  readonly chordEdge: Int32Array;
  /** Number of chords of base edges. */
  readonly baseChords: number;
  /** Trees over the chords of base edges and of add-on edges, and over the boxes of regions. */
  readonly baseTree: BoxTree;
  readonly addOnTree: BoxTree;
  readonly regionTree: BoxTree;
}

/** Chords nearer to their curves than this, mm, are as good as the curves for telling sides (half a grid step). */
const CHORD_TOLERANCE = 2 ** -11;

/** Builds the index. */
export function indexRegions(map: RegionMap): RegionIndex {
  demandStage(map, ['region map'], 'indexRegions');
  const chords: number[] = [];
  const chordEdge: number[] = [];
  let baseChords = 0;
  for (const addOns of [false, true]) {
    map.edges.forEach((edge, e) => {
      if (edge.kind !== 'border') return;
      const side = edge.left === OUTSIDE ? edge.right : edge.left;
      if (map.regions[side].addOn !== addOns) return;
      for (const curve of edgeCurves(map, edge)) {
        const xy = flattenPoints(curve, flattenParameters(curve, CHORD_TOLERANCE), CHORD_TOLERANCE);
        for (let i = 0; i + 3 < xy.length; i += 2) {
          chords.push(xy[i], xy[i + 1], xy[i + 2], xy[i + 3]);
          chordEdge.push(e);
        }
      }
    });
    if (!addOns) baseChords = chordEdge.length;
  }
  const flat = Float64Array.from(chords);
  return {
    chords: flat,
    chordEdge: Int32Array.from(chordEdge),
    baseChords,
    baseTree: buildBoxTree(chordBoxes(flat, 0, baseChords)),
    addOnTree: buildBoxTree(chordBoxes(flat, baseChords, chordEdge.length)),
    regionTree: buildBoxTree(Float64Array.from(map.regions.flatMap(({ bounds }) => bounds))),
  };
}

function chordBoxes(chords: Float64Array, from: number, to: number): Float64Array {
  const boxes = new Float64Array(4 * (to - from));
  for (let i = from; i < to; i++) {
    const k = 4 * i;
    boxes[k - 4 * from] = Math.min(chords[k], chords[k + 2]);
    boxes[k - 4 * from + 1] = Math.min(chords[k + 1], chords[k + 3]);
    boxes[k - 4 * from + 2] = Math.max(chords[k], chords[k + 2]);
    boxes[k - 4 * from + 3] = Math.max(chords[k + 1], chords[k + 3]);
  }
  return boxes;
}

/** Index of the region at a point (mm), or OUTSIDE; add-ons, which lie on top, first. O(log n) expected. */
export function findRegionAt(map: RegionMap, index: RegionIndex, point: Point): number {
  demandIndexed(map, index, 'findRegionAt');
  demandPoint(point, 'findRegionAt');
  const over = sideBelow(map, index, index.addOnTree, index.baseChords, point);
  return over === OUTSIDE ? sideBelow(map, index, index.baseTree, 0, point) : over;
}

function demandIndexed(map: RegionMap, index: RegionIndex, call: string): void {
  demandStage(map, ['region map'], call);
  demandMembers(index, ['chords', 'chordEdge'], call, 'an index (from indexRegions)');
}

/** The region below the first chord straight above a point. */
function sideBelow(map: RegionMap, index: RegionIndex, tree: BoxTree, offset: number, [x, y]: Point): number {
  const { chords, chordEdge } = index;
  let lowest = Number.NEGATIVE_INFINITY;
  const chord = firstAbove(tree, x, y, (i, best) => {
    const k = 4 * (i + offset);
    const at = heightAt(chords[k], chords[k + 1], chords[k + 2], chords[k + 3], x);
    if (!(at <= y && at >= best)) return Number.NEGATIVE_INFINITY;
    const slope = (chords[k + 3] - chords[k + 1]) / (chords[k + 2] - chords[k]);
    // Straight below a node: of the chords that go on from it to +x, the lowest is next.
    if (at === best && slope <= lowest) return Number.NEGATIVE_INFINITY;
    lowest = slope;
    return at;
  });
  if (chord < 0) return OUTSIDE;
  const k = 4 * (chord + offset);
  const { left, right } = map.edges[chordEdge[chord + offset]];
  // Below a chord towards −x is its left side (y down).
  return chords[k + 2] < chords[k] ? left : right;
}

/** Indices of the regions whose area or border meets a box (mm), ascending. */
export function findRegionsIn(map: RegionMap, index: RegionIndex, box: Bounds): number[] {
  demandIndexed(map, index, 'findRegionsIn');
  demandBox(box, 'findRegionsIn');
  const found = new Set<number>();
  const [x0, y0, x1, y1] = box;
  for (const [tree, offset] of [
    [index.baseTree, 0],
    [index.addOnTree, index.baseChords],
  ] as const) {
    searchBoxes(tree, x0, y0, x1, y1, (i) => {
      if (meetsBox(index.chords, 4 * (i + offset), box)) {
        const { left, right } = map.edges[index.chordEdge[i + offset]];
        found.add(left);
        found.add(right);
      }
      return false;
    });
    // No line in the box: it lies in one region.
    found.add(sideBelow(map, index, tree, offset, [x0, y0]));
  }
  found.delete(OUTSIDE);
  return [...found].sort((a, b) => a - b);
}

/** Whether a chord meets a box: by the boxes' axes and the chord's normal. */
function meetsBox(chords: Float64Array, k: number, [x0, y0, x1, y1]: Bounds): boolean {
  const dx = chords[k + 2] - chords[k];
  const dy = chords[k + 3] - chords[k + 1];
  const o = dx * (y0 + y1 - 2 * chords[k + 1]) - dy * (x0 + x1 - 2 * chords[k]);
  return Math.abs(o) <= Math.abs(dx) * (y1 - y0) + Math.abs(dy) * (x1 - x0);
}

/** The box around an edge's true line, mm. */
export function edgeBounds(map: RegionMap, edge: number): Bounds {
  const boxes = edgeCurves(map, map.edges[edge]).map((curve) => curveBounds(curve));
  return [
    Math.min(...boxes.map((b) => b[0])),
    Math.min(...boxes.map((b) => b[1])),
    Math.max(...boxes.map((b) => b[2])),
    Math.max(...boxes.map((b) => b[3])),
  ];
}
