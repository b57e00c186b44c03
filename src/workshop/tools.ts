import type { Point } from '../geometry/point.js';
import type { Sheet, Stack } from '../relief/stack.js';
import type { Workshop } from './cut-plan.js';
import { threadingHole } from './default-workshop.js';
import type { DrillRules } from './drill-in-waste.js';
import type { Setting } from './saw-setting.js';
import { paceOf } from './saw-time.js';
import { type SheetSet, sheetPlaces } from './sheet-sets.js';
import type { StandingStock } from './standing-stock.js';

/** The workshop, ready to work on one stack. */
export interface Tools {
  readonly workshop: Workshop;
  readonly rules: DrillRules;
  /** A setting of the saw with these sheets held together. */
  setting(stock: StandingStock, held: SheetSet): Setting;
  /** Minutes for moving so many sheets. */
  moveMinutes(moves: number): number;
}

/**
 * @param depths by region: how many lines lie between it and the outside
 * @param avoid places that holes keep away from
 */
export function makeTools(
  workshop: Workshop,
  stack: Stack,
  depths: Int32Array,
  avoid: readonly Point[],
): Tools {
  const pace = paceOf(workshop);
  const rules: DrillRules = {
    bits: workshop.bits,
    hole: threadingHole(workshop),
    margin: workshop.drillMargin,
    avoid,
  };
  return {
    workshop,
    rules,
    setting: (stock, held) => {
      const sheets: Sheet[] = sheetPlaces(held).map((j) => stack.sheets[j]);
      const height = sheets.reduce((sum, sheet) => sum + sheet.thickness, 0);
      return { stock, held, sheets: sheets.map((s) => s.id), height, workshop, rules, depths };
    },
    moveMinutes: (moves) => pace * moves * workshop.moveMinutes,
  };
}
