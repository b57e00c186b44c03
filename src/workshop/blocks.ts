import { OUTSIDE } from '../plane/region-map.js';
import type { Block } from './cut-plan.js';
import { DisjointSets } from './disjoint-sets.js';
import { holdsAll, type SheetSet } from './sheet-sets.js';
import { isParted, type StandingStock } from './standing-stock.js';

/**
 * What stands on the table: regions that still hang together in at least one of the sheets held. Blocks come in
 * the order of their first regions, the one with the board first.
 */
export function standingBlocks(stock: StandingStock, held: SheetSet): Block[] {
  const { map, gone } = stock;
  const board = map.regions.length;
  const sets = new DisjointSets(board + 1);
  map.edges.forEach(({ left, right, kind }, e) => {
    if (stock.counted[e] === 0 || kind !== 'border' || isParted(stock, e, held)) return;
    sets.join(left === OUTSIDE ? board : left, right === OUTSIDE ? board : right);
  });
  const withBoard = stock.frame === 'cut' ? sets.find(board) : -1;
  const blocks = new Map<number, number[]>();
  if (withBoard >= 0) blocks.set(withBoard, []);
  map.regions.forEach((region, r) => {
    if (region.addOn || holdsAll(gone[r], held)) return;
    const set = sets.find(r);
    const list = blocks.get(set);
    if (list === undefined) blocks.set(set, [r]);
    else list.push(r);
  });
  return [...blocks].map(([set, regions]) => ({
    regions,
    board: set === withBoard,
    area: regions.reduce((sum, r) => sum + map.regions[r].area, 0),
  }));
}
