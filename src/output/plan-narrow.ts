import { distanceToSegment, type Point } from '../geometry/point.js';
import { frontSheetsOf } from '../workshop/bridge-where.js';
import type { Bridge, CutPlan } from '../workshop/cut-plan.js';
import { type LineShapes, lineShapes } from '../workshop/line-shapes.js';
import { joinNumbers, millimetres } from './plan-words.js';

/** Up to so many narrow places each has a row of its own. */
const EACH_ITS_OWN = 60;

/** A row of the table of narrow places. */
export interface NarrowRow {
  /** The narrowest of them. */
  readonly bridge: Bridge;
  /** All of them. */
  readonly places: readonly Bridge[];
}

/**
 * The narrow places of a plan: those in the front sheets of a piece in one row, all others each by itself, or where there
 * are too many to read, one row for each piece or sheet.
 */
export function narrowRows({ bridges }: CutPlan): NarrowRow[] {
  const single = bridges.filter(({ where }) => frontSheetsOf(where) === null).length <= EACH_ITS_OWN;
  const rows = new Map<string | Bridge, Bridge[]>();
  for (const bridge of bridges) {
    const key = single && frontSheetsOf(bridge.where) === null ? bridge : bridge.where;
    const row = rows.get(key);
    if (row === undefined) rows.set(key, [bridge]);
    else row.push(bridge);
  }
  return [...rows.values()].map((places) => ({
    places,
    bridge: places.reduce((a, b) => (b.width < a.width ? b : a)),
  }));
}

/** Which narrow places need care when sheets are parted, and how. @param numbers of rows, from 1 */
export function partingWords(begin: string, rows: readonly NarrowRow[], numbers: readonly number[]): string {
  const width = Math.min(...numbers.map((n) => rows[n - 1].bridge.width));
  return `${begin} ${numbers.length === 1 ? 'No.' : 'Nos.'} ${joinNumbers(numbers)} in the list of narrow places, down to ${millimetres(width)} wide. Begin at the outer edge, slide the blade in flat under the whole bar, cut the tape there rather than pull it, and do not twist.`;
}

/** The rows of narrow places in pieces of several sheets, which are parted in the end. */
export function narrowInPieces(plan: CutPlan): number[] {
  const several = new Set(
    plan.pieces.filter(({ sheets, spare = [] }) => sheets.length + spare.length > 1).map(({ id }) => id),
  );
  const { regions, bodies } = plan.relief;
  return narrowRows(plan).flatMap(({ bridge }, i) => {
    const owners = bridge.regions.map((r) => regions[r].body).filter((body) => body !== null);
    const inPiece = !bridge.where.startsWith('pass ') && owners.some((body) => several.has(bodies[body].id));
    return inPiece ? [i + 1] : [];
  });
}

/** A line this near to the end of a bridge bounds it, mm: more than chords and the grid move it. */
const AT_END = 0.1;

/**
 * The narrow places that come to be with each step, by its number: those whose second side it saws. One that no
 * step saws, such as between a cut and the edge of the board, comes with the step on its one side.
 */
export function narrowBySteps(plan: CutPlan): ReadonlyMap<number, readonly Bridge[]> {
  const { map } = plan.relief;
  const shapes = lineShapes(map);
  const sawnBy = new Map<number, number>();
  let number = 0;
  for (const { steps } of plan.passes) {
    for (const { edges } of steps) {
      number++;
      for (const e of edges) if (!sawnBy.has(e)) sawnBy.set(e, number);
    }
  }
  const found = new Map<number, Bridge[]>();
  for (const bridge of plan.bridges) {
    const lines = bridge.regions.flatMap((r) => map.regions[r].loops.flat().map((step) => step.edge));
    const sides = [bridge.from, bridge.to].map((end) =>
      Math.min(...lines.filter((e) => isAt(shapes, e, end)).map((e) => sawnBy.get(e) ?? Infinity)),
    );
    const step = Math.max(...sides.filter(Number.isFinite));
    if (step > 0) found.set(step, [...(found.get(step) ?? []), bridge]);
  }
  return found;
}

function isAt(shapes: LineShapes, edge: number, at: Point): boolean {
  const xy = shapes.chords(edge);
  for (let i = 0; i + 3 < xy.length; i += 2) {
    if (distanceToSegment(at, [xy[i], xy[i + 1]], [xy[i + 2], xy[i + 3]]) < AT_END) return true;
  }
  return false;
}
