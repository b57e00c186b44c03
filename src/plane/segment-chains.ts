import type { GridLines } from './grid-lines.js';
import type { Scratch } from './scratch.js';
import { inBlocks } from './steps.js';

/**
 * Chains: segments that run on one after the other in the same quadrant. The search for crossings takes a chain as
 * a whole: its box is that of its two ends, and its segments need not be tested against each other. They don't cross,
 * and what of a monotone path lies in a pixel is one piece: once it has left the pixel of one of its vertices, it
 * does not come back, so no segment meets that pixel but with an end in it. Chain c holds the segments
 * `first[c] … end[c] - 1` (named by their first vertices); a segment that runs on with no other is a chain of its
 * own. Segments of no length are in none.
 */
export interface SegmentChains {
  readonly first: Int32Array;
  readonly end: Int32Array;
}

/** Segments in a chain at most: two chains whose boxes meet are tested segment by segment. */
const MOST = 16;

/** The quadrant that segment k runs into, 0 to 3. */
export function quadrantOf(x: Float64Array, y: Float64Array, k: number): number {
  return (x[k + 1] > x[k] ? 1 : 0) + (y[k + 1] > y[k] ? 2 : 0);
}

/** The chains of the lines, none larger than `most` grid steps along an axis unless it is one segment. */
export function* findChains(
  lines: GridLines,
  most: number,
  scratch: Scratch,
): Generator<number, SegmentChains> {
  const segments = Math.max(0, lines.x.length - 1);
  const first = scratch.int32(segments);
  const end = scratch.int32(segments);
  let count = 0;
  yield* inBlocks(segments, (from, to) => {
    count = chainsOfBlock(lines, most, from, to, first, end, count);
  });
  return { first: first.subarray(0, count), end: end.subarray(0, count) };
}

/** The chains of segments `from … to - 1`; `count` are known already. Returns how many are known then. */
function chainsOfBlock(
  { x, y, last }: GridLines,
  most: number,
  from: number,
  to: number,
  first: Int32Array,
  end: Int32Array,
  count: number,
): number {
  let c = count - 1;
  let open = -1;
  for (let k = from; k < to; k++) {
    if (last[k] === 1 || (x[k] === x[k + 1] && y[k] === y[k + 1])) {
      open = -1;
      continue;
    }
    const quadrant = quadrantOf(x, y, k);
    if (quadrant !== open || k - first[c] === MOST || isFar(x, y, first[c], k + 1, most)) {
      first[++c] = k;
      open = quadrant;
    }
    end[c] = k + 1;
  }
  return c + 1;
}

function isFar(x: Float64Array, y: Float64Array, a: number, b: number, most: number): boolean {
  const dx = x[b] - x[a];
  const dy = y[b] - y[a];
  return dx > most || dx < -most || dy > most || dy < -most;
}
