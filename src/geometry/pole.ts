import { BorderRuns } from './border-runs.js';
import { type Bounds, EMPTY_BOUNDS } from './point.js';

/** The place inside an area that is furthest from its border, and how far that is. */
export interface Pole {
  readonly x: number;
  readonly y: number;
  /** Distance to the border; 0 or less where the area has no inside. */
  readonly room: number;
}

/** Squares cut into quarters, about: bounds the time on areas that are hardly there. */
const MOST_SQUARES = 4096;

/** Squares in a row to begin with, at most. */
const MOST_IN_ROW = 32;

/** The search goes by an outline that lies within this part of the precision: it has fewer points. */
const COARSE_PART = 1 / 8;

/** A place is better than one found before by so much of the precision: rounding does not choose between equals. */
const BETTER_PART = 1 / 8;

/** Tries to let a disc grow: where it takes more, the search does as well. */
const MOST_TRIES = 5;

/** Slack of comparisons that leave out what cannot matter, in parts: far above rounding. */
const SLACK = 1 + 2 ** -30;

/** Numbers kept of a square: x and y of its centre, distance from the border there, the span nearest to it. */
const SQUARE = 4;

/**
 * The pole of inaccessibility of the area bounded by closed rings (even-odd; x, y, stride 2, last point not
 * repeated): the centre of the largest inscribed disc, to `precision`. Branch and bound on squares, all of one size,
 * row by row, then the quarters of those in which a better place can be. Of places that are as good as each other the
 * first one is taken. Garcia-Castellanos and Lombardo 2007 name the notion. O(n) per square looked at, n counted in
 * runs of eight spans of an outline within an eighth of the precision.
 */
export function poleOf(rings: readonly Float64Array[], precision: number): Pole {
  return new PoleSearch().find(rings, precision);
}

/** `poleOf` for many areas, one after the other: its working arrays stay. */
export class PoleSearch {
  private readonly border = new BorderRuns();
  /** Squares of one size in which a better place can be; and their quarters, so many so far. */
  private squares = new Float64Array(SQUARE * 64);
  private quarters = new Float64Array(SQUARE * 64);
  private count = 0;
  /** Half the side of the squares looked at, and half their diagonal. */
  private half = 0.5;
  private spread = 0.5;
  /** Whether the centre looked at is inside: 1, outside: -1, not known: 0. */
  private side = 0;
  private precision = 0.5;
  /** No disc inside is wider than this, halved. */
  private widest = 0.5;
  /** The best place so far, and its distance from the border. */
  private x = 0.5;
  private y = 0.5;
  private best = 0.5;

  /** See `poleOf`. */
  find(rings: readonly Float64Array[], precision: number): Pole {
    const { border } = this;
    border.take(rings, COARSE_PART * precision);
    if (border.runs === 0) return { x: 0, y: 0, room: 0 };
    // The outline may say too much of a place found, and too little of one left out.
    this.precision = (1 - 2 * COARSE_PART) * precision;
    this.search();
    return { x: this.x, y: this.y, room: roomAt(rings, this.x, this.y) };
  }

  private search(): void {
    const [x0, y0, x1, y1] = outerBox(this.border);
    const { border } = this;
    const width = x1 - x0;
    const height = y1 - y0;
    const widest = Math.min(width, height) / 2;
    this.widest = widest;
    this.x = border.x = (x0 + x1) / 2;
    this.y = border.y = (y0 + y1) / 2;
    this.best = Number.NEGATIVE_INFINITY;
    this.begin(0, 1);
    this.look();
    const size = Math.max(widest, Math.max(width, height) / MOST_IN_ROW);
    if (size === 0) return;
    const columns = Math.ceil(width / size);
    const rows = Math.ceil(height / size);
    this.begin(size / 2, columns * rows);
    for (let row = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++) {
        border.x = x0 + (column + 0.5) * size;
        border.y = y0 + (row + 0.5) * size;
        this.look();
      }
    }
    let looked = 0;
    while (this.count > 0 && looked < MOST_SQUARES && widest > this.best + this.precision)
      looked += this.quarterAll();
  }

  /** Makes room for squares of one size. */
  private begin(half: number, most: number): void {
    if (SQUARE * most > this.quarters.length) this.quarters = new Float64Array(2 * SQUARE * most);
    this.count = 0;
    this.half = half;
    this.spread = half * Math.SQRT2;
    this.side = 0;
  }

  /** Looks at the quarters of all squares in which a better place can be; returns how many these are. */
  private quarterAll(): number {
    const { border, spread, count } = this;
    const squares = this.quarters;
    this.quarters = this.squares;
    this.squares = squares;
    this.begin(this.half / 2, 4 * count);
    const { half } = this;
    let looked = 0;
    for (let i = 0; i < SQUARE * count; i += SQUARE) {
      const room = squares[i + 2];
      if (room + spread <= this.best + this.precision) continue;
      looked++;
      const isFar = Math.abs(room) > this.spread * SLACK;
      this.side = isFar ? Math.sign(room) : 0;
      for (let quarter = 0; quarter < 4; quarter++) {
        border.x = squares[i] + ((quarter & 1) === 0 ? -half : half);
        border.y = squares[i + 1] + ((quarter & 2) === 0 ? -half : half);
        border.near = squares[i + 3];
        this.look();
      }
    }
    return looked;
  }

  /** Looks at the centre of a square, and keeps the square if a better place can be in it. */
  private look(): void {
    const { border, spread } = this;
    const { x, y } = border;
    // A border nearer than this makes the square useless: no need to know how near.
    const enough = this.best + this.precision - spread;
    border.stop = enough > 0 ? enough * enough : 0;
    border.find();
    let room = border.found;
    if (room === Number.NEGATIVE_INFINITY) return;
    const { near } = border;
    const isInside = this.side === 0 ? border.isInside() : this.side > 0;
    if (!isInside) room = -room;
    else if (room > this.best + BETTER_PART * this.precision) this.grow();
    if (room + spread <= this.best + this.precision) return;
    const { quarters } = this;
    const i = SQUARE * this.count++;
    quarters[i] = x;
    quarters[i + 1] = y;
    quarters[i + 2] = room;
    quarters[i + 3] = near;
  }

  /**
   * Takes the place just found, or a better one near by: the disc about it grows, still touching the border where it
   * does, until it touches it elsewhere; where no better place can be, it stays. It starts too large, and shrinks to touch each point that lies within.
   */
  private grow(): void {
    const { border } = this;
    const { x, y, found } = border;
    const slack = BETTER_PART * this.precision;
    this.best = found;
    this.x = x;
    this.y = y;
    if (found === 0 || this.widest <= found + this.precision) return;
    border.findFoot();
    const ux = (x - border.footX) / found;
    const uy = (y - border.footY) / found;
    border.stop = 0;
    let way = this.widest - found;
    for (let tries = 0; tries < MOST_TRIES && way > slack; tries++) {
      border.x = x + way * ux;
      border.y = y + way * uy;
      border.find();
      if (border.found >= found + way - slack) {
        this.best = border.found;
        this.x = border.x;
        this.y = border.y;
        return;
      }
      border.findFoot();
      const px = x - border.footX;
      const py = y - border.footY;
      way = (px * px + py * py - found * found) / (2 * (found - ux * px - uy * py));
    }
  }
}

function outerBox({ boxes, runs }: BorderRuns): Bounds {
  let [x0, y0, x1, y1] = EMPTY_BOUNDS;
  for (let k = 0; k < 4 * runs; k += 4) {
    if (boxes[k] < x0) x0 = boxes[k];
    if (boxes[k + 1] < y0) y0 = boxes[k + 1];
    if (boxes[k + 2] > x1) x1 = boxes[k + 2];
    if (boxes[k + 3] > y1) y1 = boxes[k + 3];
  }
  return [x0, y0, x1, y1];
}

/** Distance from a point to the rings themselves, positive inside. */
function roomAt(rings: readonly Float64Array[], x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  let inside = false;
  for (const ring of rings) {
    let ax = ring[ring.length - 2] - x;
    let ay = ring[ring.length - 1] - y;
    for (let i = 0; i < ring.length; i += 2) {
      const bx = ring[i] - x;
      const by = ring[i + 1] - y;
      const dx = bx - ax;
      const dy = by - ay;
      const square = dx * dx + dy * dy;
      const along = -(ax * dx + ay * dy);
      const t = along <= 0 ? 0 : along < square ? along / square : 1;
      const px = ax + t * dx;
      const py = ay + t * dy;
      const d = px * px + py * py;
      if (d < least) least = d;
      if (ay > 0 !== by > 0 && ax - (ay / dy) * dx > 0) inside = !inside;
      ax = bx;
      ay = by;
    }
  }
  return inside ? Math.sqrt(least) : -Math.sqrt(least);
}
