import { searchBoxes } from '../box-tree.js';
import type { FlatLoops } from './area-boundary.js';
import { treeOfRuns } from './segment-runs.js';

/** How loops lie in each other. */
export interface Nesting {
  /** 1 where the loop bounds a hole (an odd number of loops around it). */
  readonly hole: Uint8Array;
  /** The outline of each loop: itself, or for a hole the innermost loop around it. */
  readonly outline: Int32Array;
}

/**
 * Nesting by the even-odd rule: from the middle of each loop's longest segment a ray goes to −y; the loops that
 * it crosses an odd number of times lie around. Loops must not cross each other.
 */
export function nestLoops(flat: FlatLoops): Nesting {
  const { first } = flat;
  const count = first.length - 1;
  const hole = new Uint8Array(count);
  const outline = Int32Array.from({ length: count }, (_, k) => k);
  if (count < 2) return { hole, outline };
  const around = loopsAround(flat);
  for (let k = 0; k < count; k++) {
    hole[k] = around[k].length % 2;
    if (hole[k] === 0) continue;
    // The loops around a loop are nested themselves: the innermost has the most around it.
    outline[k] = around[k].reduce((a, b) => (around[b].length > around[a].length ? b : a));
  }
  return { hole, outline };
}

/** For each loop the loops around it. */
function loopsAround(flat: FlatLoops): number[][] {
  const { x, y, loop, first } = flat;
  const { tree, runs } = treeOfRuns(flat);
  const around: number[][] = [];
  const end = (i: number): number => (i + 1 < first[loop[i] + 1] ? i + 1 : first[loop[i]]);
  for (let k = 0; k + 1 < first.length; k++) {
    const odd = new Set<number>();
    around.push([]);
    if (first[k + 1] === first[k]) continue;
    const [px, py] = middleOfLongest(flat, k);
    searchBoxes(tree, px, Number.NEGATIVE_INFINITY, px, py, (item) => {
      for (let i = runs[item]; i < runs[item + 1]; i++) {
        const j = end(i);
        if (loop[i] === k || x[i] <= px === x[j] <= px) continue;
        const at = y[i] + ((px - x[i]) / (x[j] - x[i])) * (y[j] - y[i]);
        if (at < py && !odd.delete(loop[i])) odd.add(loop[i]);
      }
      return false;
    });
    around[k] = [...odd].sort((a, b) => a - b);
  }
  return around;
}

/** The middle of the longest segment of a loop. */
export function middleOfLongest(
  { x, y, first }: Pick<FlatLoops, 'x' | 'y' | 'first'>,
  k: number,
): [number, number] {
  let best = -1;
  let [px, py] = [0, 0];
  for (let i = first[k]; i < first[k + 1]; i++) {
    const j = i + 1 < first[k + 1] ? i + 1 : first[k];
    const square = (x[j] - x[i]) ** 2 + (y[j] - y[i]) ** 2;
    if (square <= best) continue;
    best = square;
    [px, py] = [(x[i] + x[j]) / 2, (y[i] + y[j]) / 2];
  }
  return [px, py];
}
