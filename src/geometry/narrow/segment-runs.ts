import { type BoxTree, buildBoxTree } from '../box-tree.js';
import type { FlatLoops } from './area-boundary.js';

/** Segments in one box of the tree: neighbours on the boundary lie together, so a box of few is small. */
const RUN = 4;

/** Runs of neighbouring segments of one loop, and the tree of their boxes. */
export interface SegmentRuns {
  readonly tree: BoxTree;
  /** Item k of the tree holds segments `runs[k] … runs[k + 1] − 1`. */
  readonly runs: Int32Array;
}

/** Packs the segments of all loops; segment i runs to vertex i + 1 or back to the first of its loop. */
export function treeOfRuns({ x, y, first }: FlatLoops): SegmentRuns {
  const starts: number[] = [];
  for (let k = 0; k + 1 < first.length; k++) {
    for (let i = first[k]; i < first[k + 1]; i += RUN) starts.push(i);
  }
  const runs = Int32Array.from([...starts, x.length]);
  const boxes = new Float64Array(4 * starts.length);
  let loop = 0;
  starts.forEach((start, item) => {
    while (start >= first[loop + 1]) loop++;
    let [x0, x1, y0, y1] = [x[start], x[start], y[start], y[start]];
    for (let i = start + 1; i <= runs[item + 1]; i++) {
      const v = i < first[loop + 1] ? i : first[loop];
      x0 = Math.min(x0, x[v]);
      x1 = Math.max(x1, x[v]);
      y0 = Math.min(y0, y[v]);
      y1 = Math.max(y1, y[v]);
    }
    boxes.set([x0, y0, x1, y1], 4 * item);
  });
  return { tree: buildBoxTree(boxes), runs };
}
