import { FAN } from '../box-tree.js';
import type { AreaBoundary } from './area-boundary.js';

/** Most boxes about a run that are gone through one by one; from more a search of the tree picks better. */
const MOST_LEAVES = 32;

/**
 * Leaves of the tree less than `limit` mm from the box of a run of segments, the nearest to its middle first; null where
 * there are more than 32.
 */
export function leavesNear(b: AreaBoundary, item: number, limit: number): number[] | null {
  const { boxes, levels } = b.tree;
  let [x0, y0] = [b.x[b.runs[item]], b.y[b.runs[item]]];
  let [x1, y1] = [x0, y0];
  for (let i = b.runs[item]; i < b.runs[item + 1]; i++) {
    const j = b.next[i];
    x0 = Math.min(x0, b.x[j]);
    x1 = Math.max(x1, b.x[j]);
    y0 = Math.min(y0, b.y[j]);
    y1 = Math.max(y1, b.y[j]);
  }
  const [cx, cy] = [(x0 + x1) / 2, (y0 + y1) / 2];
  const leaves: number[] = [];
  const squares: number[] = [];
  const stack = [levels.length - 2, levels[levels.length - 1] - 1];
  while (stack.length > 0) {
    const node = stack.pop() as number;
    const depth = stack.pop() as number;
    const k = 4 * node;
    const dx = Math.max(boxes[k] - x1, x0 - boxes[k + 2], 0);
    const dy = Math.max(boxes[k + 1] - y1, y0 - boxes[k + 3], 0);
    if (dx * dx + dy * dy >= limit * limit) continue;
    if (depth > 0) {
      const start = levels[depth - 1] + (node - levels[depth]) * FAN;
      const end = Math.min(start + FAN, levels[depth]);
      for (let child = start; child < end; child++) stack.push(depth - 1, child);
      continue;
    }
    if (leaves.length === MOST_LEAVES) return null;
    const ax = Math.max(boxes[k] - cx, cx - boxes[k + 2], 0);
    const ay = Math.max(boxes[k + 1] - cy, cy - boxes[k + 3], 0);
    const square = ax * ax + ay * ay;
    let place = leaves.length;
    for (; place > 0 && squares[place - 1] > square; place--) {
      squares[place] = squares[place - 1];
      leaves[place] = leaves[place - 1];
    }
    squares[place] = square;
    leaves[place] = node;
  }
  return leaves;
}
