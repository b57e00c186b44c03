import type { Curve } from '../geometry/curve.js';
import { flattenParameters, flattenPoints } from '../geometry/flatten.js';
import type { Point } from '../geometry/point.js';
import type { CutStart, CutStep } from '../workshop/cut-plan.js';
import { CLEARANCE_TOLERANCE } from '../workshop/line-shapes.js';
import { element, svgNumber, textElement } from './svg-markup.js';
import { BASELINE } from './text-width.js';

const num = (value: number): string => svgNumber(value, 2);

/** Chords of a run of curves. */
export function chordsOf(run: readonly Curve[]): Point[] {
  return run.flatMap((c, i): Point[] => {
    const xy = flattenPoints(c, flattenParameters(c, CLEARANCE_TOLERANCE), CLEARANCE_TOLERANCE);
    const points = Array.from({ length: xy.length / 2 }, (_, k): Point => [xy[2 * k], xy[2 * k + 1]]);
    return i === 0 ? points : points.slice(1);
  });
}

/** How far along a part its arrow stands, and its size, in units. */
const ARROW = { along: 10, length: 5.2, half: 2.3 };

/** The corners of the arrow on a line, a little way on, that tells which way to saw: its head, then the two behind; null: the line has no length. */
export function arrowAt(points: readonly Point[], unit: number): readonly Point[] | null {
  const total = lengthOf(points);
  const found = pointAlong(points, Math.min(ARROW.along * unit, 0.5 * total));
  if (found === null) return null;
  const [[x, y], [ux, uy]] = found;
  const scale = Math.min(1, total / (2.2 * ARROW.length * unit));
  const [back, half] = [(ARROW.length * unit * scale) / 2, ARROW.half * unit * scale];
  return [
    [x + back * ux, y + back * uy],
    [x - back * ux - half * uy, y - back * uy + half * ux],
    [x - back * ux + half * uy, y - back * uy - half * ux],
  ];
}

export function directionMark(points: readonly Point[], unit: number): string {
  const corners = arrowAt(points, unit);
  if (corners === null) return '';
  const d = corners.map(([a, b]) => `${num(a)} ${num(b)}`).join('L');
  return element('path', { d: `M${d}Z`, class: 'way', 'stroke-width': num(0.5 * unit) });
}

/** The length of chords, mm. */
export function lengthOf(points: readonly Point[]): number {
  return points.slice(1).reduce((sum, [x, y], i) => sum + Math.hypot(x - points[i][0], y - points[i][1]), 0);
}

/** Radius of the disc of a part's number, and its type, in units. */
export const PART = { radius: 2.5, type: 3.9 };

/** How far a point is from chords, mm. */
export function distanceToChords([x, y]: Point, points: readonly Point[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < points.length; i++) {
    const [[x0, y0], [x1, y1]] = [points[i - 1], points[i]];
    const [dx, dy] = [x1 - x0, y1 - y0];
    const square = dx * dx + dy * dy;
    const part = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - x0) * dx + (y - y0) * dy) / square));
    least = Math.min(least, Math.hypot(x0 + part * dx - x, y0 + part * dy - y));
  }
  return least;
}

/** The point so far along chords, and the way on from there; null beyond the end. */
export function pointAlong(points: readonly Point[], far: number): readonly [at: Point, way: Point] | null {
  let left = far;
  for (let i = 1; i < points.length; i++) {
    const [[x0, y0], [x1, y1]] = [points[i - 1], points[i]];
    const length = Math.hypot(x1 - x0, y1 - y0);
    if (length === 0) continue;
    const way: Point = [(x1 - x0) / length, (y1 - y0) / length];
    if (left <= length) return [[x0 + left * way[0], y0 + left * way[1]], way];
    left -= length;
  }
  return null;
}

/** The number of a part in its disc; of the way to it in black. */
export function partMark(
  [x, y]: Point,
  number: number,
  unit: number,
  look: 'part' | 'to-part' = 'part',
): string {
  return (
    element('circle', { cx: num(x), cy: num(y), r: num(PART.radius * unit), class: look }) +
    textElement(x, y + BASELINE * PART.type * unit, String(number), {
      'font-size': num(PART.type * unit),
      class: look,
    })
  );
}

/** A dot where a part of a cut ends, unless it comes back to its beginning. */
export function endMark(run: readonly Curve[], unit: number): string {
  const [from, to] = [run[0].from, run[run.length - 1].to];
  if (Math.hypot(to[0] - from[0], to[1] - from[1]) < 0.01) return '';
  return element('circle', { cx: num(to[0]), cy: num(to[1]), r: num(1.1 * unit), class: 'end' });
}

/** A way back no longer than this between its ends is seen at a glance, in units. */
const GLANCE = 8;

/** The way back is drawn: where it leads to is not seen at a glance. */
export function isBackShown(way: readonly Point[], unit: number): boolean {
  if (way.length < 2) return false;
  const [from, to] = [way[0], way[way.length - 1]];
  return Math.hypot(to[0] - from[0], to[1] - from[1]) >= GLANCE * unit;
}

/** The way back along kerfs from one part of a cut to the next, in dots; none where the next begins near by. */
export function backMark(way: readonly Point[] | null, unit: number): string {
  if (way === null || !isBackShown(way, unit)) return '';
  const d = `M${way.map(([x, y]) => `${num(x)} ${num(y)}`).join('L')}`;
  const dots = `0 ${num(2.2 * unit)}`;
  return element('path', { d, class: 'back', 'stroke-width': num(1.1 * unit), 'stroke-dasharray': dots });
}

/** A hole to drill: a ring with a cross. */
export function drillMark({ at: [x, y], diameter }: CutStart, unit: number): string {
  const hole = Math.max((diameter ?? 0) / 2, 0.8 * unit);
  const arm = hole + 1.4 * unit;
  const cross = `M${num(x - arm)} ${num(y)}h${num(2 * arm)}M${num(x)} ${num(y - arm)}v${num(2 * arm)}`;
  return (
    element('circle', {
      cx: num(x),
      cy: num(y),
      r: num(hole),
      class: 'hole',
      'stroke-width': num(0.5 * unit),
    }) + element('path', { d: cross, class: 'cross', 'stroke-width': num(0.5 * unit) })
  );
}

/** The cut begins away from the mark of its start, with no line that leads in. */
export function beginsApart({ start: { at, begin }, leadIn }: CutStep): boolean {
  return begin !== undefined && leadIn === 0 && Math.hypot(begin[0] - at[0], begin[1] - at[1]) > 0.01;
}

/** The blade is threaded through an open place, and all is open from there to the line. */
export function goesThroughGap({ start: { kind, threaded, by } }: CutStep): boolean {
  return threaded && kind !== 'drill' && by === 'gap';
}

/** How far the mark of a start reaches to each side, mm. */
export function startReach({ start: { kind, diameter, threaded }, length }: CutStep, unit: number): number {
  if (kind === 'drill') return Math.max((diameter ?? 0) / 2, 0.8 * unit) + 1.4 * unit;
  const r = startRadius(length, unit);
  return threaded ? 1.3 * r : r + 0.4 * unit;
}

/** Half the size of a start's mark, mm: a short cut is not hidden by it. */
const startRadius = (length: number, unit: number): number =>
  Math.min(2 * unit, Math.max(0.15 * length, 0.9 * unit));

/** The mark of a start: a ring with a cross for a hole, a diamond for an open place to thread, a square from outside, else a ring. */
export function startMark(step: CutStep, unit: number, isOther = false): string {
  const { kind, at, begin } = step.start;
  const [x, y] = at;
  const lead =
    begin === undefined || !beginsApart(step)
      ? ''
      : goesThroughGap(step)
        ? backMark([at, begin], unit)
        : element('path', {
            d: `M${num(x)} ${num(y)}L${num(begin[0])} ${num(begin[1])}`,
            class: 'on',
            'stroke-width': num(0.8 * unit),
          });
  if (kind === 'drill') return lead + drillMark(step.start, unit);
  const r = startRadius(step.length, unit);
  if (step.start.threaded) return lead + eyeMark(at, 1.3 * r, 0.6 * unit);
  const box = { x: num(x - r), y: num(y - r), width: num(2 * r), height: num(2 * r) };
  const mark = comesFromOutside(step, isOther)
    ? element('rect', { ...box, class: 'begin', 'stroke-width': num(0.6 * unit) })
    : element('circle', {
        cx: num(x),
        cy: num(y),
        r: num(r),
        class: 'begin',
        'stroke-width': num(0.9 * unit),
      });
  return lead + mark;
}

/**
 * The blade is not in the work before a step, and is not threaded: it comes in from outside.
 *
 * @param isOther another block has been put on the table for it
 */
export function comesFromOutside(
  { start: { kind, by, outside, threaded } }: CutStep,
  isOther = false,
): boolean {
  return !threaded && (isOther || kind === 'edge' || by === 'board' || outside === true);
}

/** A place that is open, through which the blade is threaded: the eye of a needle, a diamond with a slit. */
export function eyeMark([x, y]: Point, r: number, width: number): string {
  const d = `M${num(x - r)} ${num(y)}L${num(x)} ${num(y - r)}L${num(x + r)} ${num(y)}L${num(x)} ${num(y + r)}ZM${num(x)} ${num(y - 0.5 * r)}V${num(y + 0.5 * r)}`;
  return element('path', { d, class: 'begin eye', 'stroke-width': num(width) });
}
