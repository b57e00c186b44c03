import type { Bounds, Point } from '../geometry/point.js';
import type { CutStep, LooseWaste } from '../workshop/cut-plan.js';
import { PICTURE_DIGITS, type PlanCanvas } from './plan-canvas.js';
import { element, svgNumber, textElement } from './svg-markup.js';

const num = (value: number): string => svgNumber(value, PICTURE_DIGITS);

/** Radius of a letter's disc, and size of a number of waste, in units. */
const LETTER = 3.1;
const NUMBER = 4.2;

/** Letters in what comes loose or apart with a step, and numbers in the waste of the board that comes off with it. */
export function stepLetters(canvas: PlanCanvas, step: CutStep, unit: number, view: Bounds): string[] {
  const { blocks, wasteNumbers } = canvas;
  const { lumps, apart } = blocks.step(step);
  const lettered = [
    ...lumps.map(({ letter, regions }) => ({ letter, regions })),
    ...(step.boardApart ?? []).map(({ regions }, i) => ({ letter: apart[i], regions })),
  ];
  return [
    ...lettered.map(({ letter, regions }) => letterMark(letter, widestIn(canvas, regions, view), unit)),
    ...(step.wasteOff ?? []).map((waste) =>
      numberMark(`w${wasteNumbers.get(waste)}`, placeInWaste(waste, view), unit),
    ),
  ];
}

/** Where the widest of some regions has its label, of those that have it in the picture; null: none. */
function widestIn({ plan }: PlanCanvas, regions: readonly number[], view: Bounds): Point | null {
  const all = plan.relief.map.regions;
  const inView = regions.filter((r) => isIn(all[r].labelPoint, view));
  if (inView.length === 0) return null;
  return all[inView.reduce((a, r) => (all[r].labelRoom > all[a].labelRoom ? r : a))].labelPoint;
}

const isIn = ([x, y]: Point, [x0, y0, x1, y1]: Bounds): boolean => x > x0 && x < x1 && y > y0 && y < y1;

/** How many lines across a part are tried for a place. */
const TRIES = 24;

/** The middle of the widest stretch across a part of the waste, as far as the picture shows it; null: it does not. */
export function placeInWaste({ loops }: Pick<LooseWaste, 'loops'>, view: Bounds): Point | null {
  const [x0, , x1] = view;
  const points = loops.flat();
  const top = points.reduce((least, [, y]) => Math.min(least, y), Number.POSITIVE_INFINITY);
  const bottom = points.reduce((most, [, y]) => Math.max(most, y), Number.NEGATIVE_INFINITY);
  const [y0, y1] = [Math.max(view[1], top), Math.min(view[3], bottom)];
  if (y1 <= y0) return null;
  let best: Point | null = null;
  let width = 0;
  for (let i = 1; i < TRIES; i++) {
    const y = y0 + ((y1 - y0) * i) / TRIES;
    const hits = loops.flatMap((loop) => crossings(loop, y)).sort((a, b) => a - b);
    for (let k = 0; k + 1 < hits.length; k += 2) {
      const [from, to] = [Math.max(x0, hits[k]), Math.min(x1, hits[k + 1])];
      if (to - from <= width) continue;
      width = to - from;
      best = [(from + to) / 2, y];
    }
  }
  return best;
}

/** Where a closed chain of chords crosses a level line. */
function crossings(loop: readonly Point[], y: number): number[] {
  return loop.flatMap(([ax, ay], i): number[] => {
    const [bx, by] = loop[(i + 1) % loop.length];
    return ay > y === by > y ? [] : [ax + ((y - ay) / (by - ay)) * (bx - ax)];
  });
}

function letterMark(letter: string, at: Point | null, unit: number): string {
  if (at === null) return '';
  const [x, y] = at;
  const r = LETTER * unit;
  return (
    element('circle', { cx: num(x), cy: num(y), r: num(r), class: 'letter' }) +
    textElement(x, y + 0.44 * r, letter, { 'font-size': num(1.28 * r), class: 'letter' })
  );
}

function numberMark(text: string, at: Point | null, unit: number): string {
  if (at === null) return '';
  const size = NUMBER * unit;
  return textElement(at[0], at[1] + 0.36 * size, text, { 'font-size': num(size), class: 'id' });
}
