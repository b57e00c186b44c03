import type { Point } from '../geometry/point.js';
import { textWidth } from './text-width.js';

/** How a label is set: number above id, side by side, side by side on a plate, or so without a plate. */
export type LabelForm = 'stacked' | 'line' | 'callout' | 'beside';

/** The words of a label. */
export interface LabelWords {
  /** The depth number as written, or null where there is none yet: then the id stands alone. */
  readonly number: string | null;
  readonly id: string;
}

/** A label's form and type sizes, in the unit of the picture. */
export interface LabelShape {
  readonly form: LabelForm;
  /** Of the number; of the id where it stands alone. */
  readonly size: number;
  /** Of the id beside a number. */
  readonly idSize: number;
}

/** Height of digits, gap between two lines, gap between number and id: in parts of the number's size. */
export const DIGIT_HEIGHT = 0.74;
const LINE_GAP = 0.22;
export const WORD_GAP = 0.28;

/** A plate is this much wider and as high, in parts of the number's size. */
const PLATE = { wider: 0.7, height: 1.32 };

/** Width and height of a label as drawn, the plate of a callout included. */
export function labelExtent(words: LabelWords, shape: LabelShape): Point {
  const { form, size, idSize } = shape;
  if (form === 'stacked' && words.number !== null) {
    const width = Math.max(textWidth(words.number, size, true), textWidth(words.id, idSize));
    return [width, size * (DIGIT_HEIGHT + LINE_GAP) + idSize * DIGIT_HEIGHT];
  }
  const width = lineWidth(words, shape);
  return form === 'callout'
    ? [width + size * PLATE.wider, size * PLATE.height]
    : [width, size * DIGIT_HEIGHT];
}

/** Width of number and id side by side. */
export function lineWidth({ number, id }: LabelWords, { size, idSize }: LabelShape): number {
  if (number === null) return textWidth(id, size);
  return textWidth(number, size, true) + size * WORD_GAP + textWidth(id, idSize);
}
