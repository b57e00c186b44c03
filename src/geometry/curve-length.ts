import { bernsteinRoots, combineBernstein, multiplyBernstein } from './bernstein.js';
import { type ArcCurve, type CubicCurve, type Curve, derivativeAt } from './curve.js';
import type { Point } from './point.js';

/** Relative error at which halving a stretch stops. */
const PRECISION = 1e-12;

/** Halvings after which a stretch is too short to matter. */
const MAX_DEPTH = 40;

/**
 * Length of a curve between parameters `t0` and `t1` (either order), mm, never negative. Closed form for lines
 * and circles; else Gauss-Legendre quadrature of the speed between its minima, halved until it settles: 1e-10
 * relative, cusps included.
 */
export function curveLength(c: Curve, t0 = 0, t1 = 1): number {
  return lengthBetween(measureOf(c), t0, t1);
}

/** What is known of a curve before its lengths: for many parts of one curve it is found once. */
export interface LengthMeasure {
  readonly curve: Curve;
  /** Length for each unit of the parameter, of lines and circles; else 0. */
  readonly even: number;
  /** Differences of a Bézier's control points: x, y, stride 2. */
  readonly differences: readonly number[];
  /** `slowPlaces` */
  readonly slow: readonly number[];
}

const NONE: readonly number[] = [];

/** Prepares for `lengthBetween`. */
export function measureOf(c: Curve): LengthMeasure {
  if (c.kind === 'line') return { curve: c, even: speedAt(c, 0), differences: NONE, slow: NONE };
  if (c.kind === 'arc' && c.rx === c.ry)
    return { curve: c, even: c.rx * Math.abs(c.sweep), differences: NONE, slow: NONE };
  const controls =
    c.kind === 'cubic'
      ? [c.from, c.control1, c.control2, c.to]
      : c.kind === 'quadratic'
        ? [c.from, c.control, c.to]
        : [];
  const differences: number[] = [];
  for (let i = 0; i + 1 < controls.length; i++)
    differences.push(controls[i + 1][0] - controls[i][0], controls[i + 1][1] - controls[i][1]);
  return { curve: c, even: 0, differences, slow: slowPlaces(c) };
}

/** `curveLength` by what is known of the curve. */
export function lengthBetween(measure: LengthMeasure, t0: number, t1: number): number {
  const low = Math.min(t0, t1);
  const high = Math.max(t0, t1);
  const { curve } = measure;
  if (curve.kind === 'line' || (curve.kind === 'arc' && curve.rx === curve.ry))
    return measure.even * (high - low);
  if (!measure.slow.some((t) => t > low && t < high)) {
    const whole = gaussLegendre(measure, low, high);
    return halve(measure, low, high, whole, PRECISION * whole, MAX_DEPTH);
  }
  const breaks = [low];
  for (const t of measure.slow) if (t > low && t < high) breaks.push(t);
  breaks.push(high);
  const parts: number[] = [];
  let whole = 0;
  for (let i = 0; i + 1 < breaks.length; i++) {
    parts.push(gaussLegendre(measure, breaks[i], breaks[i + 1]));
    whole += parts[i];
  }
  const tolerance = PRECISION * whole;
  let sum = 0;
  for (let i = 0; i < parts.length; i++)
    sum += halve(measure, breaks[i], breaks[i + 1], parts[i], tolerance, MAX_DEPTH);
  return sum;
}

/**
 * Parameters where the speed is least, increasing. Between them it has no kink: a cusp, and the turning point
 * of a curve that runs to and fro on a line, are among them.
 */
function slowPlaces(c: Curve): number[] {
  switch (c.kind) {
    case 'line':
      return [];
    case 'quadratic': {
      // B′·B″ is linear.
      const [ax, ay] = derivativeAt(c, 0);
      const [bx, by] = derivativeAt(c, 1);
      const square = (bx - ax) * (bx - ax) + (by - ay) * (by - ay);
      const t = -(ax * (bx - ax) + ay * (by - ay)) / square;
      return t > 0 && t < 1 ? [t] : [];
    }
    case 'cubic':
      return runsOn(c) ? [] : speedMinima([c.from, c.control1, c.control2, c.to]);
    case 'arc': {
      const quarter = Math.PI / 2;
      const low = Math.min(c.start, c.start + c.sweep);
      const turns = Array.from(
        { length: Math.ceil(Math.abs(c.sweep) / quarter) + 1 },
        (_, k) => ((Math.ceil(low / quarter) + k) * quarter - c.start) / c.sweep,
      );
      return turns.filter((t) => t > 0 && t < 1).sort((s, t) => s - t);
    }
  }
}

/**
 * Whether all legs of a cubic's control polygon point within a right angle of each other: then B′, a mean of them, comes
 * nowhere near zero, and the rule needs no places to break at.
 */
function runsOn({ from, control1, control2, to }: CubicCurve): boolean {
  const ax = control1[0] - from[0];
  const ay = control1[1] - from[1];
  const bx = control2[0] - control1[0];
  const by = control2[1] - control1[1];
  const dx = to[0] - control2[0];
  const dy = to[1] - control2[1];
  return ax * bx + ay * by > 0 && ax * dx + ay * dy > 0 && bx * dx + by * dy > 0;
}

/** Roots of B′·B″. */
function speedMinima(controls: readonly Point[]): number[] {
  const terms = ([0, 1] as const).map((k) => {
    const first = controls.slice(1).map((p, i) => p[k] - controls[i][k]);
    return multiplyBernstein(
      first,
      first.slice(1).map((v, i) => v - first[i]),
    );
  });
  return bernsteinRoots(combineBernstein(1, terms[0], 1, terms[1]));
}

function halve(
  measure: LengthMeasure,
  t0: number,
  t1: number,
  whole: number,
  tolerance: number,
  depth: number,
): number {
  const middle = (t0 + t1) / 2;
  const left = gaussLegendre(measure, t0, middle);
  const right = gaussLegendre(measure, middle, t1);
  if (depth === 0 || Math.abs(left + right - whole) <= tolerance) return left + right;
  return (
    halve(measure, t0, middle, left, tolerance, depth - 1) +
    halve(measure, middle, t1, right, tolerance, depth - 1)
  );
}

/** Nodes in (0, 1) and weights of the 12-point rule on [−1, 1] (roots of P₁₂; Abramowitz and Stegun 25.4.29). */
const NODES = [
  0.9815606342467192, 0.9041172563704749, 0.7699026741943047, 0.5873179542866175, 0.3678314989981802,
  0.1252334085114689,
];
const WEIGHTS = [
  0.04717533638651183, 0.10693932599531843, 0.16007832854334622, 0.20316742672306592, 0.23349253653835481,
  0.2491470458134028,
];

/** Integral of the speed between two parameters, by the 12-point rule. */
function gaussLegendre(measure: LengthMeasure, t0: number, t1: number): number {
  switch (measure.curve.kind) {
    case 'cubic':
      return cubicRule(measure.differences, t0, t1);
    case 'quadratic':
      return quadraticRule(measure.differences, t0, t1);
    case 'arc':
      return ellipseRule(measure.curve, t0, t1);
    case 'line':
      return measure.even * (t1 - t0);
  }
}

/** The rule for an ellipse: its speed is that of the ellipse that lies along the axes. */
function ellipseRule({ rx, ry, start, sweep }: ArcCurve, t0: number, t1: number): number {
  const half = (t1 - t0) / 2;
  const middle = (t0 + t1) / 2;
  let sum = 0;
  for (let i = 0; i < NODES.length; i++) {
    let both = 0;
    for (let t = middle - half * NODES[i], side = 0; side < 2; t = middle + half * NODES[i], side++) {
      const angle = start + t * sweep;
      const x = rx * Math.sin(angle);
      const y = ry * Math.cos(angle);
      both += Math.sqrt(x * x + y * y);
    }
    sum += WEIGHTS[i] * both;
  }
  return sum * half * Math.abs(sweep);
}

/** How fast a curve runs at a parameter, mm: |B′|. */
function speedAt(c: Curve, t: number): number {
  const [x, y] = derivativeAt(c, t);
  return Math.sqrt(x * x + y * y);
}

/** The rule with the speed of a cubic in place: it is asked for dozens of times. */
function cubicRule(differences: readonly number[], t0: number, t1: number): number {
  const [ax, ay, bx, by, dx, dy] = differences;
  const half = (t1 - t0) / 2;
  const middle = (t0 + t1) / 2;
  let sum = 0;
  for (let i = 0; i < NODES.length; i++) {
    let both = 0;
    for (let t = middle - half * NODES[i], side = 0; side < 2; t = middle + half * NODES[i], side++) {
      const u = 1 - t;
      const p = 3 * u * u;
      const q = 6 * u * t;
      const r = 3 * t * t;
      const x = p * ax + q * bx + r * dx;
      const y = p * ay + q * by + r * dy;
      both += Math.sqrt(x * x + y * y);
    }
    sum += WEIGHTS[i] * both;
  }
  return sum * half;
}

/** The same for a quadratic. */
function quadraticRule(differences: readonly number[], t0: number, t1: number): number {
  const [ax, ay, bx, by] = differences;
  const half = (t1 - t0) / 2;
  const middle = (t0 + t1) / 2;
  let sum = 0;
  for (let i = 0; i < NODES.length; i++) {
    let both = 0;
    for (let t = middle - half * NODES[i], side = 0; side < 2; t = middle + half * NODES[i], side++) {
      const x = 2 * ((1 - t) * ax + t * bx);
      const y = 2 * ((1 - t) * ay + t * by);
      both += Math.sqrt(x * x + y * y);
    }
    sum += WEIGHTS[i] * both;
  }
  return sum * half;
}
