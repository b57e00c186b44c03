import { OUTSIDE } from '../plane/region-map.js';
import { DisjointSets } from './disjoint-sets.js';
import type { SheetSet } from './sheet-sets.js';
import { isDue, isKerf, isOpen, type StandingStock } from './standing-stock.js';

/** One setting of the saw, as far as access is concerned. */
export interface Access {
  readonly stock: StandingStock;
  /** The sheets held together. */
  readonly held: SheetSet;
  /** The blade may be led anywhere in this region: it is open, or waste in all sheets held. OUTSIDE too. */
  passable(region: number): boolean;
  /** The blade may go along this line: it is a kerf, or is sawn now or later at least as deep. */
  along(edge: number): boolean;
}

/**
 * @param waste 1 for regions that this setting saws out as waste, by region
 * @param now 1 for lines that this setting saws, by edge
 */
export function accessOf(stock: StandingStock, held: SheetSet, waste: Uint8Array, now: Uint8Array): Access {
  return {
    stock,
    held,
    passable: (region) =>
      region === OUTSIDE || waste[region] === 1 || stock.voids[region] === 1 || isOpen(stock, region, held),
    along: (edge) => now[edge] === 1 || isKerf(stock, edge, held) || isDue(stock, edge, held),
  };
}

/** Lines and places between which the blade can go without a new hole. */
export interface Reaches {
  /** The group that a line belongs to. */
  groupOf(edge: number): number;
  /** The group that the blade comes into from the edge of the stock, without being threaded. */
  readonly edgeGroup: number;
  /** Open places of each group that the blade can be threaded through, ascending. */
  readonly openPlaces: ReadonlyMap<number, readonly number[]>;
  /** Regions of each group that are waste, so good to drill in, ascending. */
  readonly waste: ReadonlyMap<number, readonly number[]>;
}

/**
 * Groups the lines of a setting by reach: two lines are in one group where the blade can go from the one to the
 * other along lines and through waste or open places.
 *
 * A group that reaches neither the edge nor an open place needs a hole, and one hole is enough, since the blade
 * can go back along its own kerf. So the number of holes of a setting is the number of such groups, and no
 * order of the cuts needs fewer; threadings are counted alike.
 *
 * Cost: linear in the lines, beside the inverse Ackermann function.
 *
 * @param wideEnough whether an open region lets the blade be threaded
 */
export function reachesOf(access: Access, wideEnough: (region: number) => boolean): Reaches {
  const { map } = access.stock;
  const nodes = map.nodes.length;
  const outside = nodes + map.regions.length;
  const placeOf = (region: number): number => (region === OUTSIDE ? outside : nodes + region);
  const sets = new DisjointSets(outside + 1);
  map.edges.forEach(({ from, to, left, right, kind }, e) => {
    if (access.stock.counted[e] === 0) return;
    if (access.along(e)) sets.join(from, to);
    for (const side of kind === 'border' ? [left, right] : [left]) {
      if (!access.passable(side)) continue;
      sets.join(placeOf(side), from);
      sets.join(placeOf(side), to);
    }
  });
  const openPlaces = new Map<number, number[]>();
  const waste = new Map<number, number[]>();
  map.regions.forEach((_, r) => {
    if (!access.passable(r)) return;
    const open = isOpen(access.stock, r, access.held);
    if (open && !wideEnough(r)) return;
    const lists = open ? openPlaces : waste;
    const group = sets.find(placeOf(r));
    const list = lists.get(group);
    if (list === undefined) lists.set(group, [r]);
    else list.push(r);
  });
  return {
    groupOf: (edge) => sets.find(map.edges[edge].from),
    edgeGroup: sets.find(outside),
    openPlaces,
    waste,
  };
}
