import { FAN } from '../box-tree.js';
import type { AreaBoundary } from './area-boundary.js';

/** Squared distance from a point to segment i of the boundary. */
export function squareToSegment(b: AreaBoundary, i: number, px: number, py: number): number {
  const j = b.next[i];
  const ax = b.x[i];
  const ay = b.y[i];
  const ex = b.x[j] - ax;
  const ey = b.y[j] - ay;
  const t = Math.min(1, Math.max(0, ((px - ax) * ex + (py - ay) * ey) / (ex * ex + ey * ey)));
  const dx = ax + t * ex - px;
  const dy = ay + t * ey - py;
  return dx * dx + dy * dy;
}

/**
 * Calls `visit` for the segments nearer than `radius` to a point, in no order that matters; a visit that returns
 * true ends the search.
 */
export function segmentsInDisc(
  b: AreaBoundary,
  px: number,
  py: number,
  radius: number,
  visit: (segment: number) => boolean,
): void {
  const { boxes, items, levels } = b.tree;
  if (items.length === 0 || !(radius > 0)) return;
  const square = radius * radius;
  const stack = [levels.length - 2, levels[levels.length - 1] - 1];
  while (stack.length > 0) {
    const node = stack.pop() as number;
    const depth = stack.pop() as number;
    const k = 4 * node;
    const dx = px < boxes[k] ? boxes[k] - px : px > boxes[k + 2] ? px - boxes[k + 2] : 0;
    const dy = py < boxes[k + 1] ? boxes[k + 1] - py : py > boxes[k + 3] ? py - boxes[k + 3] : 0;
    if (dx * dx + dy * dy >= square) continue;
    if (depth > 0) {
      const start = levels[depth - 1] + (node - levels[depth]) * FAN;
      const end = Math.min(start + FAN, levels[depth]);
      for (let child = start; child < end; child++) stack.push(depth - 1, child);
      continue;
    }
    const item = items[node];
    for (let i = b.runs[item]; i < b.runs[item + 1]; i++) {
      if (squareToSegment(b, i, px, py) < square && visit(i)) return;
    }
  }
}

/** Whether no segment comes nearer than `radius` to a point. */
export function discIsEmpty(b: AreaBoundary, px: number, py: number, radius: number): boolean {
  let empty = true;
  segmentsInDisc(b, px, py, radius, () => {
    empty = false;
    return true;
  });
  return empty;
}
