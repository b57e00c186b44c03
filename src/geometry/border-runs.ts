import { buildBoxTree, searchBoxes } from './box-tree.js';

/** Segments in a run. */
const RUN = 8;

/**
 * The segments of closed rings in runs of up to eight that follow each other, each with a box around it: what tells
 * how far a point is from a border, and on which side, without looking at most of it.
 */
export interface BorderRuns {
  /** Segments: x0, y0, x1, y1, stride 4, ring after ring. */
  readonly segments: Float64Array;
  /** First segment of each run, and the number of segments at the end. No run goes on into another ring. */
  readonly starts: Int32Array;
  /** Box of each run: minX, minY, maxX, maxY, stride 4. */
  readonly boxes: Float64Array;
}

/** Cuts rings (x, y, stride 2, last point not repeated) into runs. */
export function borderRuns(rings: readonly Float64Array[]): BorderRuns {
  let count = 0;
  let runs = 0;
  for (const ring of rings) {
    count += ring.length >> 1;
    runs += Math.ceil((ring.length >> 1) / RUN);
  }
  const segments = new Float64Array(4 * count);
  const starts = new Int32Array(runs + 1);
  const boxes = new Float64Array(4 * runs);
  let at = 0;
  let run = 0;
  for (const ring of rings) {
    const length = ring.length;
    for (let first = 0; first < length; first += 2 * RUN) {
      starts[run] = at >> 2;
      let x0 = ring[first];
      let y0 = ring[first + 1];
      let x1 = x0;
      let y1 = y0;
      const end = Math.min(first + 2 * RUN, length);
      for (let i = first; i < end; i += 2) {
        const next = i + 2 < length ? i + 2 : 0;
        const x = ring[next];
        const y = ring[next + 1];
        segments[at] = ring[i];
        segments[at + 1] = ring[i + 1];
        segments[at + 2] = x;
        segments[at + 3] = y;
        at += 4;
        if (x < x0) x0 = x;
        if (x > x1) x1 = x;
        if (y < y0) y0 = y;
        if (y > y1) y1 = y;
      }
      boxes[4 * run] = x0;
      boxes[4 * run + 1] = y0;
      boxes[4 * run + 2] = x1;
      boxes[4 * run + 3] = y1;
      run++;
    }
  }
  starts[run] = at >> 2;
  return { segments, starts, boxes };
}

/** Tells how far a point is from a border: see `borderDistance`. */
export type BorderDistance = (x: number, y: number, enough: number) => number;

/**
 * Distance from a point to the nearest segment of a border, positive inside the area (even-odd); −∞ where a segment
 * comes nearer than `enough`. Each question begins with the run that was nearest in the one before.
 */
export function borderDistance({ segments: s, starts, boxes }: BorderRuns): BorderDistance {
  const runs = starts.length - 1;
  let likely = 0;
  return (x, y, enough) => {
    const stop = enough > 0 ? enough * enough : 0;
    const first = likely;
    let least = Number.POSITIVE_INFINITY;
    let inside = false;
    for (let turn = -1; turn < runs; turn++) {
      const run = turn < 0 ? first : turn;
      const from = 4 * starts[run];
      const to = 4 * starts[run + 1];
      if (turn >= 0) {
        const x0 = boxes[4 * run];
        const y0 = boxes[4 * run + 1];
        const x1 = boxes[4 * run + 2];
        const y1 = boxes[4 * run + 3];
        if (y >= y0 && y < y1 && x <= x1) {
          // Of a run to the right of the point only the ends count.
          if (x < x0 ? s[from + 1] > y !== s[to - 1] > y : crosses(s, from, to, x, y)) inside = !inside;
        }
        const dx = x < x0 ? x0 - x : x > x1 ? x - x1 : 0;
        const dy = y < y0 ? y0 - y : y > y1 ? y - y1 : 0;
        if (run === first || dx * dx + dy * dy >= least) continue;
      }
      for (let i = from; i < to; i += 4) {
        const ax = s[i];
        const ay = s[i + 1];
        const dx = s[i + 2] - ax;
        const dy = s[i + 3] - ay;
        let px = x - ax;
        let py = y - ay;
        const along = px * dx + py * dy;
        if (along > 0) {
          const square = dx * dx + dy * dy;
          const t = along < square ? along / square : 1;
          px -= t * dx;
          py -= t * dy;
        }
        const d = px * px + py * py;
        if (d < least) {
          least = d;
          likely = run;
        }
      }
      if (least < stop) return Number.NEGATIVE_INFINITY;
    }
    const distance = Math.sqrt(least);
    return inside ? distance : -distance;
  };
}

/** Whether the ray from a point towards +x crosses segments an odd number of times. */
function crosses(s: Float64Array, from: number, to: number, x: number, y: number): boolean {
  let odd = false;
  for (let i = from; i < to; i += 4) {
    const ay = s[i + 1];
    const by = s[i + 3];
    if (ay > y !== by > y && x < s[i] + ((y - ay) / (by - ay)) * (s[i + 2] - s[i])) odd = !odd;
  }
  return odd;
}

/** Winding number of a border around a point. */
export type WindingAt = (x: number, y: number) => number;

/** Runs above which a ray looks for those that it meets in a tree. */
const MANY_RUNS = 64;

/** Winding numbers of a border, positive where it turns from +x towards −y (y down). O(log n + runs met) each. */
export function borderWinding({ segments: s, starts, boxes }: BorderRuns): WindingAt {
  const runs = starts.length - 1;
  const tree = runs > MANY_RUNS ? buildBoxTree(boxes) : null;
  const windingOf = (run: number, x: number, y: number): number => {
    let winding = 0;
    for (let i = 4 * starts[run]; i < 4 * starts[run + 1]; i += 4) {
      const ay = s[i + 1];
      const by = s[i + 3];
      if (ay > y !== by > y && x < s[i] + ((y - ay) / (by - ay)) * (s[i + 2] - s[i]))
        winding += by < ay ? 1 : -1;
    }
    return winding;
  };
  return (x, y) => {
    let winding = 0;
    if (tree === null) {
      for (let run = 0; run < runs; run++) {
        if (y >= boxes[4 * run + 1] && y < boxes[4 * run + 3] && x <= boxes[4 * run + 2])
          winding += windingOf(run, x, y);
      }
      return winding;
    }
    searchBoxes(tree, x, y, Number.POSITIVE_INFINITY, y, (run) => {
      winding += windingOf(run, x, y);
      return false;
    });
    return winding;
  };
}
