import type { Point } from '../geometry/point.js';
import type { CutStep, LooseWaste } from '../workshop/cut-plan.js';
import { boxAround, cheapestPlace, leaderEndAt, type PictureRoom, placeBeside } from './picture-room.js';
import { placesInLoops } from './places-in-loops.js';
import { PICTURE_DIGITS, type PlanCanvas } from './plan-canvas.js';
import { element, svgNumber, textElement } from './svg-markup.js';

const num = (value: number): string => svgNumber(value, PICTURE_DIGITS);

/** Largest and smallest size of an id, in units: 2.3 mm in the picture of a step as printed. */
const ID = { largest: 5, smallest: 3.9 };

/** Radius of a letter's disc, and size of a number of waste, in units. */
const LETTER = 3.1;
const WASTE = 4.2;

/** Room around a letter, in units. */
const OFF_EDGE = 0.5;

/** Half the width of bold digits and small letters, and half the height of a word, with a little room, in parts of its size. */
const HALF_WIDTH = 0.3;
const HALF_HEIGHT = 0.58;

/** A place beside a region is taken where one in it pays more than this more. */
const WORTH_LEAVING = 6;

const wordExtent = (text: string, size: number): Point => [
  HALF_WIDTH * size * (text.length + 0.4),
  HALF_HEIGHT * size,
];

/** The id in its region, smaller where it has to be, or beside it with a leader where it has no free place there. */
export function idMark(
  canvas: PlanCanvas,
  region: number,
  id: string,
  step: CutStep,
  room: PictureRoom,
): string {
  const { unit, view } = room;
  const { labelPoint, labelRoom } = canvas.plan.relief.map.regions[region];
  const large = Math.max(ID.smallest * unit, Math.min(ID.largest * unit, labelRoom));
  const sizes = large > ID.smallest * unit ? [large, ID.smallest * unit] : [large];
  let size = large;
  let inside = cheapestPlace(room, wordExtent(id, size), [labelPoint]);
  if (inside !== null && inside.price > 0) {
    const places = [labelPoint, ...placesInLoops(regionLoops(canvas, region), view)];
    for (const next of sizes) {
      size = next;
      inside = cheapestPlace(room, wordExtent(id, size), places);
      if (inside?.price === 0) break;
    }
  }
  if (inside?.price === 0) return word(id, size, inside.at, room);
  // The hole and the way from it stand there: the step names the waste.
  if (step.frees === 'waste') return '';
  const half = wordExtent(id, size);
  const beside = placeBeside(room, half, [
    labelPoint,
    ...origins(placesInLoops(regionLoops(canvas, region), view)),
  ]);
  if (beside === null || (inside !== null && inside.price + WORTH_LEAVING <= beside.price)) {
    return inside === null ? '' : word(id, size, inside.at, room);
  }
  return leader(beside.from, beside.at, half, unit) + word(id, size, beside.at, room);
}

/** Letters in what comes loose or apart with a step, and numbers in the waste of the board that comes off with it. */
export function stepLetters(canvas: PlanCanvas, step: CutStep, room: PictureRoom): string[] {
  const { blocks, wasteNumbers } = canvas;
  const { lumps, apart } = blocks.step(step);
  const lettered = [
    ...lumps.map(({ letter, regions }) => ({ letter, regions })),
    ...(step.boardApart ?? []).map(({ regions }, i) => ({ letter: apart[i], regions })),
  ];
  return [
    ...(step.wasteOff ?? []).map((waste) => wasteMark(`w${wasteNumbers.get(waste)}`, waste, room)),
    ...lettered.map(({ letter, regions }) => letterMark(letter, letterPlace(canvas, regions, room), room)),
  ];
}

/** Where regions have their labels, the widest first, drawn in from the edge of the picture; then elsewhere in the widest. */
function letterPlace(canvas: PlanCanvas, regions: readonly number[], room: PictureRoom): Point | null {
  const all = canvas.plan.relief.map.regions;
  const [x0, y0, x1, y1] = room.view;
  const edge = (LETTER + OFF_EDGE) * room.unit;
  const inView = regions
    .filter((r) => isIn(all[r].labelPoint, room))
    .sort((a, b) => all[b].labelRoom - all[a].labelRoom || a - b);
  const places = inView.map((r): Point => {
    const [x, y] = all[r].labelPoint;
    return [Math.min(x1 - edge, Math.max(x0 + edge, x)), Math.min(y1 - edge, Math.max(y0 + edge, y))];
  });
  const half: Point = [LETTER * room.unit, LETTER * room.unit];
  const first = cheapestPlace(room, half, places);
  if (first === null || first.price === 0) return first?.at ?? null;
  const widest = inView.slice(0, WIDEST).flatMap((r) => placesInLoops(regionLoops(canvas, r), room.view));
  return cheapestPlace(room, half, [first.at, ...widest])?.at ?? null;
}

/** So many regions of a block are searched for a free place. */
const WIDEST = 3;

const isIn = ([x, y]: Point, { view: [x0, y0, x1, y1] }: PictureRoom): boolean =>
  x > x0 && x < x1 && y > y0 && y < y1;

function letterMark(letter: string, at: Point | null, { unit, taken }: PictureRoom): string {
  if (at === null) return '';
  const [x, y] = at;
  const r = LETTER * unit;
  taken.push(boxAround(at, [r, r]));
  return (
    element('circle', { cx: num(x), cy: num(y), r: num(r), class: 'letter' }) +
    textElement(x, y + 0.44 * r, letter, { 'font-size': num(1.28 * r), class: 'letter' })
  );
}

/** A number in a part of the waste, or beside it with a leader where it has no free place there. */
function wasteMark(text: string, { loops }: Pick<LooseWaste, 'loops'>, room: PictureRoom): string {
  const size = WASTE * room.unit;
  const half = wordExtent(`${text} `, size);
  const places = placesInLoops(loops, room.view);
  const inside = cheapestPlace(room, half, places);
  if (inside === null) return '';
  if (inside.price === 0) return word(text, size, inside.at, room);
  const beside = placeBeside(room, half, origins(places));
  if (beside === null || inside.price + WORTH_LEAVING <= beside.price) {
    return word(text, size, inside.at, room);
  }
  return leader(beside.from, beside.at, half, room.unit) + word(text, size, beside.at, room);
}

/** Places in an area where a leader may begin: the middle of its widest stretch, and some others. */
const origins = (places: readonly Point[]): Point[] =>
  Array.from(
    { length: Math.min(ORIGINS, places.length) },
    (_, i) => places[Math.floor((i * places.length) / ORIGINS)],
  );
const ORIGINS = 6;

function word(text: string, size: number, at: Point, { taken }: PictureRoom): string {
  taken.push(boxAround(at, wordExtent(text, size)));
  return textElement(at[0], at[1] + 0.36 * size, text, { 'font-size': num(size), class: 'id' });
}

/** From a dot in what a label speaks of to the label. */
function leader([x, y]: Point, at: Point, half: Point, unit: number): string {
  const [ex, ey] = leaderEndAt([x, y], at, half);
  return (
    element('path', {
      d: `M${num(x)} ${num(y)}L${num(ex)} ${num(ey)}`,
      class: 'leader',
      'stroke-width': num(0.35 * unit),
    }) + element('circle', { cx: num(x), cy: num(y), r: num(0.55 * unit), class: 'leader-dot' })
  );
}

/** The outline of a region and its holes as closed chains of chords. */
function regionLoops({ plan, shapes }: PlanCanvas, region: number): Point[][] {
  return plan.relief.map.regions[region].loops.map((loop) =>
    loop.flatMap(({ edge, forward }) => {
      const xy = shapes.chords(edge);
      const points = Array.from({ length: xy.length / 2 }, (_, i): Point => [xy[2 * i], xy[2 * i + 1]]);
      // Each chain ends where the next begins.
      return (forward ? points : points.reverse()).slice(0, -1);
    }),
  );
}
