/** Spans in a run. */
const RUN = 8;

/** Numbers kept of a span. */
const SPAN = 5;

/**
 * The border of an area, prepared to tell how far points are from it and on which side they lie: straight spans, in
 * runs of up to eight that follow each other, each with a box around it. One is used for many areas, one after the
 * other: its arrays grow as needed and stay. Numbers go in and out by fields: as arguments of a call each would be an
 * object of its own.
 */
export class BorderRuns {
  /** Spans of the border, and runs of them. */
  count = 0;
  runs = 0;
  /** Box of each run: minX, minY, maxX, maxY, stride 4. */
  boxes = new Float64Array(4 * 32);
  /** The point asked for. */
  x = 0.5;
  y = 0.5;
  /** The square of what is too near to be worth knowing. */
  stop = 0.5;
  /** The span to begin with: the nearest one known. Kept as its place in `spans`. */
  near = 0;
  /** The answer: the distance from the border; −∞ where a span comes nearer than asked for. */
  found = 0.5;
  /** The nearest point of the border, once asked for. */
  footX = 0.5;
  footY = 0.5;
  /** Middle, direction, half of the length: x, y, ux, uy, half, stride 5. */
  private spans = new Float64Array(SPAN * 256);
  /** Ends of spans: x0, y0, x1, y1, stride 4. */
  private ends = new Float64Array(4 * 256);
  /** First span of each run, and the number of spans at the end. No run goes on into another ring. */
  private starts = new Int32Array(33);

  /**
   * Takes up closed rings (x, y, stride 2, last point not repeated). Points within `slack` of a straight line may be
   * left out: no border point moves further, and the side of points further from the border stays.
   */
  take(rings: readonly Float64Array[], slack: number): void {
    this.makeRoom(rings);
    const { starts } = this;
    let run = 0;
    let from = 0;
    for (const ring of rings) {
      const to = this.takeRing(ring, from, slack);
      for (; from < to; from += RUN) starts[run++] = from;
      from = to;
    }
    starts[run] = from;
    this.runs = run;
    this.count = from;
    this.near = 0;
    for (let k = 0; k < run; k++) this.measureRun(k);
  }

  private makeRoom(rings: readonly Float64Array[]): void {
    let spans = 0;
    let runs = 0;
    for (const { length } of rings) {
      spans += length >> 1;
      runs += Math.ceil((length >> 1) / RUN);
    }
    if (4 * spans > this.ends.length) {
      this.spans = new Float64Array(2 * SPAN * spans);
      this.ends = new Float64Array(2 * 4 * spans);
    }
    if (runs >= this.starts.length) {
      this.starts = new Int32Array(2 * runs + 1);
      this.boxes = new Float64Array(2 * 4 * runs);
    }
  }

  /**
   * Puts the spans of a ring at place `span` on; returns the place after them. A way of length l between two points c
   * apart lies in the ellipse about them whose smaller radius is √(l² − c²)/2: while that is within the slack, one span
   * stands for it.
   */
  private takeRing(ring: Float64Array, span: number, slack: number): number {
    const { ends } = this;
    const most = 4 * slack * slack;
    const { length } = ring;
    let k = 4 * span;
    let ax = ring[0];
    let ay = ring[1];
    let bx = ax;
    let by = ay;
    let way = 0;
    for (let i = 2; i <= length; i += 2) {
      const next = i < length ? i : 0;
      const x = ring[next];
      const y = ring[next + 1];
      const step = Math.sqrt((x - bx) * (x - bx) + (y - by) * (y - by));
      const longer = way + step;
      if (way > 0 && longer * longer - (x - ax) * (x - ax) - (y - ay) * (y - ay) > most) {
        ends[k] = ax;
        ends[k + 1] = ay;
        ends[k + 2] = bx;
        ends[k + 3] = by;
        k += 4;
        ax = bx;
        ay = by;
        way = step;
      } else way = longer;
      bx = x;
      by = y;
    }
    ends[k] = ax;
    ends[k + 1] = ay;
    ends[k + 2] = bx;
    ends[k + 3] = by;
    return (k >> 2) + 1;
  }

  /** Fills in the spans and the box of a run. */
  private measureRun(run: number): void {
    const { spans, ends, starts, boxes } = this;
    const first = 4 * starts[run];
    const to = 4 * starts[run + 1];
    let x0 = ends[first];
    let y0 = ends[first + 1];
    let x1 = x0;
    let y1 = y0;
    for (let k = first, i = SPAN * starts[run]; k < to; k += 4, i += SPAN) {
      const ax = ends[k];
      const ay = ends[k + 1];
      const bx = ends[k + 2];
      const by = ends[k + 3];
      const length = Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay));
      spans[i] = (ax + bx) / 2;
      spans[i + 1] = (ay + by) / 2;
      // A span without length may have any direction.
      spans[i + 2] = length > 0 ? (bx - ax) / length : 1;
      spans[i + 3] = length > 0 ? (by - ay) / length : 0;
      spans[i + 4] = length / 2;
      if (bx < x0) x0 = bx;
      if (bx > x1) x1 = bx;
      if (by < y0) y0 = by;
      if (by > y1) y1 = by;
    }
    boxes[4 * run] = x0;
    boxes[4 * run + 1] = y0;
    boxes[4 * run + 2] = x1;
    boxes[4 * run + 3] = y1;
  }

  /** Finds how far the point is from the border, and the span that is nearest to it. */
  find(): void {
    const { spans: s, boxes, starts, runs, x, y, stop } = this;
    this.found = Number.NEGATIVE_INFINITY;
    let nearest = this.near;
    let least = spanSquare(s, nearest, x, y);
    if (least < stop) return;
    for (let run = 0; run < runs; run++) {
      const x0 = boxes[4 * run];
      const y0 = boxes[4 * run + 1];
      const x1 = boxes[4 * run + 2];
      const y1 = boxes[4 * run + 3];
      const wide = x < x0 ? x0 - x : x > x1 ? x - x1 : 0;
      const high = y < y0 ? y0 - y : y > y1 ? y - y1 : 0;
      if (wide * wide + high * high >= least) continue;
      const to = SPAN * starts[run + 1];
      for (let i = SPAN * starts[run]; i < to; i += SPAN) {
        const d = spanSquare(s, i, x, y);
        if (d >= least) continue;
        if (d < stop) return;
        least = d;
        nearest = i;
      }
    }
    this.near = nearest;
    this.found = Math.sqrt(least);
  }

  /** Finds the point of the nearest span that is nearest. */
  findFoot(): void {
    const { spans: s, near: i } = this;
    const ux = s[i + 2];
    const uy = s[i + 3];
    const half = s[i + 4];
    const along = (this.x - s[i]) * ux + (this.y - s[i + 1]) * uy;
    const t = Math.max(-half, Math.min(half, along));
    this.footX = s[i] + t * ux;
    this.footY = s[i + 1] + t * uy;
  }

  /** Whether the point lies inside the rings (even-odd). */
  isInside(): boolean {
    const { ends, starts, boxes, runs, x, y } = this;
    let inside = false;
    for (let run = 0; run < runs; run++) {
      if (y < boxes[4 * run + 1] || y >= boxes[4 * run + 3] || x > boxes[4 * run + 2]) continue;
      const from = 4 * starts[run];
      const to = 4 * starts[run + 1];
      // Of a run to the right of the point only the ends count.
      const odd =
        x < boxes[4 * run] ? ends[from + 1] > y !== ends[to - 1] > y : crosses(ends, from, to, x, y);
      if (odd) inside = !inside;
    }
    return inside;
  }
}

/** Square of the distance from a point to the span at `i`; without branches, which would be guessed wrong. */
function spanSquare(s: Float64Array, i: number, x: number, y: number): number {
  const px = x - s[i];
  const py = y - s[i + 1];
  const ux = s[i + 2];
  const uy = s[i + 3];
  const across = px * uy - py * ux;
  const past = Math.abs(px * ux + py * uy) - s[i + 4];
  const beyond = past + Math.abs(past);
  return across * across + (beyond * beyond) / 4;
}

/** Whether the ray from a point towards +x crosses spans an odd number of times. */
function crosses(ends: Float64Array, from: number, to: number, x: number, y: number): boolean {
  let odd = false;
  for (let i = from; i < to; i += 4) {
    const ay = ends[i + 1];
    const by = ends[i + 3];
    if (ay > y !== by > y && x < ends[i] + ((y - ay) / (by - ay)) * (ends[i + 2] - ends[i])) odd = !odd;
  }
  return odd;
}

/** Tells how far a point is from a border: see `borderDistance`. */
export type BorderDistance = (x: number, y: number, enough: number) => number;

/**
 * Distance from a point to the border of closed rings (x, y, stride 2, last point not repeated), positive inside
 * (even-odd); −∞ where the border comes nearer than `enough`. Each question begins with what was nearest in the one
 * before.
 */
export function borderDistance(rings: readonly Float64Array[]): BorderDistance {
  const border = new BorderRuns();
  border.take(rings, 0);
  return (x, y, enough) => {
    border.x = x;
    border.y = y;
    border.stop = enough > 0 ? enough * enough : 0;
    border.find();
    return border.found === Number.NEGATIVE_INFINITY || border.isInside() ? border.found : -border.found;
  };
}
