import { type BoxTree, firstAbove, searchBoxes } from '../box-tree.js';
import type { Point } from '../point.js';
import type { FlatLoops } from './area-boundary.js';
import { treeOfRuns } from './segment-runs.js';

/** How loops lie in each other. */
export interface Nesting {
  /** 1 where the loop bounds a hole (an odd number of loops around it). */
  readonly hole: Uint8Array;
  /** The outline of each loop: itself, or for a hole the innermost loop around it. */
  readonly outline: Int32Array;
}

/** The loops with their tree, while the innermost loop around each is found. */
interface Search {
  readonly flat: FlatLoops;
  readonly area: Float64Array;
  readonly tree: BoxTree;
  readonly runs: Int32Array;
  /** The innermost loop around each: −1 none, −2 not known yet, −3 being looked for. */
  readonly parent: Int32Array;
}

const NONE = -1;
const UNKNOWN = -2;
const OPEN = -3;

/**
 * Nesting by the even-odd rule. From the middle of each loop's longest segment a ray goes to −y; the first other loop
 * that it meets is either around or has the same loop around it. Loops must not cross each other. `area` is
 * the signed area of each loop.
 */
export function nestLoops(flat: FlatLoops, area: Float64Array): Nesting {
  const count = flat.first.length - 1;
  const hole = new Uint8Array(count);
  const outline = Int32Array.from({ length: count }, (_, k) => k);
  if (count < 2) return { hole, outline };
  const parent = new Int32Array(count).fill(UNKNOWN);
  const search: Search = { flat, area, ...treeOfRuns(flat), parent };
  for (let k = 0; k < count; k++) parentOf(search, k);
  const depth = depths(parent);
  for (let k = 0; k < count; k++) {
    hole[k] = depth[k] % 2;
    if (hole[k] === 1) outline[k] = parent[k];
  }
  return { hole, outline };
}

/** How many loops lie around each. */
function depths(parent: Int32Array): Int32Array {
  const depth = new Int32Array(parent.length).fill(UNKNOWN);
  for (let k = 0; k < parent.length; k++) {
    const chain: number[] = [];
    let at = k;
    for (; at !== NONE && depth[at] === UNKNOWN; at = parent[at]) chain.push(at);
    let next = at === NONE ? 0 : depth[at] + 1;
    while (chain.length > 0) depth[chain.pop() as number] = next++;
  }
  return depth;
}

/**
 * Finds the innermost loop around a loop, by way of the loops above it. What is around a loop is what is around the one
 * above, perhaps with that one itself, and without the loop in question. Where that leads back to a loop (its lower
 * side looks up at what it holds), only counting tells.
 */
function parentOf(s: Search, loop: number): void {
  const chain: number[] = [];
  let answer = NONE;
  for (let k = loop; ; ) {
    if (s.parent[k] === OPEN) s.parent[k] = smallestAround(s, k);
    if (s.parent[k] !== UNKNOWN) {
      answer = s.parent[k];
      break;
    }
    s.parent[k] = OPEN;
    chain.push(k);
    const above = loopAbove(s, k);
    if (above.loop < 0 || above.around) {
      answer = above.loop;
      break;
    }
    k = above.loop;
  }
  for (const c of chain.reverse()) {
    if (s.parent[c] === OPEN) s.parent[c] = answer === c ? smallestAround(s, c) : answer;
    answer = s.parent[c];
  }
}

/** The first other loop straight above a loop's point, and whether it lies around the point. */
function loopAbove({ flat, area, tree, runs }: Search, k: number): { loop: number; around: boolean } {
  const { x, loop, first } = flat;
  if (first[k + 1] === first[k]) return { loop: NONE, around: false };
  const [px, py] = middleOfLongest(flat, k);
  let nearest = NONE;
  firstAbove(tree, px, py, (item, best) => {
    let most = best;
    for (let i = runs[item]; i < runs[item + 1]; i++) {
      const at = loop[i] === k ? Number.NEGATIVE_INFINITY : heightAt(flat, i, px);
      if (at < py && at > most) {
        most = at;
        nearest = i;
      }
    }
    return most;
  });
  if (nearest < 0) return { loop: NONE, around: false };
  // A loop of positive area has its inside to the right of its walk: below a segment that goes to +x.
  const forward = x[endOf(flat, nearest)] > x[nearest];
  return { loop: loop[nearest], around: forward === area[loop[nearest]] > 0 };
}

/** The smallest loop that a ray from a loop's point crosses an odd number of times. */
function smallestAround({ flat, area, tree, runs }: Search, k: number): number {
  const odd = new Set<number>();
  const [px, py] = middleOfLongest(flat, k);
  searchBoxes(tree, px, Number.NEGATIVE_INFINITY, px, py, (item) => {
    for (let i = runs[item]; i < runs[item + 1]; i++) {
      if (flat.loop[i] === k || !(heightAt(flat, i, px) < py)) continue;
      if (!odd.delete(flat.loop[i])) odd.add(flat.loop[i]);
    }
    return false;
  });
  return [...odd].reduce(
    (best, j) => (best < 0 || Math.abs(area[j]) < Math.abs(area[best]) ? j : best),
    NONE,
  );
}

/** y of a segment at px, or +∞ where it does not pass there (half open, so that a vertex counts once). */
function heightAt(flat: FlatLoops, i: number, px: number): number {
  const { x, y } = flat;
  const j = endOf(flat, i);
  if (x[i] <= px === x[j] <= px) return Number.POSITIVE_INFINITY;
  return y[i] + ((px - x[i]) / (x[j] - x[i])) * (y[j] - y[i]);
}

function endOf({ loop, first }: FlatLoops, i: number): number {
  return i + 1 < first[loop[i] + 1] ? i + 1 : first[loop[i]];
}

/** The middle of the longest segment of a loop. */
export function middleOfLongest({ x, y, first }: Pick<FlatLoops, 'x' | 'y' | 'first'>, k: number): Point {
  let best = -1;
  let at: Point = [0, 0];
  for (let i = first[k]; i < first[k + 1]; i++) {
    const j = i + 1 < first[k + 1] ? i + 1 : first[k];
    const square = (x[j] - x[i]) ** 2 + (y[j] - y[i]) ** 2;
    if (square <= best) continue;
    best = square;
    at = [(x[i] + x[j]) / 2, (y[i] + y[j]) / 2];
  }
  return at;
}
