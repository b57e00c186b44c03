import { distance, type Point } from '../geometry/point.js';
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
    clearance: workshop.bladeClearance,
    nearBridge: nearAny(avoid, BRIDGE_DISTANCE),
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

/** A hole keeps this far from the end of a thin bridge, mm. Common practice, no source. */
const BRIDGE_DISTANCE = 3;

/** Tells whether one of the points lies within `reach` of a place, by a grid of cells of that size. */
function nearAny(points: readonly Point[], reach: number): (at: Point) => boolean {
  const cells = new Map<string, Point[]>();
  const cellOf = (v: number): number => Math.floor(v / reach);
  for (const point of points) {
    const key = `${cellOf(point[0])} ${cellOf(point[1])}`;
    const list = cells.get(key);
    if (list === undefined) cells.set(key, [point]);
    else list.push(point);
  }
  return (at) => {
    for (let i = cellOf(at[0]) - 1; i <= cellOf(at[0]) + 1; i++) {
      for (let j = cellOf(at[1]) - 1; j <= cellOf(at[1]) + 1; j++) {
        if (cells.get(`${i} ${j}`)?.some((point) => distance(point, at) < reach)) return true;
      }
    }
    return false;
  };
}
