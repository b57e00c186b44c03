import { distanceToSegment, type Point } from '../geometry/point.js';
import { CLEARANCE_TOLERANCE, type LineShapes } from './line-shapes.js';

/** Chords of lines, `[x0, y0, x1, y1]` one after the other. */
export type Chords = Float64Array;

/** The chords of some lines in one list. */
export function gatherChords(shapes: LineShapes, edges: readonly number[]): Chords {
  const runs = edges.map((e) => shapes.chords(e));
  const chords = new Float64Array(runs.reduce((n, xy) => n + 2 * (xy.length - 2), 0));
  let at = 0;
  for (const xy of runs) {
    for (let i = 0; i + 3 < xy.length; i += 2, at += 4) chords.set(xy.subarray(i, i + 4), at);
  }
  return chords;
}

/**
 * A length that is surely free from a point to the nearest of the lines, mm: the distance to their chords less
 * what the curves may come nearer.
 */
export function roomAround(chords: Chords, at: Point): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < chords.length; i += 4) {
    const d = distanceToSegment(at, [chords[i], chords[i + 1]], [chords[i + 2], chords[i + 3]]);
    if (d < least) least = d;
  }
  return least - CLEARANCE_TOLERANCE;
}

/** Whether a point lies inside closed lines, by the even-odd rule. */
export function isInside(chords: Chords, [x, y]: Point): boolean {
  let inside = false;
  for (let i = 0; i < chords.length; i += 4) {
    const [x0, y0, x1, y1] = [chords[i], chords[i + 1], chords[i + 2], chords[i + 3]];
    if (y0 > y !== y1 > y && x < x0 + ((y - y0) / (y1 - y0)) * (x1 - x0)) inside = !inside;
  }
  return inside;
}
