import { type Bounds, EMPTY_BOUNDS, joinBounds, type Point } from '../geometry/point.js';
import { type SegmentField, segmentField } from '../geometry/segment-field.js';
import { joinSteps } from '../plane/boundary-loops.js';
import { type LoopStep, OUTSIDE, type RegionMap } from '../plane/region-map.js';
import type { LineShapes } from './line-shapes.js';
import { isAddOnEdge } from './sheet-sets.js';

/** Room around the drawing on the least board, mm, to hold it by: the blade comes in from there. Common practice, no source. */
export const BOARD_ROOM = 15;

/** A corner of the border of waste. Waste lies on the left of the way on to the next corner (y points down). */
export interface BorderPoint {
  readonly at: Point;
  /** Node of the map, -1: none. */
  readonly node: number;
  /** What leads on to the next corner: a line of the map, `BOARD_LINE`, or `wayLine(w)`. */
  readonly line: number;
}

/** The edge of the board. */
export const BOARD_LINE = -1;

/** One side of a way through the waste. */
export const wayLine = (way: number): number => -2 - way;

/** The waste of the board around a picture: the board without the picture. */
export interface WasteBorder {
  /** The least board. */
  readonly board: Bounds;
  /** The edge of the board first, then a loop around every part of the picture that stands by itself. */
  readonly loops: readonly (readonly BorderPoint[])[];
  /** Lines between waste and picture, ascending. */
  readonly lines: readonly number[];
  /** The same as segments. */
  readonly field: SegmentField;
  /** The region belongs to the waste around. */
  isWaste(region: number): boolean;
  /** The region on the picture's side of such a line. */
  inner(line: number): number;
}

/**
 * The border of the waste around a picture that is sawn out of a board.
 *
 * @param isWaste regions that stay joined to the waste outside, where they touch it: voids
 */
export function wasteBorder(
  map: RegionMap,
  shapes: LineShapes,
  isWaste: (region: number) => boolean,
): WasteBorder {
  const waste = joinedToOutside(map, isWaste);
  const isOutside = (r: number): boolean => r === OUTSIDE || waste.has(r);
  const steps = map.edges.flatMap(({ left, right }, edge): LoopStep[] =>
    isOutside(left) === isOutside(right) || isAddOnEdge(map, edge)
      ? []
      : [{ edge, forward: isOutside(left) }],
  );
  const lines = steps.map(({ edge }) => edge);
  const board = boardAround(map);
  const loops = joinSteps(map, steps).map((loop) => lineLoop(map, shapes, loop));
  return {
    board,
    loops: [boardLoop(board), ...loops],
    lines,
    field: fieldOf(lines, shapes),
    isWaste: (region) => waste.has(region),
    inner: (line) => {
      const { left, right } = map.edges[line];
      return isOutside(left) ? right : left;
    },
  };
}

/** The box around the picture and room to hold the board by. */
export function boardAround(map: RegionMap): Bounds {
  const box = map.regions.reduce((all, { bounds }) => joinBounds(all, bounds), EMPTY_BOUNDS);
  return [box[0] - BOARD_ROOM, box[1] - BOARD_ROOM, box[2] + BOARD_ROOM, box[3] + BOARD_ROOM];
}

/** Waste regions from which one gets outside through waste alone. */
function joinedToOutside(map: RegionMap, isWaste: (region: number) => boolean): ReadonlySet<number> {
  const joined = new Set<number>();
  const pending = map.regions.flatMap((region, r) =>
    !region.addOn && region.outsideLength > 0 && isWaste(r) ? [r] : [],
  );
  for (let r = pending.pop(); r !== undefined; r = pending.pop()) {
    if (joined.has(r)) continue;
    joined.add(r);
    for (const { region } of map.regions[r].neighbours) {
      if (!map.regions[region].addOn && isWaste(region)) pending.push(region);
    }
  }
  return joined;
}

function lineLoop(map: RegionMap, shapes: LineShapes, loop: readonly LoopStep[]): BorderPoint[] {
  return loop.flatMap(({ edge, forward }) => {
    const xy = shapes.chords(edge);
    const count = xy.length / 2;
    const node = forward ? map.edges[edge].from : map.edges[edge].to;
    return Array.from({ length: count - 1 }, (_, i): BorderPoint => {
      const k = forward ? i : count - 1 - i;
      return { at: [xy[2 * k], xy[2 * k + 1]], node: i === 0 ? node : -1, line: edge };
    });
  });
}

function boardLoop([x0, y0, x1, y1]: Bounds): BorderPoint[] {
  const corners: Point[] = [
    [x0, y1],
    [x1, y1],
    [x1, y0],
    [x0, y0],
  ];
  return corners.map((at) => ({ at, node: -1, line: BOARD_LINE }));
}

export function fieldOf(lines: readonly number[], shapes: LineShapes): SegmentField {
  const ends = lines.flatMap((e) => {
    const xy = shapes.chords(e);
    return Array.from({ length: xy.length / 2 - 1 }, (_, i) => [...xy.subarray(2 * i, 2 * i + 4)]).flat();
  });
  return segmentField(Float64Array.from(ends));
}
