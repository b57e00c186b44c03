import { OUTSIDE } from '../plane/region-map.js';
import type { Freed } from './cut-plan.js';
import { holdsAll, type SheetSet } from './sheet-sets.js';
import { acrossEdge, isParted, type StandingStock } from './standing-stock.js';
import type { Target } from './targets.js';
import type { LineWalk } from './walk-lines.js';

/** Targets by the lines around them. */
export type Watch = ReadonlyMap<number, readonly Target[]>;

/** Lists targets by the lines that must be open for them to come free. */
export function watchTargets(targets: readonly Target[]): Watch {
  const watch = new Map<number, Target[]>();
  for (const target of targets) {
    if (target.frees !== 'piece' && target.frees !== 'waste') continue;
    for (const edge of target.border) {
      const list = watch.get(edge);
      if (list === undefined) watch.set(edge, [target]);
      else if (list[list.length - 1] !== target) list.push(target);
    }
  }
  return watch;
}

/** What comes free with a step. */
export interface FreedBy {
  readonly what: Freed;
  /** Region indices: those of the step's own target first. */
  readonly regions: readonly number[];
  /** Regions that are open from now on. */
  readonly opened: readonly number[];
  /** Waste that falls out of some of the sheets held. */
  readonly partly: readonly { readonly regions: readonly number[]; readonly sheets: SheetSet }[];
}

/**
 * Works out what comes free once a walk is sawn, and takes it off the stock: the target itself, and all that
 * has nothing left to hold it. A block stays on the table, and is named only where nothing else comes free.
 */
export function freedBy(
  stock: StandingStock,
  held: SheetSet,
  watch: Watch,
  target: Target,
  walk: LineWalk,
): FreedBy {
  const regions: number[] = [];
  const opened: number[] = [];
  const partly: { regions: readonly number[]; sheets: SheetSet }[] = [];
  let what: Freed = 'nothing';
  const free = (candidate: Target): void => {
    const sheets = candidate.sheets & held;
    if (candidate.regions.every((r) => holdsAll(stock.gone[r], sheets))) return;
    if (!candidate.border.every((e) => isParted(stock, e, sheets))) return;
    for (const r of candidate.regions) {
      stock.gone[r] |= sheets;
      if (holdsAll(stock.gone[r], held)) opened.push(r);
    }
    if (sheets !== held) {
      partly.push({ regions: candidate.regions, sheets });
      return;
    }
    regions.push(...candidate.regions);
    if (what !== 'piece') what = candidate.frees;
  };
  if (target.frees === 'piece' || target.frees === 'waste') free(target);
  for (const { edge } of walk) for (const other of watch.get(edge) ?? []) if (other !== target) free(other);
  if (regions.length > 0) return { what, regions, opened, partly };
  const block = target.frees === 'block' ? blockInside(stock, held, target) : [];
  if (block.length > 0) return { what: 'block', regions: block, opened, partly };
  return { what, regions: target.regions, opened, partly };
}

/** Takes a target off the stock that nothing holds any more; the regions that it has, or none where it is held. */
export function looseAlready(stock: StandingStock, held: SheetSet, target: Target): readonly number[] {
  const sheets = target.sheets & held;
  if (target.regions.every((r) => holdsAll(stock.gone[r], sheets))) return [];
  if (!target.border.every((e) => isParted(stock, e, sheets))) return [];
  for (const r of target.regions) stock.gone[r] |= sheets;
  return target.regions;
}

/** The standing regions that the lines of a block target go around; none where they hang on it, or on the board. */
function blockInside(stock: StandingStock, held: SheetSet, target: Target): number[] {
  const around = new Set(target.regions);
  const block = new Set<number>();
  const pending = target.border.flatMap((e) =>
    [stock.map.edges[e].left, stock.map.edges[e].right].filter((r) => r !== OUTSIDE && !around.has(r)),
  );
  for (let r = pending.pop(); r !== undefined; r = pending.pop()) {
    if (r === OUTSIDE) return [];
    if (block.has(r) || holdsAll(stock.gone[r], held)) continue;
    if (around.has(r)) return [];
    block.add(r);
    for (const loop of stock.map.regions[r].loops) {
      for (const { edge } of loop)
        if (!isParted(stock, edge, held)) pending.push(acrossEdge(stock.map, edge, r));
    }
  }
  return [...block].sort((a, b) => a - b);
}
