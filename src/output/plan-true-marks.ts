import type { Bounds, Point } from '../geometry/point.js';
import type { CutStep } from '../workshop/cut-plan.js';
import { PICTURE_DIGITS, type PlanCanvas } from './plan-canvas.js';
import { drillMark, eyeMark } from './plan-marks.js';
import { millimetres } from './plan-words.js';
import { element, svgNumber, textElement } from './svg-markup.js';

/** Size of the numbers of steps, mm, and their width by letters. */
const TYPE = 1.7;
const LETTER_WIDTH = 0.56;

/** A mark on the drawing that wants its words beside it. */
interface Mark {
  readonly at: Point;
  /** From the place to the words, mm. */
  readonly aside: number;
  readonly words: string;
  readonly drawn: string;
}

/**
 * Where the blade comes into the work, on the drawing at true size: every hole, every open place to thread through,
 * every way in from the edge of the board, with step, size and setting beside it.
 *
 * @param texts what else is written there
 */
export function startMarks(
  canvas: PlanCanvas,
  texts: readonly { readonly text: string; readonly at: Point }[],
): string[] {
  const marks = marksOf(canvas);
  const taken = [
    ...texts.map(({ text, at }) => boxAround(at, text.length)),
    ...marks.map(({ at, aside }): Bounds => [at[0] - aside, at[1] - aside, at[0] + aside, at[1] + aside]),
  ];
  return marks.flatMap(({ at, aside, words, drawn }) => {
    const places = placesBeside(at, aside, words.length);
    const crowd = (box: Bounds): number => taken.reduce((sum, other) => sum + overlap(box, other), 0);
    const box = places.reduce((best, next) => (crowd(next) < crowd(best) - ROUNDING ? next : best));
    taken.push(box);
    const [x, y] = [(box[0] + box[2]) / 2, box[3] - 0.22 * TYPE];
    return [drawn, textElement(x, y, words, { 'font-size': String(TYPE), class: 'hole-number' })];
  });
}

/** Of places that are equally crowded the first one counts, mm². */
const ROUNDING = 1e-6;

function marksOf(canvas: PlanCanvas): Mark[] {
  const { plan } = canvas;
  const bits = new Set(
    plan.passes.flatMap(({ steps }) =>
      steps.flatMap(({ start }) => (start.kind === 'drill' ? [start.diameter] : [])),
    ),
  );
  let number = 0;
  return plan.passes.flatMap(({ steps, phase }, p) =>
    steps.flatMap((step): Mark[] => {
      number++;
      if (phase === 'add-ons') return [];
      const { at, kind, diameter, threaded } = step.start;
      const setting = ` · S${p + 1}`;
      if (kind === 'drill') {
        const size = bits.size > 1 ? ` · ${millimetres(diameter ?? 0, 2)}` : '';
        return [
          {
            at,
            aside: (diameter ?? 1) / 2 + 0.5,
            words: `${number}${size}${setting}`,
            drawn: drillMark(step.start, 0.4),
          },
        ];
      }
      if (threaded) return [{ at, aside: 1.3, words: `${number}${setting}`, drawn: eyeMark(at, 1.2, 0.25) }];
      return wayMarks(canvas, step, `${number}${setting}`);
    }),
  );
}

/** A way in from the edge of the board; one that is open already is not drawn again. */
function wayMarks(canvas: PlanCanvas, step: CutStep, words: string): Mark[] {
  const way = step.start.by === 'board' ? canvas.ways().get(step) : undefined;
  if (way === undefined || way.isOpen) return [];
  const num = (v: number): string => svgNumber(v, PICTURE_DIGITS);
  const { points } = way;
  const [from, to] = points;
  const d = `M${points.map(([x, y]) => `${num(x)} ${num(y)}`).join('L')}`;
  const middle: Point = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  return [{ at: middle, aside: 0.6, words, drawn: element('path', { d, class: 'way-in true-way' }) }];
}

/** Boxes for words around a place: to the right, to the left, above, below, and between. */
function placesBeside([x, y]: Point, aside: number, letters: number): Bounds[] {
  const [w, h] = [LETTER_WIDTH * TYPE * letters, TYPE];
  const near = 0.7 * aside;
  const corners: Point[] = [
    [x + near, y - near - h],
    [x + aside, y - h / 2],
    [x + near, y + near],
    [x - near - w, y - near - h],
    [x - aside - w, y - h / 2],
    [x - near - w, y + near],
    [x - w / 2, y - aside - h],
    [x - w / 2, y + aside],
  ];
  return corners.map(([left, top]): Bounds => [left, top, left + w, top + h]);
}

function boxAround([x, y]: Point, letters: number): Bounds {
  const [w, h] = [LETTER_WIDTH * TYPE * letters, TYPE];
  return [x - w / 2, y - h / 2, x + w / 2, y + h / 2];
}

/** The area that two boxes share, mm². */
function overlap(a: Bounds, b: Bounds): number {
  const width = Math.min(a[2], b[2]) - Math.max(a[0], b[0]);
  const height = Math.min(a[3], b[3]) - Math.max(a[1], b[1]);
  return width > 0 && height > 0 ? width * height : 0;
}
