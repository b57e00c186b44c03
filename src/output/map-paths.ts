import { flattenParameters, flattenPoints } from '../geometry/flatten.js';
import { pathData } from '../geometry/path-data.js';
import { edgeCurves, loopCurves } from '../plane/edge-curves.js';
import type { LoopStep, MapEdge, Region, RegionMap } from '../plane/region-map.js';

/** Path data of a region in mm, for the even-odd rule: outline first, then its holes, curves kept. */
export function regionPath(map: RegionMap, region: Region): string {
  return pathData(region.loops.map((loop) => loopCurves(map, loop)));
}

/** Path data of one edge, mm. */
export function edgePath(map: RegionMap, edge: number): string {
  return pathData([edgeCurves(map, map.edges[edge])]);
}

/** Path data of a run of edges, each starting where the one before ends; a run back to its start is closed. */
export function chainPath(map: RegionMap, steps: readonly LoopStep[]): string {
  return pathData([loopCurves(map, steps)]);
}

/** Edges as straight segments within `tolerance` mm of the true lines: x0, y0, x1, y1 per segment. */
export function flattenedEdges(map: RegionMap, edges: readonly MapEdge[], tolerance: number): Float64Array {
  const ends: number[] = [];
  for (const edge of edges) {
    for (const curve of edgeCurves(map, edge)) {
      const points = flattenPoints(curve, flattenParameters(curve, tolerance), tolerance);
      for (let i = 0; i + 3 < points.length; i += 2) {
        ends.push(points[i], points[i + 1], points[i + 2], points[i + 3]);
      }
    }
  }
  return Float64Array.from(ends);
}
