import type { Bounds, Point } from '../geometry/point.js';
import type { CutStep, LooseWaste } from '../workshop/cut-plan.js';
import { PICTURE_DIGITS, type PlanCanvas } from './plan-canvas.js';
import { distanceToChords } from './plan-marks.js';
import { element, svgNumber, textElement } from './svg-markup.js';

const num = (value: number): string => svgNumber(value, PICTURE_DIGITS);

/** Radius of a letter's disc, and size of a number of waste, in units. */
const LETTER = 3.1;
const NUMBER = 4.2;

/** What is drawn of the steps of a picture, which letters and numbers keep off. */
export interface DrawnMarks {
  readonly marks: readonly Point[];
  /** Chords of lines and ways. */
  readonly lines: readonly (readonly Point[])[];
}

/** How far letters and numbers stay off marks, and off lines, in units; letters stay inside the picture by so much. */
const OFF_MARKS = 5.6;
const OFF_LINES = 3.2;
const OFF_EDGE = 0.5;

/** Letters in what comes loose or apart with a step, and numbers in the waste of the board that comes off with it. */
export function stepLetters(
  canvas: PlanCanvas,
  step: CutStep,
  unit: number,
  view: Bounds,
  { marks, lines }: DrawnMarks = { marks: [], lines: [] },
): string[] {
  const { blocks, wasteNumbers } = canvas;
  const { lumps, apart } = blocks.step(step);
  const lettered = [
    ...lumps.map(({ letter, regions }) => ({ letter, regions })),
    ...(step.boardApart ?? []).map(({ regions }, i) => ({ letter: apart[i], regions })),
  ];
  const taken = [...marks];
  const keep = (at: Point | null): Point | null => {
    if (at !== null) taken.push(at);
    return at;
  };
  const offMarks = (at: Point): number =>
    taken.reduce(
      (least, [x, y]) => Math.min(least, Math.hypot(at[0] - x, at[1] - y) / (OFF_MARKS * unit)),
      Number.POSITIVE_INFINITY,
    );
  const offLines = (at: Point, some: readonly (readonly Point[])[]): number =>
    some.reduce(
      (least, line) => Math.min(least, distanceToChords(at, line) / (OFF_LINES * unit)),
      Number.POSITIVE_INFINITY,
    );
  return [
    ...lettered.map(({ letter, regions }) =>
      letterMark(letter, keep(widestIn(canvas, regions, view, (LETTER + OFF_EDGE) * unit, offMarks)), unit),
    ),
    ...(step.wasteOff ?? []).map((waste) => {
      const around = [...lines, ...waste.loops.map((loop) => [...loop, loop[0]])];
      const room = (at: Point): number => Math.min(offMarks(at), offLines(at, around));
      return numberMark(`w${wasteNumbers.get(waste)}`, keep(placeInWaste(waste, view, room)), unit);
    }),
  ];
}

/**
 * Where the widest of some regions has its label, of those that have it in the picture and where no mark stands, drawn
 * in from the edge of the picture; null: none.
 *
 * @param room how free a place is, 1 and more: free
 */
function widestIn(
  { plan }: PlanCanvas,
  regions: readonly number[],
  view: Bounds,
  edge: number,
  room: (at: Point) => number,
): Point | null {
  const all = plan.relief.map.regions;
  const [x0, y0, x1, y1] = view;
  const inView = regions
    .filter((r) => isIn(all[r].labelPoint, view))
    .sort((a, b) => all[b].labelRoom - all[a].labelRoom || a - b)
    .map((r): Point => {
      const [x, y] = all[r].labelPoint;
      return [Math.min(x1 - edge, Math.max(x0 + edge, x)), Math.min(y1 - edge, Math.max(y0 + edge, y))];
    });
  return inView.find((at) => room(at) >= 1) ?? inView[0] ?? null;
}

const isIn = ([x, y]: Point, [x0, y0, x1, y1]: Bounds): boolean => x > x0 && x < x1 && y > y0 && y < y1;

/** How many lines across a part are tried for a place. */
const TRIES = 24;

/** Places in a stretch that are tried, in parts of it, the middle first. */
const ACROSS = [0.5, 0.3, 0.7];

/**
 * A place in a part of the waste, as far as the picture shows it: in the middle of the widest stretch across it, or in
 * the widest that has a free place, or at the freest; null: the picture does not show it.
 *
 * @param room how free a place is, 1 and more: free
 */
export function placeInWaste(
  { loops }: Pick<LooseWaste, 'loops'>,
  view: Bounds,
  room: (at: Point) => number = () => 1,
): Point | null {
  const [x0, , x1] = view;
  const points = loops.flat();
  const top = points.reduce((least, [, y]) => Math.min(least, y), Number.POSITIVE_INFINITY);
  const bottom = points.reduce((most, [, y]) => Math.max(most, y), Number.NEGATIVE_INFINITY);
  const [y0, y1] = [Math.max(view[1], top), Math.min(view[3], bottom)];
  if (y1 <= y0) return null;
  const stretches: { width: number; from: number; y: number }[] = [];
  for (let i = 1; i < TRIES; i++) {
    const y = y0 + ((y1 - y0) * i) / TRIES;
    const hits = loops.flatMap((loop) => crossings(loop, y)).sort((a, b) => a - b);
    for (let k = 0; k + 1 < hits.length; k += 2) {
      const [from, to] = [Math.max(x0, hits[k]), Math.min(x1, hits[k + 1])];
      if (to > from) stretches.push({ width: to - from, from, y });
    }
  }
  stretches.sort((a, b) => b.width - a.width || a.y - b.y);
  let best: Point | null = null;
  let most = Number.NEGATIVE_INFINITY;
  for (const part of ACROSS) {
    for (const { width, from, y: at } of stretches) {
      const place: Point = [from + part * width, at];
      const free = room(place);
      if (free >= 1) return place;
      if (free > most) [best, most] = [place, free];
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
