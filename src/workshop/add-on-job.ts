import type { Finding } from '../finding.js';
import type { RegionMap } from '../plane/region-map.js';
import type { AddOn, Relief } from '../relief/relief.js';
import { areaOf, joinAreas } from './areas.js';
import type { Pass } from './cut-plan.js';
import type { LineShapes } from './line-shapes.js';
import type { SawnJob } from './piece-job.js';
import { sawSetting } from './saw-setting.js';
import type { SheetSet } from './sheet-sets.js';
import { wholeStock } from './standing-stock.js';
import { cutoutTarget, outlineTargets, type Target } from './targets.js';
import type { Tools } from './tools.js';

/**
 * Saws the add-ons, each set of sheets in one setting: from pieces of board of their own, so that everything
 * around them is waste and the blade comes in from the edge.
 */
export function sawAddOns(relief: Relief, shapes: LineShapes, tools: Tools): SawnJob {
  const passes: Pass[] = [];
  const findings: Finding[] = [];
  const byOrder = new Map<string, AddOn[]>();
  for (const addOn of relief.addOns) {
    const name = JSON.stringify(addOn.order);
    const list = byOrder.get(name);
    if (list === undefined) byOrder.set(name, [addOn]);
    else list.push(addOn);
  }
  for (const addOns of byOrder.values()) {
    const { pass, found } = sawTogether(relief, shapes, tools, addOns);
    passes.push(pass);
    findings.push(...found);
  }
  return { passes, findings };
}

function sawTogether(
  relief: Relief,
  shapes: LineShapes,
  tools: Tools,
  addOns: readonly AddOn[],
): { pass: Pass; found: readonly Finding[] } {
  const { map, stack } = relief;
  const own = new Set(addOns.map((addOn) => addOn.region));
  const held = heldSheets(relief, addOns[0].order);
  const areas = addOns.map((addOn) => areaOf(map, [addOn.region]));
  const needed = new Int32Array(map.edges.length);
  for (const area of areas) for (const e of area.border) needed[e] = held;
  const around = Uint8Array.from(map.regions, (_, r) => (own.has(r) ? 0 : 1));
  const counts = (e: number): boolean => needed[e] !== 0 || !isForeign(map, e, own);
  const stock = wholeStock(map, 'cut', needed, around, shapes, counts);
  const targets: Target[] = [];
  for (const area of joinAreas(
    map,
    Int32Array.from(around, (waste) => waste - 1),
  )) {
    const inside =
      !area.touchesOutside && area.border.length > 0 && area.border.every((e) => needed[e] !== 0);
    if (inside) targets.push(cutoutTarget(map, area, held));
  }
  for (const area of areas) targets.push(...outlineTargets(map, shapes, area, held));
  const sheets = addOns[0].order;
  const height = sheets.reduce((sum, id) => sum + stack.sheets.find((s) => s.id === id)!.thickness, 0);
  const setting = { ...tools.setting(stock, held), sheets, height };
  const scrap = { regions: [...map.regions.keys()], board: true, area: 0 };
  const { steps, findings } = sawSetting(setting, targets, [], [scrap]);
  const minutes = steps.reduce((sum, step) => sum + step.minutes, 0);
  return {
    pass: { phase: 'add-ons', number: 0, sheets, height, moves: [], steps, loose: [], blocks: [], minutes },
    found: findings,
  };
}

/** The edge belongs to an add-on that is mapped on its own, and not to one of these. */
function isForeign(map: RegionMap, edge: number, own: ReadonlySet<number>): boolean {
  const { left, right } = map.edges[edge];
  return [left, right].some((r) => r >= 0 && map.regions[r].addOn && !own.has(r));
}

function heldSheets(relief: Relief, order: readonly string[]): SheetSet {
  const ids = relief.stack.sheets.map((sheet) => sheet.id);
  return order.reduce((set, id) => set | (1 << ids.indexOf(id)), 0);
}
