import type { LineSet } from './line-set.js';

/** Pairs of segments that are looked at: a few ms. */
const PAIRS = 1 << 20;

/** Segments that are taken as a sample, at least and at most. */
const FEWEST = 16;
const MOST = 256;

/**
 * About how often the segments of some lines cross each other, from a sample: every so many-th segment against all
 * others. Touching does not count, nor does lying on each other. Good for telling thousands from millions, at a cost
 * that is small beside that of arranging; where few segments carry all crossings, a sample may miss them.
 */
export function estimateCrossings({ coords, starts }: LineSet): number {
  const segments = starts[starts.length - 1] - (starts.length - 1);
  if (segments < 2) return 0;
  const sample = Math.min(segments, MOST, Math.max(FEWEST, Math.floor(PAIRS / segments)));
  const step = segments / sample;
  let found = 0;
  let taken = 0;
  let passed = 0;
  for (let line = 1; line < starts.length && taken < sample; line++) {
    const inLine = Math.max(0, starts[line] - starts[line - 1] - 1);
    for (; taken < sample && Math.floor(taken * step) < passed + inLine; taken++)
      found += crossingsOf(starts[line - 1] + Math.floor(taken * step) - passed, coords, starts);
    passed += inLine;
  }
  return (found * segments) / (2 * taken);
}

/** Segments that cross the one from vertex `k` to the next. */
function crossingsOf(k: number, coords: Float64Array, starts: Uint32Array): number {
  const [ax, ay, bx, by] = coords.subarray(2 * k, 2 * k + 4);
  let count = 0;
  for (let line = 1; line < starts.length; line++) {
    for (let v = starts[line - 1]; v + 1 < starts[line]; v++) {
      const cx = coords[2 * v];
      const cy = coords[2 * v + 1];
      const dx = coords[2 * v + 2];
      const dy = coords[2 * v + 3];
      const c = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
      const d = (bx - ax) * (dy - ay) - (by - ay) * (dx - ax);
      if (c * d >= 0) continue;
      const a = (dx - cx) * (ay - cy) - (dy - cy) * (ax - cx);
      const b = (dx - cx) * (by - cy) - (dy - cy) * (bx - cx);
      if (a * b < 0) count++;
    }
  }
  return count;
}
