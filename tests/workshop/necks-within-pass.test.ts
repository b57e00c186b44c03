import { describe, expect, it } from 'vitest';
import { standingBlocks } from '../../src/workshop/blocks.js';
import { bridgesIn, joinBridges } from '../../src/workshop/bridges.js';
import type { Bridge, CutPlan } from '../../src/workshop/cut-plan.js';
import { neededWidth } from '../../src/workshop/needed-width.js';
import { neededSheets, sheetDemand } from '../../src/workshop/sheet-sets.js';
import { wholeStock } from '../../src/workshop/standing-stock.js';
import { planFixture } from '../support/plan-fixture.js';

/**
 * Necks that come and go within one pass: the stock is searched after every single step, and what the plan does
 * not report is counted. A ratchet: what is recorded here is what docs/plan.md states.
 */
function unseenNecks(plan: CutPlan): Bridge[] {
  const { relief, workshop, passes } = plan;
  const demand = sheetDemand(relief);
  const voids = Uint8Array.from(relief.regions, ({ role }) => (role === 'void' ? 1 : 0));
  const stock = wholeStock(relief.map, relief.frame, neededSheets(relief, demand), voids);
  const setOf = (ids: readonly string[]): number =>
    ids.reduce((set, id) => set | (1 << relief.stack.sheets.findIndex((sheet) => sheet.id === id)), 0);
  let known: readonly Bridge[] = plan.bridges;
  for (const { phase, sheets, height, steps, loose } of passes) {
    if (phase === 'add-ons') continue;
    const held = setOf(sheets);
    for (const r of loose) stock.gone[r] |= held;
    for (const step of steps) {
      for (const e of step.edges) stock.sawn[e] |= held;
      if (step.frees === 'piece' || step.frees === 'waste')
        for (const r of step.regions) stock.gone[r] |= held;
      for (const { regions, sheets: out } of step.fallsOut ?? []) {
        for (const r of regions) stock.gone[r] |= setOf(out);
      }
      const found = standingBlocks(stock, held).flatMap(({ regions, board }) =>
        bridgesIn(relief, workshop, { regions, board, sheets, heightSawn: height, where: 'now' }, (bridge) =>
          neededWidth(bridge),
        ),
      );
      known = joinBridges([known, found]);
    }
  }
  return known.slice(plan.bridges.length);
}

describe('necks that the plan does not report, since they come and go within a pass', () => {
  it.each([
    ['owl', 1],
    ['fretwork', 0],
    ['harbour', 1],
  ] as const)('%s: no more than %d, and none that breaks anything off', (name, most) => {
    const necks = unseenNecks(planFixture(name));
    expect(necks.length).toBeLessThanOrEqual(most);
    expect(necks.filter((neck) => neck.effect !== 'opens')).toEqual([]);
  });
});
