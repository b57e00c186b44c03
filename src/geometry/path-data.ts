import { arcFromEndpoints } from './arc.js';
import { type ArcCurve, type Curve, pointAt, subCurve } from './curve.js';
import { flattenParameters } from './flatten.js';
import { distance, type Point } from './point.js';

/** How path data is written. */
export interface PathDataOptions {
  /**
   * Digits after the point, 0 to 12. A run with an arc that would read back more than twice the rounding of a
   * point away is written with more.
   */
  readonly digits?: number;
}

/** 0.5e-4 mm per coordinate, 0.7e-4 mm in all: well under half a grid step of 2⁻¹¹ = 4.9e-4 mm. */
export const PATH_DATA_DEFAULTS: Required<PathDataOptions> = { digits: 4 };

/** Digits beyond which doubles of this size say no more. */
const MOST_DIGITS = 12;

/**
 * Largest sweep of one command `A`; a wider arc is written in parts. Near half a turn the centre that a reader
 * computes moves by the root of the rounding, and at a full turn the ends coincide.
 */
const WIDEST_ARC = (2 * Math.PI) / 3;

/** How far an arc may read back from where it is, in units of the last of the digits asked for. */
const ARC_SLACK = 2;

/**
 * SVG path data of runs of curves, in mm: absolute `M L Q C A Z`, one subpath a run, rounded to `digits`.
 *
 * - A run that ends where it began is closed with `Z`, which also draws its last side where that is straight.
 * - Where a curve does not begin where the one before it ended, a line joins them.
 * - A curve that is nothing but a point after rounding is left out; so `A` never has coinciding ends.
 * - An empty run writes nothing.
 */
export function pathData(runs: readonly (readonly Curve[])[], options: PathDataOptions = {}): string {
  const { digits } = { ...PATH_DATA_DEFAULTS, ...options };
  return runs.map((run) => runData(run, digits)).join('');
}

function runData(run: readonly Curve[], digits: number): string {
  const parts = run.flatMap((c) => (c.kind === 'arc' ? splitArc(c) : [c]));
  const slack = ARC_SLACK * 10 ** -digits;
  let d = digits;
  while (d < MOST_DIGITS && !parts.every((c) => c.kind !== 'arc' || readsBack(c, d, slack))) d++;
  return parts.length === 0 ? '' : writeRun(parts, d);
}

/** An arc in even parts that a reader finds again; an arc without width as the lines that it runs along. */
function splitArc(c: ArcCurve): Curve[] {
  if (Math.min(c.rx, c.ry) === 0) {
    const t = flattenParameters(c, Math.max(c.rx, c.ry));
    return Array.from(t.subarray(1), (v, i) => ({ kind: 'line', from: pointAt(c, t[i]), to: pointAt(c, v) }));
  }
  const n = Math.ceil(Math.abs(c.sweep) / WIDEST_ARC);
  return Array.from({ length: n }, (_, i) => subCurve(c, i / n, (i + 1) / n));
}

/** Whether a reader of `A` with so many digits gets the arc within `slack`. */
function readsBack(c: ArcCurve, digits: number, slack: number): boolean {
  const [from, to] = [roundPoint(c.from, digits), roundPoint(c.to, digits)];
  if (from[0] === to[0] && from[1] === to[1]) return distance(pointAt(c, 0.5), c.from) <= slack;
  const [rx, ry, rotation] = [c.rx, c.ry, degrees(c)].map((v) => round(v, digits));
  const read = arcFromEndpoints(from, rx, ry, rotation, false, c.sweep > 0, to);
  return (
    read !== null &&
    read.kind === 'arc' &&
    [0.25, 0.5, 0.75].every((t) => distance(pointAt(read, t), pointAt(c, t)) <= slack)
  );
}

function degrees(c: ArcCurve): number {
  return c.rx === c.ry ? 0 : (c.rotation * 180) / Math.PI;
}

function writeRun(parts: readonly Curve[], digits: number): string {
  const write = (p: Point): string => join([digitsOf(p[0], digits), digitsOf(p[1], digits)]);
  const start = write(parts[0].from);
  const commands: [letter: string, operands: string][] = [];
  let here = start;
  const lineTo = (there: string): void => {
    if (there !== here) commands.push(['L', there]);
    here = there;
  };
  for (const c of parts) {
    lineTo(write(c.from));
    const to = write(c.to);
    if (c.kind === 'line') {
      lineTo(to);
      continue;
    }
    if (c.kind === 'arc') {
      if (to === here) continue;
      const shape = [c.rx, c.ry, degrees(c)].map((v) => digitsOf(v, digits));
      commands.push(['A', join([...shape, '0', c.sweep > 0 ? '1' : '0', to])]);
    } else {
      const controls = (c.kind === 'quadratic' ? [c.control] : [c.control1, c.control2]).map(write);
      if (to === here && controls.every((p) => p === here)) continue;
      commands.push([c.kind === 'quadratic' ? 'Q' : 'C', join([...controls, to])]);
    }
    here = to;
  }
  const closed = commands.length > 0 && here === start;
  if (closed && commands[commands.length - 1][0] === 'L') commands.pop();
  if (commands.length === 0) return '';
  let last = '';
  const text = commands.map(([letter, operands]) => {
    const repeated = letter === last;
    last = letter;
    return repeated ? (operands.startsWith('-') ? operands : ` ${operands}`) : letter + operands;
  });
  return `M${start}${text.join('')}${closed ? 'Z' : ''}`;
}

/** Numbers in a row; a minus sign parts them by itself. */
function join(numbers: readonly string[]): string {
  return numbers.map((v, i) => (i > 0 && !v.startsWith('-') ? ` ${v}` : v)).join('');
}

/** A number in plain decimal notation without trailing zeros. */
function digitsOf(v: number, digits: number): string {
  const text = v.toFixed(digits);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
}

function round(v: number, digits: number): number {
  return Number(v.toFixed(digits));
}

function roundPoint(p: Point, digits: number): Point {
  return [round(p[0], digits), round(p[1], digits)];
}
