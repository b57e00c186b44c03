import { bernsteinRoots, combineBernstein, multiplyBernstein } from './bernstein.js';
import { type CubicCurve, type Curve, derivativeAt, type QuadraticCurve } from './curve.js';
import type { Point } from './point.js';

/** Relative error at which halving a stretch stops. */
const PRECISION = 1e-12;

/** Halvings after which a stretch is too short to matter. */
const MAX_DEPTH = 40;

/** Length between two parameters of a curve (either order), mm, never negative. */
export type LengthBetween = (t0: number, t1: number) => number;

/**
 * Length of a curve between parameters `t0` and `t1` (either order), mm, never negative. Closed form for lines
 * and circles; else Gauss-Legendre quadrature of the speed between its minima, halved until it settles: 1e-10
 * relative, cusps included.
 */
export function curveLength(c: Curve, t0 = 0, t1 = 1): number {
  return lengthsOn(c)(t0, t1);
}

/** `curveLength` for many parts of one curve: what does not depend on the part is found once. */
export function lengthsOn(c: Curve): LengthBetween {
  const speed = speedOf(c);
  if (c.kind === 'line') {
    const whole = speed(0);
    return (t0, t1) => whole * (Math.max(t0, t1) - Math.min(t0, t1));
  }
  if (c.kind === 'arc' && c.rx === c.ry) {
    const whole = c.rx * Math.abs(c.sweep);
    return (t0, t1) => whole * (Math.max(t0, t1) - Math.min(t0, t1));
  }
  const slow = slowPlaces(c);
  const rule = ruleFor(c, speed);
  return (t0, t1) => lengthBetween(rule, slow, Math.min(t0, t1), Math.max(t0, t1));
}

function lengthBetween(rule: Rule, slow: readonly number[], low: number, high: number): number {
  const breaks = [low];
  for (const t of slow) if (t > low && t < high) breaks.push(t);
  breaks.push(high);
  const parts: number[] = [];
  let whole = 0;
  for (let i = 0; i + 1 < breaks.length; i++) {
    parts.push(rule(breaks[i], breaks[i + 1]));
    whole += parts[i];
  }
  const tolerance = PRECISION * whole;
  let sum = 0;
  for (let i = 0; i < parts.length; i++)
    sum += halve(rule, breaks[i], breaks[i + 1], parts[i], tolerance, MAX_DEPTH);
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
    case 'quadratic':
      return speedMinima([c.from, c.control, c.to]);
    case 'cubic':
      return speedMinima([c.from, c.control1, c.control2, c.to]);
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

function halve(rule: Rule, t0: number, t1: number, whole: number, tolerance: number, depth: number): number {
  const middle = (t0 + t1) / 2;
  const left = rule(t0, middle);
  const right = rule(middle, t1);
  if (depth === 0 || Math.abs(left + right - whole) <= tolerance) return left + right;
  return (
    halve(rule, t0, middle, left, tolerance, depth - 1) + halve(rule, middle, t1, right, tolerance, depth - 1)
  );
}

/** How fast a curve runs at a parameter, mm: |B′|. */
type Speed = (t: number) => number;

/** The speed of a curve (see `derivativeAt`). */
function speedOf(c: Curve): Speed {
  return (t) => {
    const [x, y] = derivativeAt(c, t);
    return Math.sqrt(x * x + y * y);
  };
}

/** Integral of the speed between two parameters, by the 12-point rule. */
type Rule = (t0: number, t1: number) => number;

function ruleFor(c: Curve, speed: Speed): Rule {
  switch (c.kind) {
    case 'cubic':
      return cubicRule(c);
    case 'quadratic':
      return quadraticRule(c);
    default:
      return (t0, t1) => gaussLegendre(speed, t0, t1);
  }
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

function gaussLegendre(speed: Speed, t0: number, t1: number): number {
  const half = (t1 - t0) / 2;
  const middle = (t0 + t1) / 2;
  let sum = 0;
  for (let i = 0; i < NODES.length; i++)
    sum += WEIGHTS[i] * (speed(middle - half * NODES[i]) + speed(middle + half * NODES[i]));
  return sum * half;
}

/** The rule with a cubic's differences taken beforehand and its speed in place: it is asked for dozens of times. */
function cubicRule(c: CubicCurve): Rule {
  const [ax, ay] = difference(c.from, c.control1);
  const [bx, by] = difference(c.control1, c.control2);
  const [dx, dy] = difference(c.control2, c.to);
  return (t0, t1) => {
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
  };
}

function quadraticRule(c: QuadraticCurve): Rule {
  const [ax, ay] = difference(c.from, c.control);
  const [bx, by] = difference(c.control, c.to);
  return (t0, t1) => {
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
  };
}

function difference(a: Point, b: Point): Point {
  return [b[0] - a[0], b[1] - a[1]];
}
