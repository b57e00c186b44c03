import { type Curve, derivativeAt, pointAt, reverseCurve, subCurve } from '../../geometry/curve.js';
import type { Point } from '../../geometry/point.js';
import { type ChordSet, CLIP_TOLERANCE, type CountWork, chordsNear, ON_EDGE } from './chord-set.js';
import { splitParameters } from './split-curve.js';

/** How far (mm) either side of a line is looked at: beyond what chords differ from curves. */
export const SIDE_STEP = 1.5 * ON_EDGE;

/** Sine of the angle below which two lines through a point run along each other. */
const PARALLEL = 0.05;

/**
 * The edge of a region as curves, each directed so that windings count the region as +1. All outlines of the
 * region are split where they meet, and the parts with the region on one side only are kept, once each.
 */
export function regionOutline(set: ChordSet, inside: (p: Point) => boolean, count: CountWork): Curve[] {
  const outline: Curve[] = [];
  for (const [i, curve] of set.curves.entries()) {
    const ts = splitParameters(curve, set, i, count);
    for (let k = 0; k + 1 < ts.length; k++) {
      count(1);
      const turn = usual(ts[k], ts[k + 1], (t) => {
        const [right, left] = sides(curve, t).map(inside);
        return Number(right) - Number(left);
      });
      if (turn === 0 || drawnBefore(curve, (ts[k] + ts[k + 1]) / 2, i, set)) continue;
      const part = subCurve(curve, ts[k], ts[k + 1]);
      outline.push(turn > 0 ? part : reverseCurve(part));
    }
  }
  return outline;
}

/** Where a part of a curve is looked at, as shares of it. A single place may lie in a thin tip. */
const PLACES = [0.5, 0.31, 0.69, 0.17, 0.83];

/** The answer that most places of a part of a curve give; of equally many the first. */
export function usual(t0: number, t1: number, ask: (t: number) => number): number {
  const answers = PLACES.map((share) => ask(t0 + (t1 - t0) * share));
  const votes = (answer: number): number => answers.filter((other) => other === answer).length;
  return answers.reduce((best, answer) => (votes(answer) > votes(best) ? answer : best));
}

/** Points a little to the right and to the left of a curve, y pointing down; the same point twice at a cusp. */
export function sides(curve: Curve, t: number): [Point, Point] {
  const [x, y] = pointAt(curve, t);
  const [dx, dy] = derivativeAt(curve, t);
  const speed = Math.hypot(dx, dy);
  if (!(speed > 0))
    return [
      [x, y],
      [x, y],
    ];
  const [nx, ny] = [(-dy / speed) * SIDE_STEP, (dx / speed) * SIDE_STEP];
  return [
    [x + nx, y + ny],
    [x - nx, y - ny],
  ];
}

/** Whether a curve of a lower number runs along here: then that one draws the line. */
function drawnBefore(curve: Curve, t: number, number: number, set: ChordSet): boolean {
  const [dx, dy] = derivativeAt(curve, t);
  let found = false;
  chordsNear(set, pointAt(curve, t), CLIP_TOLERANCE, (chord) => {
    if (set.curveOf[chord] >= number) return undefined;
    const k = 4 * chord;
    const ex = set.ends[k + 2] - set.ends[k];
    const ey = set.ends[k + 3] - set.ends[k + 1];
    found = Math.abs(dx * ey - dy * ex) <= PARALLEL * Math.hypot(dx, dy) * Math.hypot(ex, ey);
    return found;
  });
  return found;
}
