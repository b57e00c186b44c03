import type { Bounds, Point } from '../geometry/point.js';
import type { CutPlan } from '../workshop/cut-plan.js';
import { boardAround } from '../workshop/waste-border.js';
import { textWidth } from './text-width.js';

/** The edge of the least board on a drawing at true size. */
export interface BoardMark {
  /** mm */
  readonly board: Bounds;
  /** What is written inside its edge, and the middle of that. */
  readonly text: string;
  readonly at: Point;
  readonly size: number;
  /** The room of the words. */
  readonly box: Bounds;
}

/** Type of the words, how far inside the edge they stand, and room around them, mm. */
const TYPE = 2.4;
const INSIDE = 2.6;
const CLEAR = 1;

/** Places along the upper and the lower edge that are tried, in parts of it, the middle first. */
const PLACES = [0.5, 0.35, 0.65, 0.25, 0.75];

/**
 * Where the outline is sawn out of a board: the edge of the least board, with its measure. Null: the outline is the edge
 * of the board, or the edge is not on the paper.
 *
 * @param area what the paper shows
 * @param ways ways in through the waste of the board: the words keep off them
 */
export function boardMark(
  { relief }: CutPlan,
  area: Bounds,
  ways: readonly (readonly Point[])[],
): BoardMark | null {
  if (relief.frame !== 'cut') return null;
  const board = boardAround(relief.map);
  const [x0, y0, x1, y1] = board;
  const text = `edge of the least board, ${Math.ceil(x1 - x0)} × ${Math.ceil(y1 - y0)} mm`;
  const half = textWidth(text, TYPE) / 2 + CLEAR;
  const rows = [y0 + INSIDE, y1 - INSIDE].filter((y) => y - TYPE > area[1] && y + TYPE < area[3]);
  const boxes = rows.flatMap((y) =>
    PLACES.map((part): Bounds => {
      const x = x0 + part * (x1 - x0);
      return [x - half, y - TYPE / 2 - CLEAR, x + half, y + TYPE / 2 + CLEAR];
    }),
  );
  const inside = boxes.filter((box) => box[0] >= Math.max(area[0], x0) && box[2] <= Math.min(area[2], x1));
  const box = inside.find((b) => !ways.some((way) => way.some((p) => isNear(p, b)))) ?? inside[0];
  if (box === undefined) return null;
  return { board, text, at: [(box[0] + box[2]) / 2, (box[1] + box[3]) / 2], size: TYPE, box };
}

/** All ways in through the waste of the board. */
export function waysFromEdge({ passes }: CutPlan): (readonly Point[])[] {
  return passes.flatMap(({ steps }) =>
    steps.flatMap(({ waysIn = [] }) => waysIn.map(({ points }) => points)),
  );
}

/** A way runs through the room of the words, or close by: it begins at the edge of the board. */
function isNear([x, y]: Point, [x0, y0, x1, y1]: Bounds): boolean {
  return x > x0 && x < x1 && y > y0 - 2 * INSIDE && y < y1 + 2 * INSIDE;
}
