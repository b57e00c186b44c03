import { PICTURE_DIGITS } from './plan-canvas.js';
import { drillMark, eyeMark } from './plan-marks.js';
import { element, svgNumber } from './svg-markup.js';
import type { TrueDrawing } from './true-drawing.js';
import { EYE, type TrueStart } from './true-starts.js';
import { leaderMarkup, wordMarkup } from './true-words.js';

/** The marks of the true-size drawing in the look of the printed plan: starts with their words, ids, leaders. */
export function trueMarks({ starts, ids, cutouts, steps }: TrueDrawing): string {
  const group = (name: string, parts: readonly string[]): string =>
    parts.some((part) => part !== '') ? `<g class="${name}">${parts.join('')}</g>` : '';
  return [
    ...starts.map(startMarkup),
    group(
      'aside',
      [...ids, ...cutouts, ...steps].map((label) => leaderMarkup(label, PICTURE_DIGITS)),
    ),
    group(
      'steps-at',
      steps.map((label) => wordMarkup(label, PICTURE_DIGITS)),
    ),
    group(
      'faint',
      [...ids, ...cutouts].map((label) => wordMarkup(label, PICTURE_DIGITS)),
    ),
  ].join('');
}

/** The measure of the cross of a hole, mm. */
const CROSS_UNIT = 0.36;

function startMarkup({ kind, start, way }: TrueStart): string {
  if (kind === 'drill') return drillMark(start, CROSS_UNIT);
  if (kind === 'thread') return eyeMark(start.at, EYE, 0.25);
  const num = (v: number): string => svgNumber(v, PICTURE_DIGITS);
  const d = `M${way.map(([x, y]) => `${num(x)} ${num(y)}`).join('L')}`;
  return element('path', { d, class: 'way-in true-way' });
}
