import type { Bounds, Point } from '../geometry/point.js';
import { boxOfWay, type SegmentField, segmentField, segmentsInBox } from '../geometry/segment-field.js';
import { segmentMeetsBox } from '../geometry/segment-meeting.js';
import { boxesMeet } from './box-grid.js';

/** Lines in a picture that labels keep off. */
export interface PictureLines {
  readonly field: SegmentField;
  /** How far a label stays off them, mm. */
  readonly off: number;
  /** Sawn now, or a way. */
  readonly isCut: boolean;
}

/** What a label pays for each line under it. */
export interface LinePrices {
  readonly cut: number;
  readonly line: number;
}

/** What is drawn in the picture of a step: each label keeps off it, and off the labels before. */
export interface PictureRoom {
  readonly view: Bounds;
  /** The measure of the marks, mm. */
  readonly unit: number;
  readonly lines: readonly PictureLines[];
  /** Boxes of marks and labels; those of labels are added. */
  readonly taken: Bounds[];
}

/** What a label pays outside the picture, and on a mark or another label. */
const OUTSIDE = 1000;
const ON_MARK = 150;

/** What a word pays for the lines under it. */
export const WORD_PRICES: LinePrices = { cut: 80, line: 60 };

/** A label beside what it speaks of pays for its leader, and for each mark or label that this passes. */
const LEADER = 4;
const PASSED = 30;

/** And for beginning elsewhere than at the best place. */
const OTHER_ORIGIN = 1;

/** Directions and distances (in units, from the edge of the label) tried beside a place. */
const TURNS = 24;
const STEPS = 20;
const NEAREST = 2.2;
const STEP = 1.6;

/** Chords as a field of segments. */
export function fieldOfChords(chords: readonly (readonly Point[])[]): SegmentField {
  const ends = chords.flatMap((points) =>
    points.slice(1).flatMap(([x, y], i) => [points[i][0], points[i][1], x, y]),
  );
  return segmentField(Float64Array.from(ends));
}

export const boxAround = ([x, y]: Point, [w, h]: Point): Bounds => [x - w, y - h, x + w, y + h];

/** What a label in this box pays. */
export function priceInRoom(
  { view, lines, taken }: PictureRoom,
  box: Bounds,
  prices: LinePrices = WORD_PRICES,
): number {
  let price = 0;
  if (box[0] < view[0] || box[1] < view[1] || box[2] > view[2] || box[3] > view[3]) price += OUTSIDE;
  for (const other of taken) if (boxesMeet(box, other)) price += ON_MARK;
  for (const { field, off, isCut } of lines) {
    const grown: Bounds = [box[0] - off, box[1] - off, box[2] + off, box[3] + off];
    price += (isCut ? prices.cut : prices.line) * segmentsInBox(field, grown, MOST_LINES);
  }
  return price;
}

/** No more lines are counted under one label. */
const MOST_LINES = 3;

/** A place for a label and what it pays there. */
export interface RoomPlace {
  readonly at: Point;
  readonly price: number;
}

/** The first of some places where a label pays nothing, else the cheapest; null: there are no places. */
export function cheapestPlace(room: PictureRoom, half: Point, places: readonly Point[]): RoomPlace | null {
  let best: RoomPlace | null = null;
  for (const at of places) {
    const price = priceInRoom(room, boxAround(at, half));
    if (price === 0) return { at, price };
    if (best === null || price < best.price) best = { at, price };
  }
  return best;
}

/** A place beside what a label speaks of, and where its leader begins. */
export interface BesidePlace extends RoomPlace {
  readonly from: Point;
}

/**
 * The cheapest place beside what a label speaks of, near it, with a leader that passes no mark.
 *
 * @param origins where the leader may begin, the best first
 */
export function placeBeside(room: PictureRoom, half: Point, origins: readonly Point[]): BesidePlace | null {
  const { unit, taken } = room;
  let best: BesidePlace | null = null;
  for (const [i, from] of origins.entries()) {
    const inMark = (other: Bounds): boolean => boxesMeet([...from, ...from], other);
    const begin = LEADER + i * OTHER_ORIGIN + (taken.some(inMark) ? PASSED : 0);
    for (let step = 0; step < STEPS; step++) {
      const far = NEAREST + step * STEP;
      if (best !== null && begin + far >= best.price) break;
      for (let turn = 0; turn < TURNS; turn++) {
        const angle = (2 * Math.PI * (turn + 0.5)) / TURNS;
        const at: Point = [
          from[0] + Math.cos(angle) * (far * unit + half[0]),
          from[1] + Math.sin(angle) * (far * unit + half[1]),
        ];
        let price = begin + far + priceInRoom(room, boxAround(at, half));
        if (best !== null && price >= best.price) continue;
        const way = boxOfWay(from, at);
        for (const other of taken) {
          if (boxesMeet(way, other) && segmentMeetsBox(from, at, other)) price += PASSED;
        }
        if (best === null || price < best.price) best = { at, price, from };
      }
    }
  }
  return best;
}

/** Where the leader from a place ends at the edge of a label. */
export function leaderEndAt([x, y]: Point, at: Point, [w, h]: Point): Point {
  const [dx, dy] = [x - at[0], y - at[1]];
  const part = Math.min(1, dx === 0 ? 1 : w / Math.abs(dx), dy === 0 ? 1 : h / Math.abs(dy));
  return [at[0] + dx * part, at[1] + dy * part];
}
