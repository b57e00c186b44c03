import { type Bounds, EMPTY_BOUNDS, joinBounds } from '../geometry/point.js';
import type { Relief } from '../relief/relief.js';
import type { Sheet } from '../relief/stack.js';
import { defineRule, type RuleFinding } from './rule.js';
import { enough, namesOf, placeOf, round2 } from './words.js';

export interface BoardTooSmallOptions {
  /** Wood to leave around the outermost line, mm. */
  readonly margin?: number;
}

/** A piece, or all pieces of a sheet, that need more of it than the board has. Page: docs/checks/board-too-small.md. */
export const boardTooSmall = defineRule<'board-too-small', BoardTooSmallOptions>({
  id: 'board-too-small',
  group: 'build',
  level: 'error',
  summary: 'a board is smaller than what is cut from it',
  model:
    'size of the box around all pieces that take from the sheet, with the margin, against the board; a board without grain may be turned',
  defaults: { margin: 0 },
  find: ({ relief }, { margin }) => {
    const found: RuleFinding[] = [];
    for (const sheet of relief.stack.sheets) {
      if (sheet.width === undefined || sheet.height === undefined) continue;
      const users = usersOf(relief, sheet.id);
      for (const group of oneBoard(sheet) ? [users] : users.map((user) => [user])) {
        const short = shortage(relief, sheet, group, margin);
        if (short !== null) found.push(describe(relief, sheet, group, short));
      }
    }
    return found;
  },
});

/** With several boards of a sheet, the pieces can be shared out among them; each must fit by itself. */
const oneBoard = (sheet: Sheet): boolean => (sheet.count ?? 1) === 1;

/** Regions of the pieces and add-ons that take from a sheet. */
function usersOf(relief: Relief, id: string): number[] {
  return [...relief.bodies, ...relief.addOns].filter((b) => b.order.includes(id)).map((b) => b.region);
}

interface Shortage {
  readonly need: number;
  readonly have: number;
  readonly box: readonly [number, number];
}

function shortage(relief: Relief, sheet: Sheet, regions: readonly number[], margin: number): Shortage | null {
  if (regions.length === 0) return null;
  const [x0, y0, x1, y1] = regions.reduce<Bounds>(
    (box, region) => joinBounds(box, relief.map.regions[region].bounds),
    EMPTY_BOUNDS,
  );
  const box: [number, number] = [x1 - x0 + 2 * margin, y1 - y0 + 2 * margin];
  const board: [number, number] = [sheet.width!, sheet.height!];
  const turned: [number, number] = [board[1], board[0]];
  const mayTurn = sheet.grain === undefined || sheet.grain === null;
  const over = ([w, h]: [number, number]): number => Math.max(box[0] - w, box[1] - h);
  const [best, excess] =
    mayTurn && over(turned) < over(board) ? [turned, over(turned)] : [board, over(board)];
  if (excess <= 0) return null;
  const side = box[0] - best[0] >= box[1] - best[1] ? 0 : 1;
  return { need: box[side], have: best[side], box };
}

function describe(relief: Relief, sheet: Sheet, regions: readonly number[], short: Shortage): RuleFinding {
  const what = regions.length === 1 ? namesOf(relief, regions) : `What is cut from ${sheet.id}`;
  const size = short.box.map(round2).join(' x ');
  return {
    message: `${what} needs ${size} mm of sheet ${sheet.id}, and its board has ${sheet.width} x ${sheet.height} mm.`,
    at: placeOf(relief, regions[0]),
    regions,
    measured: { value: round2(short.have), needed: round2(short.need), unit: 'mm' },
    fix: `Take a board of ${enough(short.box[0])} x ${enough(short.box[1])} mm or more, ${regions.length > 1 ? 'several boards of the sheet, ' : ''}or scale the drawing down.`,
  };
}
