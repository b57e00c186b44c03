import { EMPTY_BOUNDS, joinBounds } from '../geometry/point.js';
import type { Relief } from '../relief/relief.js';
import type { Sheet } from '../relief/stack.js';
import { sheetOf } from '../relief/stack-height.js';
import type { Offcut, Pass } from './cut-plan.js';
import type { SheetDemand } from './sheet-sets.js';
import type { StandingStock } from './standing-stock.js';

/** What is left of every sheet that was in the saw, front to back; by the stock as it is at the end of the job. */
export function pieceOffcuts(
  relief: Relief,
  stock: StandingStock,
  demand: SheetDemand,
  passes: readonly Pass[],
): Offcut[] {
  const { map } = relief;
  return relief.stack.sheets.flatMap((sheet, j): Offcut[] => {
    const { id } = sheet;
    const last = passes.findLast((pass) => pass.phase === 'pass' && pass.sheets.includes(id));
    if (last === undefined) return [];
    const inSheet = 1 << j;
    const left = map.regions.flatMap((region, r) =>
      !region.addOn && (stock.gone[r] & inSheet) === 0 ? [r] : [],
    );
    const spareParts = relief.bodies.flatMap(({ id: body, order }, b) =>
      demand.passOf[b] > j && !order.includes(id) ? [body] : [],
    );
    const area = left.reduce((sum, r) => sum + map.regions[r].area, 0);
    const pieces = relief.bodies.filter((body) => body.order.includes(id)).map((body) => body.id);
    const standing = new Set(left);
    const spareShapes = relief.bodies
      .filter(
        ({ region, recesses, covered, order }) =>
          [region, ...recesses, ...covered].every((r) => standing.has(r)) &&
          order.some((own) => isLike(sheetOf(relief.stack, own), sheet)),
      )
      .map((body) => body.id);
    return [{ sheet: id, afterPass: last.number, area, regions: left, pieces, spareParts, spareShapes }];
  });
}

/** Thicknesses nearer than this count as one, mm: less than a sheet of paper. */
const SAME_THICKNESS = 0.05;

/** A part of the one sheet can stand in for a part of the other. */
function isLike(a: Sheet, b: Sheet): boolean {
  return a.material === b.material && Math.abs(a.thickness - b.thickness) < SAME_THICKNESS;
}

/** Room around the drawing to hold the board by where the outline is sawn, mm. Common practice, no source. */
const HOLD = 15;

/** The least board that holds the drawing, mm. */
export function boardSize({ map, frame }: Relief): { readonly width: number; readonly height: number } {
  const [x0, y0, x1, y1] = map.regions.reduce((box, region) => joinBounds(box, region.bounds), EMPTY_BOUNDS);
  const around = frame === 'cut' ? 2 * HOLD : 0;
  return x1 < x0 ? { width: 0, height: 0 } : { width: x1 - x0 + around, height: y1 - y0 + around };
}
