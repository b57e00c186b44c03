import type { Point } from '../geometry/point.js';
import { boxAround, type PictureRoom, priceInRoom } from './picture-room.js';
import { distanceToChords, isBackShown, lengthOf, PART, partMark, pointAlong } from './plan-marks.js';

/** Places along a way that are tried for its number, in parts of its length, the middle first. */
const PLACES = [0.5, ...Array.from({ length: 20 }, (_, i) => [0.48 - 0.02 * i, 0.52 + 0.02 * i]).flat()];

/** How far a number stays off other ways, in units, and what one pays that is nearer. */
const OFF_WAYS = 3;
const NEAR_WAY = 30;

/**
 * The numbers of the parts that the ways back of a step lead to, each on its way, near the middle of it, off marks and
 * other ways; none where a single way is drawn. Their boxes are added to what is taken.
 *
 * @param ways one for each part but the first, null where there is none
 */
export function backNumbers(ways: readonly (readonly Point[] | null)[], room: PictureRoom): string[] {
  const { unit, taken } = room;
  const shown = ways.flatMap((way, i) =>
    way !== null && isBackShown(way, unit) ? [{ way, number: i + 2 }] : [],
  );
  if (shown.length < 2) return [];
  const half: Point = [PART.radius * unit, PART.radius * unit];
  // The way itself runs along lines that are sawn.
  const marks: PictureRoom = { ...room, lines: [] };
  return shown.map(({ way, number }) => {
    const length = lengthOf(way);
    const others = shown.filter((other) => other.way !== way);
    const priceOf = (at: Point): number =>
      priceInRoom(marks, boxAround(at, half)) +
      (others.some((other) => distanceToChords(at, other.way) < OFF_WAYS * unit) ? NEAR_WAY : 0);
    const places = PLACES.flatMap((part) => {
      const found = pointAlong(way, part * length);
      return found === null ? [] : [{ at: found[0], price: priceOf(found[0]) }];
    });
    const { at } = places.reduce((a, b) => (b.price < a.price ? b : a), {
      at: way[0],
      price: Number.POSITIVE_INFINITY,
    });
    taken.push(boxAround(at, half));
    return partMark(at, number, unit, 'to-part');
  });
}
