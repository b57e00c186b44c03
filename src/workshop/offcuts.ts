import type { Relief } from '../relief/relief.js';
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
  return relief.stack.sheets.flatMap(({ id }, j): Offcut[] => {
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
    return [{ sheet: id, afterPass: last.number, area, regions: left, spareParts }];
  });
}
