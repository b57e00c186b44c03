import { OUTSIDE } from '../plane/region-map.js';
import type { BlockShape } from './block-shape.js';
import { DisjointSets } from './disjoint-sets.js';
import type { SheetSet } from './sheet-sets.js';
import { isDue, isKerf, isOpen, type StandingStock } from './standing-stock.js';

/**
 * A place that the blade may be led through: a region of the block, or `airPlace(k)` for the air beside it.
 * `airPlace(0)` is all that lies around the block.
 */
export type Place = number;

/** The edge of the block, in from which the blade needs no threading; the same number as OUTSIDE. */
export const EDGE: Place = OUTSIDE;

export function airPlace(k: number): Place {
  return -1 - k;
}

/** One block in one setting of the saw, as far as access is concerned. */
export interface Access {
  readonly stock: StandingStock;
  /** The sheets held together. */
  readonly held: SheetSet;
  readonly block: BlockShape;
  /** The blade may be led anywhere in this region of the block: it is open, or waste in all sheets held. */
  passable(region: number): boolean;
  /** The blade may go along this line of the block: it is a kerf, or is sawn now or later at least as deep. */
  along(edge: number): boolean;
}

/**
 * @param waste 1 for regions that this setting saws out as waste, by region
 * @param now 1 for lines that this setting saws, by edge
 */
export function accessOf(
  stock: StandingStock,
  held: SheetSet,
  block: BlockShape,
  waste: Uint8Array,
  now: Uint8Array,
): Access {
  return {
    stock,
    held,
    block,
    passable: (region) =>
      block.has(region) && (waste[region] === 1 || stock.voids[region] === 1 || isOpen(stock, region, held)),
    along: (edge) =>
      block.hasLine(edge) && (now[edge] === 1 || isKerf(stock, edge, held) || isDue(stock, edge, held)),
  };
}

/** Calls `visit` with the places beside a line that the blade may be led through. */
export function placesBeside(access: Access, edge: number, visit: (place: Place) => void): void {
  const { left, right } = access.stock.map.edges[edge];
  const air = access.block.airOf(edge);
  if (air !== undefined) visit(airPlace(air));
  if (access.passable(left)) visit(left);
  if (right !== left && access.passable(right)) visit(right);
}

/** The lines around a place, and the veins in it. */
export function linesAround({ stock, block }: Access, place: Place): readonly number[] {
  if (place < 0) return block.air[-1 - place];
  const { loops, veins } = stock.map.regions[place];
  return [...loops.flatMap((loop) => loop.map((step) => step.edge)), ...veins];
}

/** Lines and places between which the blade can go without a new hole. */
export interface Reaches {
  /** The group that a line belongs to. */
  groupOf(edge: number): number;
  /** The group that the blade comes into from the edge of the block, without being threaded. */
  readonly edgeGroup: number;
  /** Holes of each group that the blade can be threaded through. */
  readonly openPlaces: ReadonlyMap<number, readonly Place[]>;
  /** Regions of each group that are waste, so good to drill in, ascending. */
  readonly waste: ReadonlyMap<number, readonly number[]>;
}

/**
 * Groups the lines of a block by reach: two lines are in one group where the blade can go from the one to the
 * other along lines and through waste or air.
 *
 * A group that reaches neither the edge nor a hole needs one drilled, and one is enough, since the blade
 * can go back along its own kerf. So the number of holes of a setting is the number of such groups, and no
 * order of the cuts needs fewer; threadings are counted alike.
 *
 * Cost: linear in the lines of the block, beside the inverse Ackermann function.
 *
 * @param wideEnough whether the region that lies in a hole lets the blade be threaded
 */
export function reachesOf(access: Access, wideEnough: (region: number) => boolean): Reaches {
  const { block, stock } = access;
  const { edges } = stock.map;
  const ids = new Map<number, number>();
  const idOf = (key: number): number => {
    const known = ids.get(key);
    if (known !== undefined) return known;
    ids.set(key, ids.size);
    return ids.size - 1;
  };
  // Even keys are nodes, odd ones places, which begin at -block.air.length.
  const nodeId = (node: number): number => idOf(2 * node);
  const placeId = (place: Place): number => idOf(2 * (place + block.air.length) + 1);
  const sets = new DisjointSets(2 * block.lines.length + block.regions.length + block.air.length);
  for (const e of block.lines) {
    const [from, to] = [nodeId(edges[e].from), nodeId(edges[e].to)];
    if (access.along(e)) sets.join(from, to);
    placesBeside(access, e, (place) => {
      sets.join(placeId(place), from);
      sets.join(placeId(place), to);
    });
  }
  const openPlaces = new Map<number, number[]>();
  const waste = new Map<number, number[]>();
  const add = (lists: Map<number, number[]>, place: Place): void => {
    const group = sets.find(placeId(place));
    const list = lists.get(group);
    if (list === undefined) lists.set(group, [place]);
    else list.push(place);
  };
  for (let k = 1; k < block.air.length; k++) {
    if (regionsInHole(access, airPlace(k)).some(wideEnough)) add(openPlaces, airPlace(k));
  }
  for (const r of block.regions) if (access.passable(r)) add(waste, r);
  return {
    groupOf: (edge) => sets.find(nodeId(edges[edge].from)),
    edgeGroup: sets.find(placeId(EDGE)),
    openPlaces,
    waste,
  };
}

/** The regions beside the line of a hole that are not of the block. */
export function regionsInHole({ stock, block }: Access, hole: Place): number[] {
  const around = block.air[-1 - hole].flatMap((e) => [stock.map.edges[e].left, stock.map.edges[e].right]);
  return [...new Set(around)].filter((r) => r !== OUTSIDE && !block.has(r)).sort((a, b) => a - b);
}
