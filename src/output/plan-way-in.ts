import type { Bounds, Point } from '../geometry/point.js';
import { OUTSIDE, type RegionMap } from '../plane/region-map.js';
import { type SegmentField, segmentField, wayIsFree } from './segment-field.js';

/** Room around the drawing on the least board, mm: the blade comes in from there. */
export const BOARD_ROOM = 15;

/** Directions looked at, and how far a first leg goes where no straight way is free, mm. */
const TURNS = 48;
const LEGS = [2, 4, 7, 11, 16, 23, 32, 45];

/** The way begins this far from the line that it leads to, mm. */
const OFF_LINE = 0.3;

/**
 * A way through the waste of the board, from its edge to a place on the outline of the drawing, that crosses no line:
 * straight, or with one bend, the shortest of those looked at. Empty where none is found.
 *
 * @param field the outline of the drawing, see `outlineField`; then the box around it
 */
export function wayIn(field: SegmentField, [x0, y0, x1, y1]: Bounds, at: Point): Point[] {
  const board: Bounds = [x0 - BOARD_ROOM, y0 - BOARD_ROOM, x1 + BOARD_ROOM, y1 + BOARD_ROOM];
  const straight = shortest(directions().map((d) => legTo(field, board, step(at, d, OFF_LINE), d)));
  if (straight !== null) return [straight.end, at];
  const bent = directions().flatMap((d) =>
    LEGS.flatMap((leg) => {
      const [from, bend] = [step(at, d, OFF_LINE), step(at, d, leg)];
      if (!wayIsFree(field, from, bend)) return [];
      const rest = shortest(directions().map((e) => legTo(field, board, bend, e)));
      return rest === null ? [] : [{ bend, end: rest.end, length: leg + rest.length }];
    }),
  );
  const best = bent.reduce<(typeof bent)[number] | null>(
    (least, way) => (least === null || way.length < least.length ? way : least),
    null,
  );
  return best === null ? [] : [best.end, best.bend, at];
}

interface Leg {
  readonly end: Point;
  readonly length: number;
}

/** From a point straight out of the board, or null where a line is in the way. */
function legTo(field: SegmentField, [x0, y0, x1, y1]: Bounds, from: Point, [dx, dy]: Point): Leg | null {
  const across = dx > 0 ? (x1 - from[0]) / dx : dx < 0 ? (x0 - from[0]) / dx : Number.POSITIVE_INFINITY;
  const down = dy > 0 ? (y1 - from[1]) / dy : dy < 0 ? (y0 - from[1]) / dy : Number.POSITIVE_INFINITY;
  const length = Math.min(across, down);
  const end = step(from, [dx, dy], length);
  return wayIsFree(field, from, end) ? { end, length } : null;
}

function shortest(legs: readonly (Leg | null)[]): Leg | null {
  return legs.reduce<Leg | null>(
    (best, leg) => (leg !== null && (best === null || leg.length < best.length) ? leg : best),
    null,
  );
}

function directions(): Point[] {
  return Array.from({ length: TURNS }, (_, i): Point => {
    const angle = (2 * Math.PI * i) / TURNS;
    return [Math.cos(angle), Math.sin(angle)];
  });
}

function step([x, y]: Point, [dx, dy]: Point, length: number): Point {
  return [x + dx * length, y + dy * length];
}

/** The outline of a drawing as segments. */
export function outlineField(
  edges: RegionMap['edges'],
  chords: (edge: number) => Float64Array,
): SegmentField {
  const ends = edges.flatMap(({ left, right }, e) => {
    if (left !== OUTSIDE && right !== OUTSIDE) return [];
    const xy = chords(e);
    return Array.from({ length: xy.length / 2 - 1 }, (_, i) => [...xy.subarray(2 * i, 2 * i + 4)]).flat();
  });
  return segmentField(Float64Array.from(ends));
}
