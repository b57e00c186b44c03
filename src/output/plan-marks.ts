import type { Curve } from '../geometry/curve.js';
import { flattenParameters, flattenPoints } from '../geometry/flatten.js';
import type { Bounds, Point } from '../geometry/point.js';
import type { CutPlan, CutStart, CutStep } from '../workshop/cut-plan.js';
import { CLEARANCE_TOLERANCE } from '../workshop/line-shapes.js';
import { element, svgNumber, textElement } from './svg-markup.js';
import { BASELINE } from './text-width.js';

const num = (value: number): string => svgNumber(value, 2);

/** Smallest size of an id, in units: 2.3 mm in the picture of a step as printed. */
const LEAST_ID = 3.9;

/** What an id keeps off, and where it may stand. */
export interface IdRoom {
  /** Where marks stand, mm. Ids are added. */
  readonly taken: Point[];
  readonly view: Bounds;
}

/** The id in its region, or beside it with a leader where it has no room there or marks would hide it. */
export function idMark(
  region: CutPlan['relief']['map']['regions'][number],
  id: string,
  step: CutStep,
  unit: number,
  { taken, view }: IdRoom,
): string {
  const size = Math.max(LEAST_ID * unit, Math.min(5 * unit, region.labelRoom));
  const [x, y] = region.labelPoint;
  const half = 0.3 * size * id.length;
  const isNear = ([tx, ty]: Point, across: number, down: number): boolean =>
    Math.abs(tx - x) < across && Math.abs(ty - y) < down;
  // The mark of the start is larger than a dot.
  const hidden =
    isNear(step.start.at, 2 * size, 1.4 * size) ||
    taken.some((mark) => isNear(mark, half + 0.3 * size, 0.7 * size));
  const small = region.labelRoom < 0.28 * size * id.length;
  if (!small && !(hidden && region.labelRoom < 3 * size)) {
    taken.push([x, y]);
    return textElement(x, y + 0.36 * size, id, { 'font-size': num(size), class: 'id' });
  }
  // The hole and the way from it stand there: the step names the waste.
  if (step.frees === 'waste') return '';
  const at = placeBeside(region.bounds, [half, size], taken, view);
  taken.push(at);
  const reach = Math.hypot(at[0] - x, at[1] - y);
  const part = Math.max(0, 1 - (1.1 * half) / Math.max(reach, half));
  const leader = `M${num(x)} ${num(y)}L${num(x + part * (at[0] - x))} ${num(y + part * (at[1] - y))}`;
  return (
    element('path', { d: leader, class: 'leader', 'stroke-width': num(0.35 * unit) }) +
    textElement(at[0], at[1] + 0.36 * size, id, { 'font-size': num(size), class: 'id' })
  );
}

/** The place around a box, within the view, that is furthest from all marks; the first that is far enough. */
function placeBeside(
  [left, top, right, bottom]: Bounds,
  [half, size]: readonly [number, number],
  taken: readonly Point[],
  view: Bounds,
): Point {
  const [aside, off] = [half + 0.4 * size, 0.7 * size];
  const [cx, cy] = [(left + right) / 2, (top + bottom) / 2];
  const all: Point[] = [
    [right + aside, top - off],
    [left - aside, top - off],
    [right + aside, bottom + off],
    [left - aside, bottom + off],
    [right + aside, cy],
    [left - aside, cy],
    [cx, top - 1.2 * off],
    [cx, bottom + 1.2 * off],
  ];
  const inside = all.filter(
    ([x, y]) => x - half > view[0] && x + half < view[2] && y - size > view[1] && y + size < view[3],
  );
  const places = inside.length > 0 ? inside : all;
  const room = ([x, y]: Point): number =>
    taken.reduce(
      (least, [tx, ty]) => Math.min(least, Math.hypot((tx - x) / (half + size), (ty - y) / (1.5 * size))),
      Number.POSITIVE_INFINITY,
    );
  return places.find((at) => room(at) > 1) ?? places.reduce((a, b) => (room(b) > room(a) ? b : a));
}

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

/** An arrow on the line, a little way on, that tells which way to saw. */
export function directionMark(points: readonly Point[], unit: number): string {
  const lengths = points.slice(1).map((p, i) => Math.hypot(p[0] - points[i][0], p[1] - points[i][1]));
  const total = lengths.reduce((sum, length) => sum + length, 0);
  let left = Math.min(ARROW.along * unit, 0.5 * total);
  for (let i = 0; i < lengths.length; i++) {
    if (lengths[i] < left) {
      left -= lengths[i];
      continue;
    }
    if (lengths[i] === 0) return '';
    const [x0, y0] = points[i];
    const [ux, uy] = [(points[i + 1][0] - x0) / lengths[i], (points[i + 1][1] - y0) / lengths[i]];
    const [x, y] = [x0 + ux * left, y0 + uy * left];
    const scale = Math.min(1, total / (2.2 * ARROW.length * unit));
    const [back, half] = [(ARROW.length * unit * scale) / 2, ARROW.half * unit * scale];
    const corners: Point[] = [
      [x + back * ux, y + back * uy],
      [x - back * ux - half * uy, y - back * uy + half * ux],
      [x - back * ux + half * uy, y - back * uy - half * ux],
    ];
    const d = corners.map(([a, b]) => `${num(a)} ${num(b)}`).join('L');
    return element('path', { d: `M${d}Z`, class: 'way', 'stroke-width': num(0.5 * unit) });
  }
  return '';
}

/** Radius of the disc of a part's number, how far beside the line it stands, and its type, in units. */
const PART = { radius: 2.5, aside: 3.8, type: 3.9 };

/** The disc of a part's number stays so far off all lines of the cut, in units. */
const PART_CLEAR = PART.radius + 0.7;

/**
 * Where the numbers of the parts of a cut stand, each at its beginning: beside the lines of all parts, and where several
 * begin together apart from each other.
 */
export function partPlaces(runs: readonly (readonly Point[])[], unit: number): Point[] {
  const taken: Point[] = [];
  for (const run of runs) {
    const places = placesAtBeginning(run, unit);
    const room = (at: Point): number =>
      taken.reduce(
        (least, other) => Math.min(least, Math.hypot(at[0] - other[0], at[1] - other[1])),
        Number.POSITIVE_INFINITY,
      );
    const free = places.filter((at) => room(at) > 2.2 * PART.radius * unit);
    const clear = free.find((at) => runs.every((line) => distanceToChords(at, line) > PART_CLEAR * unit));
    taken.push(clear ?? free[0] ?? places.reduce((best, next) => (room(next) > room(best) ? next : best)));
  }
  return taken;
}

/** Beside the line, so that neither line nor arrow is hidden; the nearest to its beginning first. */
function placesAtBeginning(points: readonly Point[], unit: number): Point[] {
  const along = [0, 6, 12, 18].flatMap((far) => {
    const found = pointAlong(points, far * unit);
    return found === null ? [] : [found];
  });
  const places = [PART.aside, FAR_ASIDE].flatMap((off) =>
    along.flatMap(([[x, y], [ux, uy]]) =>
      [1, -1].map((side): Point => {
        const aside = side * off * unit;
        return [x - aside * uy, y + aside * ux];
      }),
    ),
  );
  // Of a cut of no length the number stands at its place.
  return places.length > 0 ? places : [points[0]];
}

/** Where lines lie close beside the beginning the number stands further off, in units. */
const FAR_ASIDE = 6;

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
  // A short cut is not hidden by its mark.
  const r = Math.min(2 * unit, Math.max(0.15 * step.length, 0.9 * unit));
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
