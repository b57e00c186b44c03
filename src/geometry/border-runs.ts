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

/** Answers how far points lie from a border; each question remembers for the next which run was nearest. */
export class BorderDistance {
  private readonly border: BorderRuns;
  private nearest = 0;
  private least = 0;

  constructor(border: BorderRuns) {
    this.border = border;
  }

  /**
   * Distance from a point to the nearest segment, positive inside the area (even-odd). Where a segment comes
   * nearer than `enough`, −∞.
   */
  at(x: number, y: number, enough: number): number {
    const { boxes, segments, starts } = this.border;
    const stop = enough > 0 ? enough * enough : 0;
    const first = this.nearest;
    this.least = Number.POSITIVE_INFINITY;
    this.measure(first, x, y);
    if (this.least < stop) return Number.NEGATIVE_INFINITY;
    let inside = false;
    for (let run = 0; run + 1 < starts.length; run++) {
      const x0 = boxes[4 * run];
      const y0 = boxes[4 * run + 1];
      const x1 = boxes[4 * run + 2];
      const y1 = boxes[4 * run + 3];
      if (y >= y0 && y < y1 && x <= x1) {
        // All of a run to the right of the point: only its ends count.
        if (x < x0) {
          const last = 4 * starts[run + 1] - 1;
          if (segments[4 * starts[run] + 1] > y !== segments[last] > y) inside = !inside;
        } else if (this.crosses(run, x, y)) inside = !inside;
      }
      if (run === first) continue;
      const dx = x < x0 ? x0 - x : x > x1 ? x - x1 : 0;
      const dy = y < y0 ? y0 - y : y > y1 ? y - y1 : 0;
      if (dx * dx + dy * dy >= this.least) continue;
      this.measure(run, x, y);
      if (this.least < stop) return Number.NEGATIVE_INFINITY;
    }
    const distance = Math.sqrt(this.least);
    return inside ? distance : -distance;
  }

  /** Whether the ray from a point towards +x crosses the run an odd number of times. */
  private crosses(run: number, x: number, y: number): boolean {
    const { segments: s, starts } = this.border;
    let odd = false;
    for (let i = 4 * starts[run]; i < 4 * starts[run + 1]; i += 4) {
      const ay = s[i + 1];
      const by = s[i + 3];
      if (ay > y !== by > y && x < s[i] + ((y - ay) / (by - ay)) * (s[i + 2] - s[i])) odd = !odd;
    }
    return odd;
  }

  private measure(run: number, x: number, y: number): void {
    const { segments: s, starts } = this.border;
    let least = this.least;
    for (let i = 4 * starts[run]; i < 4 * starts[run + 1]; i += 4) {
      const dx = s[i + 2] - s[i];
      const dy = s[i + 3] - s[i + 1];
      let px = x - s[i];
      let py = y - s[i + 1];
      const along = px * dx + py * dy;
      if (along > 0) {
        const square = dx * dx + dy * dy;
        const t = along < square ? along / square : 1;
        px -= t * dx;
        py -= t * dy;
      }
      const d = px * px + py * py;
      if (d < least) least = d;
    }
    if (least < this.least) {
      this.least = least;
      this.nearest = run;
    }
  }
}
