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
 * comes nearer than `enough`. Each question begins with the segment that was nearest in the one before.
 */
export function borderDistance(border: BorderRuns): BorderDistance {
  const search = new BorderSearch(border);
  return (x, y, enough) => search.distance(x, y, enough);
}

/** Slack of comparisons that leave out what cannot matter, in parts: far above rounding. */
const SLACK = 1 + 2 ** -30;

/** Tells how far points are from a border, sooner within a disc that was told of. */
export class BorderSearch {
  /** The segment that was nearest to the last point asked for: where to begin. */
  nearest = 0;
  private readonly border: BorderRuns;
  /** Runs that can be nearest to points of the disc, those nearest to its middle first; and how many. */
  private readonly runs: Int32Array;
  /** Squares of their distances from the middle. */
  private readonly squares: Float64Array;
  private count: number;
  /** Whether the points of the disc are inside: 1, outside: 0, not known: -1. */
  private side = -1;
  /** The point asked for, the square of what is too near, and the answer. */
  private x = 0.5;
  private y = 0.5;
  private stop = 0.5;
  private found = 0.5;

  constructor(border: BorderRuns) {
    this.border = border;
    this.count = border.starts.length - 1;
    this.runs = new Int32Array(this.count);
    this.squares = new Float64Array(this.count);
    for (let run = 0; run < this.count; run++) this.runs[run] = run;
  }

  /** See `borderDistance`; for a point of the disc, once there is one. */
  distance(x: number, y: number, enough: number): number {
    if (this.isNear(x, y, enough)) return Number.NEGATIVE_INFINITY;
    this.x = x;
    this.y = y;
    this.stop = enough > 0 ? enough * enough : 0;
    this.search();
    return this.found;
  }

  /** Whether the segment to begin with comes nearer to a point than `enough`. */
  isNear(x: number, y: number, enough: number): boolean {
    return enough > 0 && segmentSquare(this.border.segments, this.nearest, x, y) < enough * enough;
  }

  /** Numbers go in and out by fields: as arguments of a call each would be an object of its own. */
  private search(): void {
    const { segments: s, starts, boxes } = this.border;
    const { runs, count, x, y, stop } = this;
    let least = Number.POSITIVE_INFINITY;
    let nearest = 0;
    for (let n = 0; n < count; n++) {
      const run = runs[n];
      const x0 = boxes[4 * run];
      const y0 = boxes[4 * run + 1];
      const x1 = boxes[4 * run + 2];
      const y1 = boxes[4 * run + 3];
      const wide = x < x0 ? x0 - x : x > x1 ? x - x1 : 0;
      const high = y < y0 ? y0 - y : y > y1 ? y - y1 : 0;
      if (wide * wide + high * high >= least) continue;
      const to = 4 * starts[run + 1];
      for (let i = 4 * starts[run]; i < to; i += 4) {
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
        if (d >= least) continue;
        if (d < stop) {
          this.found = Number.NEGATIVE_INFINITY;
          return;
        }
        least = d;
        nearest = i;
      }
    }
    this.nearest = nearest;
    const distance = Math.sqrt(least);
    const inside = this.side < 0 ? isInside(this.border, x, y) : this.side === 1;
    this.found = inside ? distance : -distance;
  }

  /** From now on all points lie in the disc of `radius` about a point whose distance from the border is known. */
  narrow(x: number, y: number, distance: number, radius: number): void {
    const { runs, squares } = this;
    const { boxes } = this.border;
    const away = Math.abs(distance);
    this.side = away <= radius * SLACK ? -1 : distance > 0 ? 1 : 0;
    const reach = (away + 2 * radius) * SLACK;
    const most = reach * reach;
    let n = 0;
    for (let run = 0; run < runs.length; run++) {
      const x0 = boxes[4 * run];
      const y0 = boxes[4 * run + 1];
      const x1 = boxes[4 * run + 2];
      const y1 = boxes[4 * run + 3];
      const dx = x < x0 ? x0 - x : x > x1 ? x - x1 : 0;
      const dy = y < y0 ? y0 - y : y > y1 ? y - y1 : 0;
      const square = dx * dx + dy * dy;
      if (square > most) continue;
      let at = n++;
      for (; at > 0 && squares[at - 1] > square; at--) {
        squares[at] = squares[at - 1];
        runs[at] = runs[at - 1];
      }
      squares[at] = square;
      runs[at] = run;
    }
    this.count = n;
  }
}

/** Square of the distance from a point to the segment at `i`. */
function segmentSquare(s: Float64Array, i: number, x: number, y: number): number {
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
  return px * px + py * py;
}

function isInside({ segments: s, starts, boxes }: BorderRuns, x: number, y: number): boolean {
  let inside = false;
  for (let run = 0; run + 1 < starts.length; run++) {
    if (y < boxes[4 * run + 1] || y >= boxes[4 * run + 3] || x > boxes[4 * run + 2]) continue;
    const from = 4 * starts[run];
    const to = 4 * starts[run + 1];
    // Of a run to the right of the point only the ends count.
    if (x < boxes[4 * run] ? s[from + 1] > y !== s[to - 1] > y : crosses(s, from, to, x, y)) inside = !inside;
  }
  return inside;
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
