import { type ArcCurve, type Curve, derivativeAt, reverseCurve } from './curve.js';
import { distanceToSegment, hypotenuse, type Point } from './point.js';

/** Most chords that one curve is cut into: where a tolerance asks for more, the tolerance gives way. */
export const MAX_CHORDS = 1 << 16;

/** Parameters are kept on this grid, so that `1 − t` is exact. */
const PARAMETER_STEP = 2 ** -50;

/** An arc is cut at least at every eighth of a turn, so that no tolerance makes a circle vanish. */
const COARSEST_TURN = 8;

/**
 * A canonical angle nearer to an arc’s end than this part of a step is left out: it is that end. (As much as a few grid
 * steps on common circles: an end that was written and read must not leave a vertex beside it.)
 */
const END_PART = 2 ** -6;

/** A Bézier bends by its own bound in each of so many parts: it may bend in one place only. */
const PARTS = 8;

type Bezier = Exclude<Curve, { kind: 'line' | 'arc' }>;

/**
 * Increasing parameters from 0 to 1, both included, such that the chords between them deviate from the curve
 * by at most `tolerance` mm (> 0).
 *
 * - Direction does not count: the reversed curve gives exactly `1 − t` (arcs: where `start + sweep` is exact,
 *   as in all arcs made by arc.ts; else to 2⁻⁵⁰).
 * - Arcs are cut at multiples of an even fraction of a turn, counted from the axes of the ellipse (circles: from
 *   +x). So pieces of one circle share their interior points, wherever it was split.
 * - Béziers are cut from both ends to their middle, by the bound |B″| h²/8 on the deviation of a chord (Wang's
 *   formula; Farin, Curves and Surfaces for CAGD), known for each eighth. It bounds the parametrisation, so cusps and
 *   loops need no care. Where an eighth turns by less than a right angle, only the part of B″ across it counts. A curve
 *   whose control points lie within the tolerance of its chord is one chord.
 * - At most `MAX_CHORDS` chords. A curve without extent gives `[0, 1]`.
 *
 * `room` may be used again for other curves.
 */
export function flattenParameters(c: Curve, tolerance: number, room = flattenRoom()): Float64Array {
  if (c.kind === 'line') return endsOnly();
  if (c.kind === 'arc') return arcParameters(c, tolerance);
  if (direction(c) <= 0) return bezierParameters(c, tolerance, room);
  const parameters = bezierParameters(reverseCurve(c) as Bezier, tolerance, room).reverse();
  for (let i = 0; i < parameters.length; i++) parameters[i] = 1 - parameters[i];
  return parameters;
}

/** Room for cutting curves one by one. */
export interface FlattenRoom {
  /** By eighths of a Bézier: how much it bends, then how far a chord may reach. */
  readonly parts: Float64Array;
  /** Three control vectors of an eighth. */
  readonly vectors: Float64Array;
  /** Parameters of its first and its last half. */
  readonly first: number[];
  readonly last: number[];
}

export function flattenRoom(): FlattenRoom {
  return { parts: new Float64Array(PARTS), vectors: new Float64Array(6), first: [], last: [] };
}

/** Parameters of a single chord. */
function endsOnly(): Float64Array {
  const parameters = new Float64Array(2);
  parameters[1] = 1;
  return parameters;
}

/**
 * The points at parameters from `flattenParameters(c, tolerance)`: `[x, y]` one after the other. They are the
 * same bits for the reversed curve, and the same interior points for all pieces of one circle or ellipse.
 */
export function flattenPoints(c: Curve, parameters: Float64Array, tolerance: number): Float64Array {
  const n = parameters.length;
  const xy = new Float64Array(2 * n);
  xy[0] = c.from[0];
  xy[1] = c.from[1];
  xy[2 * n - 2] = c.to[0];
  xy[2 * n - 1] = c.to[1];
  if (c.kind === 'arc') putArcPoints(c, parameters, tolerance, xy);
  else if (c.kind !== 'line' && n > 2) putBezierPoints(c, parameters, xy);
  return xy;
}

function putArcPoints(c: ArcCurve, parameters: Float64Array, tolerance: number, xy: Float64Array): void {
  const steps = stepsPerTurn(c, tolerance);
  const offset = axisAngle(c);
  const cos = Math.cos(c.rotation);
  const sin = Math.sin(c.rotation);
  const [cx, cy] = c.centre;
  for (let i = 1; i < parameters.length - 1; i++) {
    const turns = (c.start + parameters[i] * c.sweep + offset) / (2 * Math.PI);
    const place = Math.round((turns - Math.floor(turns)) * steps) % steps;
    const angle = (place / steps) * (2 * Math.PI) - offset;
    // As `arcPoint`.
    const x = c.rx * Math.cos(angle);
    const y = c.ry * Math.sin(angle);
    xy[2 * i] = cx + x * cos - y * sin;
    xy[2 * i + 1] = cy + x * sin + y * cos;
  }
}

function putBezierPoints(c: Bezier, parameters: Float64Array, xy: Float64Array): void {
  const order = direction(c);
  const drawn = order > 0 ? (reverseCurve(c) as Bezier) : c;
  const [ax, ay] = drawn.from;
  const [bx, by] = drawn.kind === 'cubic' ? drawn.control1 : drawn.control;
  const [dx, dy] = drawn.kind === 'cubic' ? drawn.control2 : drawn.to;
  const [ex, ey] = drawn.to;
  const isCubic = drawn.kind === 'cubic';
  for (let i = 1; i < parameters.length - 1; i++) {
    const given = order > 0 ? 1 - parameters[i] : parameters[i];
    // A curve that is its own reverse runs to and fro over the same points.
    const t = order === 0 ? Math.min(given, 1 - given) : given;
    const u = 1 - t;
    // As `pointAt`.
    if (isCubic) {
      const a = u * u * u;
      const b = 3 * u * u * t;
      const d = 3 * u * t * t;
      const e = t * t * t;
      xy[2 * i] = a * ax + b * bx + d * dx + e * ex;
      xy[2 * i + 1] = a * ay + b * by + d * dy + e * ey;
    } else {
      const a = u * u;
      const b = 2 * u * t;
      const d = t * t;
      xy[2 * i] = a * ax + b * bx + d * ex;
      xy[2 * i + 1] = a * ay + b * by + d * ey;
    }
  }
}

/** Circles are cut from +x, so a rotation written in a file does not count; ellipses from their own axes. */
function axisAngle(c: ArcCurve): number {
  return c.rx === c.ry ? c.rotation : 0;
}

/**
 * Canonical points on a full turn: the number whose sagitta, stretched by the end rule, is within the tolerance, rounded
 * up to four binary digits and a multiple of four. So quarter turns fall on each other, and arcs of nearly one radius
 * share it but for few radii. An ellipse is an affine circle, which stretches a deviation by its larger radius at most.
 */
function stepsPerTurn(c: ArcCurve, tolerance: number): number {
  const radius = Math.max(c.rx, c.ry);
  const part = Math.min(1, tolerance / ((1 + END_PART) ** 2 * 2 * radius));
  const widest = 4 * Math.asin(Math.sqrt(part));
  const most = MAX_CHORDS / Math.max(1, Math.abs(c.sweep) / Math.PI);
  const least = Math.max(COARSEST_TURN, Math.min(most, (2 * Math.PI) / widest));
  let unit = 4;
  while (16 * unit < least) unit *= 2;
  return unit * Math.ceil(least / unit);
}

function arcParameters(c: ArcCurve, tolerance: number): Float64Array {
  const span = Math.abs(c.sweep);
  if (span === 0 || Math.max(c.rx, c.ry) === 0) return endsOnly();
  const low = c.sweep > 0 ? c.start : c.start + c.sweep;
  const offset = axisAngle(c);
  const step = (2 * Math.PI) / stepsPerTurn(c, tolerance);
  const first = Math.ceil((low + offset) / step + END_PART);
  const last = Math.floor((low + span + offset) / step - END_PART);
  const count = Math.max(0, last - first + 1);
  const parameters = new Float64Array(count + 2);
  parameters[count + 1] = 1;
  for (let i = 0; i < count; i++) {
    const t = onGrid(((first + i) * step - offset - low) / span);
    if (c.sweep > 0) parameters[1 + i] = t;
    else parameters[count - i] = 1 - t;
  }
  return parameters;
}

/**
 * Which of a Bézier and its reverse stands for both, so that both directions take the same steps: negative, this
 * one; positive, the reverse; 0, they are the same curve.
 */
function direction(c: Bezier): number {
  const order = comparePoints(c.from, c.to);
  if (order !== 0 || c.kind === 'quadratic') return order;
  return comparePoints(c.control1, c.control2);
}

function comparePoints(a: Point, b: Point): number {
  return a[0] - b[0] || a[1] - b[1];
}

function bezierParameters(c: Bezier, tolerance: number, room: FlattenRoom): Float64Array {
  if (isFlat(c, tolerance)) return endsOnly();
  const { parts, first, last } = room;
  putBends(c, room);
  for (let part = 0; part < PARTS; part++)
    parts[part] = Math.max(1 / MAX_CHORDS, Math.sqrt((8 * tolerance) / parts[part]));
  const before = walkHalf(parts, first);
  // A curve that is its own reverse takes the same steps both ways to the last bit.
  const isOwnReverse = direction(c) === 0;
  const after = isOwnReverse ? before : walkHalf(parts.reverse(), last);
  const steps = isOwnReverse ? first : last;
  const end = before + after + 2;
  const parameters = new Float64Array(end + 1);
  for (let k = 0; k < before; k++) parameters[1 + k] = first[k];
  parameters[before + 1] = 0.5;
  for (let k = 0; k < after; k++) parameters[end - 1 - k] = 1 - steps[k];
  parameters[end] = 1;
  return parameters;
}

/**
 * Puts parameters between 0 and ½, each as far from the one before as the least of the reaches of the parts in between
 * allows; returns how many.
 */
function walkHalf(reaches: Float64Array, steps: number[]): number {
  let count = 0;
  let t = 0;
  for (;;) {
    let part = Math.floor(t * PARTS);
    let reach = reaches[part];
    while (++part < PARTS / 2 && t + reach > part / PARTS) {
      if (t + reaches[part] < part / PARTS) reach = part / PARTS - t;
      else if (reaches[part] < reach) reach = reaches[part];
    }
    t = onGrid(t + reach);
    if (!(t < 0.5)) return count;
    steps[count++] = t;
  }
}

function onGrid(t: number): number {
  return Math.round(t / PARAMETER_STEP) * PARAMETER_STEP;
}

/**
 * Puts what |B″ · n| is at most on each part, n a unit normal of a chord of it. B″ is constant or linear, so an end has the
 * most. A chord's direction is a mean of those of B′, which lie between those of its control vectors on the part; where
 * these are within a right angle of each other, the curve runs on along each chord, and its deviation is that across
 * it. Elsewhere, |B″|.
 */
function putBends(c: Bezier, { parts: bends, vectors }: FlattenRoom): void {
  const [sx, sy] = derivativeAt(c, 0);
  const px = secondDerivative(c, 0, 0);
  const py = secondDerivative(c, 0, 1);
  const qx = secondDerivative(c, 1, 0);
  const qy = secondDerivative(c, 1, 1);
  const step = 1 / PARTS;
  // B′ and B″ at the start of the part, B″ at its end.
  let ux = sx;
  let uy = sy;
  let ax = px;
  let ay = py;
  for (let part = 0; part < PARTS; part++) {
    const t = (part + 1) * step;
    const bx = px + t * (qx - px);
    const by = py + t * (qy - py);
    const vx = sx + (t / 2) * (px + bx);
    const vy = sy + (t / 2) * (py + by);
    // The control vector between, of a quadratic one between on their line.
    const mx = ux + (step / 2) * ax;
    const my = uy + (step / 2) * ay;
    const isNarrow = ux * vx + uy * vy > 0 && ux * mx + uy * my > 0 && mx * vx + my * vy > 0;
    vectors[0] = ux;
    vectors[1] = uy;
    vectors[2] = mx;
    vectors[3] = my;
    vectors[4] = vx;
    vectors[5] = vy;
    bends[part] = isNarrow
      ? Math.max(mostAcross(ax, ay, vectors), mostAcross(bx, by, vectors))
      : Math.max(hypotenuse(ax, ay), hypotenuse(bx, by));
    ux = vx;
    uy = vy;
    ax = bx;
    ay = by;
  }
}

/** The most of a vector w across any direction between three vectors, which are within a right angle of each other. */
function mostAcross(wx: number, wy: number, vectors: Float64Array): number {
  let most = 0;
  let before = 0;
  for (let i = 0; i < 6; i += 2) {
    const x = vectors[i];
    const y = vectors[i + 1];
    const along = wx * x + wy * y;
    if (i > 0 && before > 0 !== along > 0) return hypotenuse(wx, wy);
    before = along;
    most = Math.max(most, Math.abs(wx * y - wy * x) / hypotenuse(x, y));
  }
  return most;
}

/** B″ at an end, its x (k = 0) or y; constant or linear between them. */
function secondDerivative(c: Bezier, end: 0 | 1, k: 0 | 1): number {
  if (c.kind === 'quadratic') return 2 * bend(c.from, c.control, c.to, k);
  return end === 0 ? 6 * bend(c.from, c.control1, c.control2, k) : 6 * bend(c.control1, c.control2, c.to, k);
}

function bend(a: Point, b: Point, c: Point, k: 0 | 1): number {
  return a[k] + c[k] - 2 * b[k];
}

/** Whether all control points lie within the tolerance of the chord; then so does the curve (convex hull). */
function isFlat(c: Bezier, tolerance: number): boolean {
  const isNear = (p: Point): boolean => distanceToSegment(p, c.from, c.to) <= tolerance;
  return c.kind === 'quadratic' ? isNear(c.control) : isNear(c.control1) && isNear(c.control2);
}
