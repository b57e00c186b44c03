import { type Affine, applyToCurve } from '../../geometry/affine.js';
import { arcFromEndpoints } from '../../geometry/arc.js';
import { arcCubics } from '../../geometry/arc-cubics.js';
import { type ArcCurve, type Curve, withDrawnEnds } from '../../geometry/curve.js';
import { curveBounds } from '../../geometry/curve-bounds.js';
import { type Bounds, distance, type Point } from '../../geometry/point.js';
import type { Subpath } from '../drawing.js';

/**
 * A subpath whose end misses its start by no more than this (mm) when it is closed was meant to end there: sums
 * of relative coordinates miss by rounding.
 */
const CLOSING_NOISE = 1e-6;

/** Arcs of a larger radius, mm, are kept as cubics, which keep their digits. */
const WIDEST_ARC = 16_384;

/** What a builder may take. */
export interface BuilderBounds {
  readonly segments: number;
  /** Largest coordinate either side of 0. */
  readonly coordinate: number;
  /** Called when there are more segments; throws. */
  readonly tooMany: () => never;
}

/** Takes drawing commands in user units and collects subpaths in the units behind `matrix`. */
export class PathBuilder {
  readonly #m: Affine;
  readonly #done: Subpath[] = [];
  #curves: Curve[] = [];
  #start: Point = [0, 0];
  #at: Point = [0, 0];
  /** The current point in user units. */
  #x = 0;
  #y = 0;
  #segments = 0;
  #outOfRange = false;
  #minX = Number.POSITIVE_INFINITY;
  #minY = Number.POSITIVE_INFINITY;
  #maxX = Number.NEGATIVE_INFINITY;
  #maxY = Number.NEGATIVE_INFINITY;
  readonly #bounds: BuilderBounds;

  constructor(matrix: Affine, bounds: BuilderBounds) {
    this.#m = matrix;
    this.#bounds = bounds;
  }

  /** A box around all points and controls, so around all curves. */
  get hull(): Bounds {
    return [this.#minX, this.#minY, this.#maxX, this.#maxY];
  }

  /** True when a coordinate was no number or beyond the bounds. */
  get outOfRange(): boolean {
    return this.#outOfRange;
  }

  /** Segments drawn so far. */
  get segments(): number {
    return this.#segments;
  }

  moveTo(x: number, y: number): void {
    this.#end(false);
    this.#at = this.#map(x, y);
    this.#start = this.#at;
    this.#x = x;
    this.#y = y;
  }

  lineTo(x: number, y: number): void {
    const to = this.#map(x, y);
    if (to[0] !== this.#at[0] || to[1] !== this.#at[1]) this.#push({ kind: 'line', from: this.#at, to });
    this.#moved(to, x, y);
  }

  quadraticTo(x1: number, y1: number, x: number, y: number): void {
    const to = this.#map(x, y);
    const control = this.#map(x1, y1);
    if (!same(this.#at, to) || !same(this.#at, control)) {
      this.#push({ kind: 'quadratic', from: this.#at, control, to });
    }
    this.#moved(to, x, y);
  }

  cubicTo(x1: number, y1: number, x2: number, y2: number, x: number, y: number): void {
    const to = this.#map(x, y);
    const control1 = this.#map(x1, y1);
    const control2 = this.#map(x2, y2);
    if (!same(this.#at, to) || !same(this.#at, control1) || !same(this.#at, control2)) {
      this.#push({ kind: 'cubic', from: this.#at, control1, control2, to });
    }
    this.#moved(to, x, y);
  }

  /** An arc as path data has it; `rotation` in degrees. */
  arcTo(
    rx: number,
    ry: number,
    rotation: number,
    large: boolean,
    sweep: boolean,
    x: number,
    y: number,
  ): void {
    const arc = arcFromEndpoints([this.#x, this.#y], rx, ry, rotation, large, sweep, [x, y]);
    if (arc === null) return;
    const to = this.#map(x, y);
    this.#pushMapped(withDrawnEnds(applyToCurve(this.#m, arc), this.#at, to));
    this.#moved(to, x, y);
  }

  /** An arc in user units that starts at the current point. */
  arc(c: ArcCurve): void {
    const to = this.#map(c.to[0], c.to[1]);
    this.#pushMapped(withDrawnEnds(applyToCurve(this.#m, c), this.#at, to));
    this.#moved(to, c.to[0], c.to[1]);
  }

  /** Closes the subpath; `startX`, `startY`: its start in user units, where the next one begins. */
  close(startX: number, startY: number): void {
    const last = this.#curves.length - 1;
    if (last >= 0 && !same(this.#at, this.#start)) {
      if (distance(this.#at, this.#start) <= CLOSING_NOISE) {
        this.#curves[last] = withDrawnEnds(this.#curves[last], this.#curves[last].from, this.#start);
      } else {
        this.#push({ kind: 'line', from: this.#at, to: this.#start });
      }
    }
    this.#end(true);
    this.#moved(this.#start, startX, startY);
  }

  /** All subpaths with at least one segment. */
  finish(): Subpath[] {
    this.#end(false);
    return this.#done;
  }

  #push(c: Curve): void {
    this.#curves.push(c);
    this.#segments++;
    if (this.#segments > this.#bounds.segments) this.#bounds.tooMany();
  }

  /** For curves whose controls did not go through `#map`. */
  #pushMapped(c: Curve): void {
    if (c.kind !== 'arc') {
      this.#push(c);
      return;
    }
    const reach = Math.max(c.rx, c.ry);
    const [x, y] = c.centre;
    const { coordinate } = this.#bounds;
    if (reach > WIDEST_ARC || Math.max(Math.abs(x), Math.abs(y)) + reach > coordinate) {
      this.#pushWide(c, reach > WIDEST_ARC);
      return;
    }
    this.#minX = Math.min(this.#minX, x - reach);
    this.#minY = Math.min(this.#minY, y - reach);
    this.#maxX = Math.max(this.#maxX, x + reach);
    this.#maxY = Math.max(this.#maxY, y + reach);
    this.#push(c);
  }

  /** An arc of which only a part may lie in reach: that part tells, not its ellipse. */
  #pushWide(c: ArcCurve, asCubics: boolean): void {
    const [x0, y0, x1, y1] = curveBounds(c);
    this.#minX = Math.min(this.#minX, x0);
    this.#minY = Math.min(this.#minY, y0);
    this.#maxX = Math.max(this.#maxX, x1);
    this.#maxY = Math.max(this.#maxY, y1);
    const { coordinate } = this.#bounds;
    if (!(x0 >= -coordinate && y0 >= -coordinate && x1 <= coordinate && y1 <= coordinate)) {
      this.#outOfRange = true;
      return;
    }
    if (!asCubics) this.#push(c);
    else for (const cubic of arcCubics(c)) this.#push(cubic);
  }

  #moved(at: Point, x: number, y: number): void {
    this.#at = at;
    this.#x = x;
    this.#y = y;
  }

  #end(closed: boolean): void {
    if (this.#curves.length > 0) this.#done.push({ curves: this.#curves, closed });
    this.#curves = [];
  }

  #map(x: number, y: number): Point {
    const m = this.#m;
    const px = m[0] * x + m[2] * y + m[4];
    const py = m[1] * x + m[3] * y + m[5];
    if (px < this.#minX) this.#minX = px;
    if (px > this.#maxX) this.#maxX = px;
    if (py < this.#minY) this.#minY = py;
    if (py > this.#maxY) this.#maxY = py;
    // Written so that NaN is out of range too.
    const { coordinate } = this.#bounds;
    if (!(px <= coordinate && px >= -coordinate && py <= coordinate && py >= -coordinate))
      this.#outOfRange = true;
    return [px, py];
  }
}

function same(p: Point, q: Point): boolean {
  return p[0] === q[0] && p[1] === q[1];
}
