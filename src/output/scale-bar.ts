import { INK } from './palette.js';
import { element, group, textElement } from './svg-markup.js';

/** The roundest length (1, 2 or 5 times a power of ten) that is no longer than `most`, mm. */
export function roundLength(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most));
  // The logarithm may round up to the next power, hence the half.
  const factor = [5, 2, 1, 0.5].find((each) => each * power <= most) ?? 0.5;
  return Number((factor * power).toPrecision(1));
}

/** A scale bar that ends at `right`, no longer than `most` mm, with its length written below it. */
export function scaleBar(right: number, y: number, unit: number, most: number): string {
  const length = roundLength(most);
  const left = right - length;
  const height = unit * 0.55;
  const half = length / 2;
  const edge = { height, stroke: INK.line, 'stroke-width': 0.12 * unit };
  const type = { 'font-size': unit * 1.1, fill: INK.line };
  const below = y + height + unit * 1.4;
  return group({ id: 'scale' }, [
    element('rect', { x: left, y, width: half, fill: INK.line, ...edge }),
    element('rect', { x: left + half, y, width: half, fill: INK.paper, ...edge }),
    textElement(left, below, '0', { ...type, 'text-anchor': 'middle' }),
    textElement(right, below, `${length} mm`, { ...type, 'text-anchor': 'end' }),
  ]);
}
