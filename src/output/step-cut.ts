import type { Curve } from '../geometry/curve.js';
import { pathData } from '../geometry/path-data.js';
import { type Bounds, boundsOf, type Point } from '../geometry/point.js';
import type { CutStep, WayIn } from '../workshop/cut-plan.js';
import { stepCurves } from '../workshop/step-curves.js';
import { backNumbers } from './back-numbers.js';
import { partPlaces } from './part-numbers.js';
import { boxAround, type PictureRoom } from './picture-room.js';
import { PICTURE_DIGITS, type PlanCanvas } from './plan-canvas.js';
import {
  arrowAt,
  backMark,
  beginsApart,
  chordsOf,
  directionMark,
  endMark,
  partMark,
  startMark,
  startReach,
} from './plan-marks.js';
import { element, svgNumber } from './svg-markup.js';

/** What a step saws in a picture. */
export interface StepCut {
  readonly step: CutStep;
  readonly runs: readonly (readonly Curve[])[];
  /** Chords of the runs, mm. */
  readonly chords: readonly (readonly Point[])[];
  /** The ways back from each part to the next. */
  readonly back: readonly (readonly Point[] | null)[];
  /** Another block goes on the table for it. */
  readonly isOther: boolean;
}

export function stepCut(
  { plan, shapes, blocks }: PlanCanvas,
  step: CutStep,
  back: readonly (readonly Point[] | null)[],
): StepCut {
  const runs = stepCurves(plan.relief.map, step, shapes);
  const isOther = blocks.step(step).change !== undefined;
  return { step, runs, chords: runs.map(chordsOf), back, isOther };
}

/** Chords of all that is drawn of a cut: its lines, the way from its start to them, its ways in, its ways back. */
export function linesOfCut({ step, chords, back }: StepCut): (readonly Point[])[] {
  const { start, waysIn = [] } = step;
  return [
    ...chords,
    ...(start.begin !== undefined && beginsApart(step) ? [[start.at, start.begin]] : []),
    ...waysIn.map(({ points }) => points),
    ...back.flatMap((way) => (way === null ? [] : [way])),
  ];
}

/** Radius of the dot where a part ends, in units, with its rim. */
const END_REACH = 1.2;

/** Boxes of the marks of a cut: its start, the ends of its parts, the arrows. */
export function marksOfCut({ step, chords, isOther }: StepCut, unit: number): Bounds[] {
  const reach = startReach(step, unit);
  const end = END_REACH * unit;
  const start = isOther ? Math.max(reach, 2 * unit) : reach;
  return [
    boxAround(step.start.at, [start, start]),
    ...chords.flatMap((run): Bounds[] => {
      const arrow = arrowAt(run, unit);
      const last = run[run.length - 1];
      return [...(arrow === null ? [] : [boundsOf(arrow)]), boxAround(last, [end, end])];
    }),
  ];
}

/** What is drawn of a cut, from below: its lines, the ends of its parts, where it begins and its numbers. */
export type CutMarks = readonly [lines: string, ends: string, starts: string];

/**
 * The line of a step with its marks. Its numbers are placed in the room that there is.
 *
 * @param number written at its start; null: the parts are numbered instead
 */
export function cutMarks(
  { shapes }: PlanCanvas,
  { step, runs, chords, back, isOther }: StepCut,
  number: number | null,
  room: PictureRoom,
): CutMarks {
  const { unit } = room;
  const lead = step.edges.slice(0, step.leadIn).map((e) => shapes.curves(e));
  const [first, numbered] = number === null ? [1, runs.length > 1 ? chords : []] : [number, [chords[0]]];
  const places = partPlaces(numbered, room);
  const lines = [
    element('path', {
      d: pathData(runs, { digits: PICTURE_DIGITS }),
      class: 'now',
      'stroke-width': 1.1 * unit,
    }),
    lead.length === 0
      ? ''
      : element('path', {
          d: pathData(lead, { digits: PICTURE_DIGITS }),
          class: 'lead',
          'stroke-width': 0.6 * unit,
        }),
    ...back.map((way) => backMark(way, unit)),
  ];
  const arrows = runs.map((run, i) => endMark(run, unit) + directionMark(chords[i], unit));
  const starts = [
    ...(step.waysIn ?? []).map(({ points, from }) => wayMark(points, from, unit)),
    startMark(step, unit, isOther),
    ...backNumbers(back, room),
    ...places.map((at, i) => partMark(at, first + i, unit)),
  ];
  return [lines.join(''), arrows.join(''), starts.join('')];
}

/** A way through the waste of the board: in short dashes where it is sawn now, thin and grey where it is open already. */
export function wayMark(points: readonly Point[], from: WayIn['from'], unit: number): string {
  const d = `M${points.map(([x, y]) => `${svgNumber(x, PICTURE_DIGITS)} ${svgNumber(y, PICTURE_DIGITS)}`).join('L')}`;
  const [look, width] = from === 'open' ? ['way-open', 0.45] : ['way-in', 0.7];
  return element('path', { d, class: look, 'stroke-width': svgNumber(width * unit, PICTURE_DIGITS) });
}
