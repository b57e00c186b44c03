import type { Point } from '../geometry/point.js';
import { boxAround, type LinePrices, type PictureRoom, priceInRoom } from './picture-room.js';
import { PART, pointAlong } from './plan-marks.js';

/** How far beside a line the disc of a part's number stands, and how far on from its beginning, in units. */
const ASIDE = [3.8, 5, 6.2, 7.5, 9];
const ALONG = [0, 3, 6, 9, 12, 16];

/** A disc hides a bit of a line that is not sawn now for little. */
const DISC_PRICES: LinePrices = { cut: 40, line: 2 };

/** What a place costs for each unit from the beginning, and where another part begins nearer. */
const FAR = 1;
const NEARER_OTHER = 25;

/**
 * Where the numbers of the parts of a cut stand, each near its beginning: off the marks of start, ends and arrows, beside
 * the lines of all parts, apart from each other. Their boxes are added to what is taken.
 *
 * @param runs the chords of each part
 */
export function partPlaces(runs: readonly (readonly Point[])[], room: PictureRoom): Point[] {
  const { unit, taken } = room;
  const half: Point = [PART.radius * unit, PART.radius * unit];
  const begins = runs.map(([begin]) => begin);
  return runs.map((run) => {
    const farFrom = (at: Point, [x, y]: Point): number => Math.hypot(at[0] - x, at[1] - y) / unit;
    const priceOf = (at: Point): number => {
      const far = farFrom(at, run[0]);
      const isNearer = begins.some((begin) => farFrom(at, begin) < far - NEARER_LEAST);
      return priceInRoom(room, boxAround(at, half), DISC_PRICES) + FAR * far + (isNearer ? NEARER_OTHER : 0);
    };
    const places = placesAtBeginning(run, unit).map((at) => ({ at, price: priceOf(at) }));
    const { at } = places.reduce((a, b) => (b.price < a.price ? b : a));
    taken.push(boxAround(at, half));
    return at;
  });
}

/** Another beginning is nearer where it is so by this, in units. */
const NEARER_LEAST = 0.5;

/** Beside the line, so that neither line nor arrow is hidden, and behind its beginning. */
function placesAtBeginning(points: readonly Point[], unit: number): Point[] {
  const places = ASIDE.flatMap((off) =>
    ALONG.flatMap((far): Point[] => {
      const found = pointAlong(points, far * unit);
      if (found === null) return [];
      const [[x, y], [ux, uy]] = found;
      const aside = off * unit;
      const beside = [1, -1].map((side): Point => [x - side * aside * uy, y + side * aside * ux]);
      return far === 0 ? [...beside, [x - aside * ux, y - aside * uy]] : beside;
    }),
  );
  // Of a cut of no length the number stands at its place.
  return places.length === 0 ? [points[0]] : places;
}
