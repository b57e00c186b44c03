import type { Point } from '../../src/geometry/point.js';
import { type LineSet, packLines } from '../../src/plane/line-set.js';
import { type RandomSource, shuffled } from './random.js';

/** Polylines as arrays of points, mm. */
export type LineWork = readonly (readonly Point[])[];

/** A motion of the page that keeps the grid: shifts by whole steps, mirroring, quarter turns. */
export type Motion = (p: Point) => Point;

/** The motions under which the same faces are promised. Shifts in mm that are whole grid steps. */
export const MOTIONS: Readonly<Record<string, Motion>> = {
  shift: ([x, y]) => [x + 37 + 5 / 1024, y - 12 - 3 / 1024],
  mirror: ([x, y]) => [-x, y],
  flip: ([x, y]) => [x, -y],
  quarter: ([x, y]) => [-y, x],
  half: ([x, y]) => [-x, -y],
};

/** The lines after a motion. */
export function moved(lines: LineWork, motion: Motion): LineWork {
  return lines.map((line) => line.map(motion));
}

/** The same lines in other words: another order, some drawn backwards, some drawn twice. */
export function redrawn(lines: LineWork, random: RandomSource): LineWork {
  const out = lines.map((line) => (random() < 0.5 ? line : [...line].reverse()));
  for (const line of lines) if (random() < 0.3) out.push(random() < 0.5 ? line : [...line].reverse());
  return shuffled(out, random);
}

/** Every segment as a line of its own. */
export function exploded(lines: LineWork): LineWork {
  return lines.flatMap((line) => line.slice(1).map((p, i) => [line[i], p]));
}

/** A closed polyline: the first point again at the end. */
export function closed(points: readonly Point[]): readonly Point[] {
  return [...points, points[0]];
}

/** The corners of a box, closed. */
export function box(x: number, y: number, width: number, height: number): readonly Point[] {
  return closed([
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ]);
}

/** Packed for `arrangeLines`. */
export function lineSet(lines: LineWork): LineSet {
  return packLines(lines);
}
