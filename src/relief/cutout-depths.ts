import type { DepthMark } from './depth-mark.js';
import type { Cluster } from './relief.js';
import { findSurrounds, type NeighbourLists } from './surrounds.js';

/** A cutout that goes right through. */
export const THROUGH = Number.POSITIVE_INFINITY;

/**
 * How many sheets each region with a relative number goes down from the face of its host: its own number,
 * and those of the regions of its group that enclose it alone (a `-1` in a `-1` is 2 down). THROUGH for
 * openings and what lies in them; 0 for all other regions.
 */
export function cutoutDepths(
  marks: readonly (DepthMark | null)[],
  clusters: readonly Cluster[],
  neighbours: NeighbourLists,
): Float64Array {
  const down = new Float64Array(marks.length);
  const nestable = clusters.some((cluster) => cluster.regions.length > 1);
  const surround = nestable ? findSurrounds(neighbours) : null;
  const clusterOf = new Int32Array(marks.length).fill(-1);
  clusters.forEach((cluster, id) => {
    for (const region of cluster.regions) clusterOf[region] = id;
  });
  for (const cluster of clusters) {
    for (const region of cluster.regions) {
      const id = clusterOf[region];
      for (let at = region; at >= 0 && clusterOf[at] === id; at = surround?.[at] ?? -1) {
        const mark = marks[at];
        down[region] = down[region] + (mark?.kind === 'recess' ? mark.down : THROUGH);
      }
    }
  }
  return down;
}
