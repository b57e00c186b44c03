import type { Curve } from '../geometry/curve.js';
import { flattenParameters, flattenPoints } from '../geometry/flatten.js';
import type { Point } from '../geometry/point.js';
import type { CutPlan, CutStep } from '../workshop/cut-plan.js';
import { CLEARANCE_TOLERANCE } from '../workshop/line-shapes.js';
import { element, svgNumber, textElement } from './svg-markup.js';

/** The number of a step, in what it frees, else at its start. */
export function numberMark(
  map: CutPlan['relief']['map'],
  step: CutStep,
  number: number,
  size: number,
): string {
  const region = step.frees === 'piece' || step.frees === 'waste' ? map.regions[step.regions[0]] : null;
  const [x, y] = region?.labelPoint ?? step.start.at;
  const fit = region === null ? size : Math.max(0.55 * size, Math.min(size, region.labelRoom * 0.8));
  return textElement(x, y + 0.36 * fit, String(number), { 'font-size': fit });
}

/** The id in its region, or beside it where the mark of the start would hide it. */
export function idMark(
  region: CutPlan['relief']['map']['regions'][number],
  id: string,
  step: CutStep,
  unit: number,
): string {
  const size = Math.max(3.4 * unit, Math.min(5 * unit, region.labelRoom));
  const [x, y] = region.labelPoint;
  const [sx, sy] = step.start.at;
  const hidden = Math.abs(sx - x) < 2 * size && Math.abs(sy - y) < 1.4 * size;
  const [, top, right] = region.bounds;
  const at = hidden && region.labelRoom < 3 * size ? [right + size, top - 0.4 * size] : [x, y];
  return textElement(at[0], at[1] + 0.36 * size, id, { 'font-size': size, class: 'id' });
}

/** Chords of a run of curves. */
export function chordsOf(run: readonly Curve[]): Point[] {
  return run.flatMap((c, i): Point[] => {
    const xy = flattenPoints(c, flattenParameters(c, CLEARANCE_TOLERANCE), CLEARANCE_TOLERANCE);
    const points = Array.from({ length: xy.length / 2 }, (_, k): Point => [xy[2 * k], xy[2 * k + 1]]);
    return i === 0 ? points : points.slice(1);
  });
}

/** A triangle on the line, a little way on, that tells which way to saw. */
export function directionMark(points: readonly Point[], unit: number): string {
  let left = 9 * unit;
  for (let i = 1; i < points.length; i++) {
    const [x0, y0] = points[i - 1];
    const [dx, dy] = [points[i][0] - x0, points[i][1] - y0];
    const length = Math.hypot(dx, dy);
    if (length < left && i + 1 < points.length) {
      left -= length;
      continue;
    }
    if (length === 0) return '';
    const part = Math.min(1, left / length);
    const [x, y] = [x0 + dx * part, y0 + dy * part];
    const [ux, uy] = [dx / length, dy / length];
    const tip: Point = [x + 2.8 * unit * ux, y + 2.8 * unit * uy];
    const one: Point = [x - 1.5 * unit * uy, y + 1.5 * unit * ux];
    const two: Point = [x + 1.5 * unit * uy, y - 1.5 * unit * ux];
    const d = [tip, one, two].map(([a, b]) => `${svgNumber(a, 2)} ${svgNumber(b, 2)}`).join('L');
    return element('path', { d: `M${d}Z`, class: 'way' });
  }
  return '';
}

/** The mark of a start: a ring with a cross for a hole, a solid square for the edge, a ring for an open place. */
export function startMark(step: CutStep, unit: number): string {
  const { kind, at, diameter, begin } = step.start;
  const [x, y] = at;
  const r = 2 * unit;
  if (kind === 'drill') {
    const hole = Math.max((diameter ?? 0) / 2, 0.8 * unit);
    const lead =
      begin === undefined
        ? ''
        : `M${svgNumber(x, 2)} ${svgNumber(y, 2)}L${svgNumber(begin[0], 2)} ${svgNumber(begin[1], 2)}`;
    const arm = hole + 1.4 * unit;
    const cross = `M${svgNumber(x - arm, 2)} ${svgNumber(y, 2)}h${svgNumber(2 * arm, 2)}M${svgNumber(x, 2)} ${svgNumber(y - arm, 2)}v${svgNumber(2 * arm, 2)}`;
    return (
      (lead === '' ? '' : element('path', { d: lead, class: 'lead', 'stroke-width': 0.8 * unit })) +
      element('circle', { cx: x, cy: y, r: hole, class: 'hole' }) +
      element('path', { d: cross, class: 'cross', 'stroke-width': 0.5 * unit })
    );
  }
  if (kind === 'edge')
    return element('rect', { x: x - r, y: y - r, width: 2 * r, height: 2 * r, class: 'begin' });
  return element('circle', { cx: x, cy: y, r, class: 'begin' });
}
