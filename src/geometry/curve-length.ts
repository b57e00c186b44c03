import { bernsteinRoots, combineBernstein, multiplyBernstein } from './bernstein.js';
import { type Curve, derivativeAt } from './curve.js';
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
  const low = Math.min(t0, t1);
  const high = Math.max(t0, t1);
  if (c.kind === 'line') return speedOf(c)(0) * (high - low);
  if (c.kind === 'arc' && c.rx === c.ry) return c.rx * Math.abs(c.sweep) * (high - low);
  const breaks = [low, ...slowPlaces(c).filter((t) => t > low && t < high), high];
  const speed = speedOf(c);
  const parts = breaks.slice(1).map((t, i) => gaussLegendre(speed, breaks[i], t));
  const tolerance = PRECISION * parts.reduce((sum, part) => sum + part, 0);
  return parts.reduce(
    (sum, part, i) => sum + halve(speed, breaks[i], breaks[i + 1], part, tolerance, MAX_DEPTH),
    0,
  );
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

function halve(
  speed: Speed,
  t0: number,
  t1: number,
  whole: number,
  tolerance: number,
  depth: number,
): number {
  const middle = (t0 + t1) / 2;
  const left = gaussLegendre(speed, t0, middle);
  const right = gaussLegendre(speed, middle, t1);
  if (depth === 0 || Math.abs(left + right - whole) <= tolerance) return left + right;
  return (
    halve(speed, t0, middle, left, tolerance, depth - 1) +
    halve(speed, middle, t1, right, tolerance, depth - 1)
  );
}

/** How fast a curve runs at a parameter, mm: |B′|. */
type Speed = (t: number) => number;

/** The speed of a curve (see `derivativeAt`) with its differences taken beforehand: quadrature asks dozens of times. */
function speedOf(c: Curve): Speed {
  if (c.kind === 'cubic') {
    const [ax, ay] = difference(c.from, c.control1);
    const [bx, by] = difference(c.control1, c.control2);
    const [dx, dy] = difference(c.control2, c.to);
    return (t) => {
      const u = 1 - t;
      const p = 3 * u * u;
      const q = 6 * u * t;
      const r = 3 * t * t;
      const x = p * ax + q * bx + r * dx;
      const y = p * ay + q * by + r * dy;
      return Math.sqrt(x * x + y * y);
    };
  }
  if (c.kind === 'quadratic') {
    const [ax, ay] = difference(c.from, c.control);
    const [bx, by] = difference(c.control, c.to);
    return (t) => {
      const x = 2 * ((1 - t) * ax + t * bx);
      const y = 2 * ((1 - t) * ay + t * by);
      return Math.sqrt(x * x + y * y);
    };
  }
  return (t) => {
    const [x, y] = derivativeAt(c, t);
    return Math.sqrt(x * x + y * y);
  };
}

function difference(a: Point, b: Point): Point {
  return [b[0] - a[0], b[1] - a[1]];
}

/** Nodes in (0, 1) and weights of the 12-point rule on [−1, 1] (roots of P₁₂; Abramowitz and Stegun 25.4.29). */
const RULE: readonly (readonly [node: number, weight: number])[] = [
  [0.9815606342467192, 0.04717533638651183],
  [0.9041172563704749, 0.10693932599531843],
  [0.7699026741943047, 0.16007832854334622],
  [0.5873179542866175, 0.20316742672306592],
  [0.3678314989981802, 0.23349253653835481],
  [0.1252334085114689, 0.2491470458134028],
];

function gaussLegendre(speed: Speed, t0: number, t1: number): number {
  const half = (t1 - t0) / 2;
  const middle = (t0 + t1) / 2;
  let sum = 0;
  for (let i = 0; i < RULE.length; i++) {
    const [node, weight] = RULE[i];
    sum += weight * (speed(middle - half * node) + speed(middle + half * node));
  }
  return sum * half;
}
