import { countSheets, frontSheets, holdsAll, type SheetSet } from './sheet-sets.js';

/**
 * A moment at which recesses may be sawn: 0 before the stack is complete; n (1 … N) at the start of pass n.
 * `BEFORE_ALL` comes first in time, then N down to 1.
 */
export type Slot = number;
export const BEFORE_ALL: Slot = 0;

/** Recesses that are alike for the schedule. */
export interface RecessClass {
  /** The sheets that have to be held together, and no others. */
  readonly sheets: SheetSet;
  /** The first and last slots from n = N down to 1 that are possible: `latest` ≤ n ≤ `earliest`. */
  readonly earliest: number;
  readonly latest: number;
  /** Whether it may be sawn before the stack is complete. */
  readonly beforeAll: boolean;
  /** So many front sheets have to be together first, for openings and veins inside; 0: none. */
  readonly front: number;
  /** Indices of the classes that have to be sawn before this one, or in the same slot. */
  readonly after: readonly number[];
}

/** A slot for each class, and the moves that they need on top of one lift a pass. */
export interface Schedule {
  readonly slots: readonly Slot[];
  readonly moves: number;
  /** False where the search was cut off, so that a schedule with fewer moves may exist. */
  readonly proven: boolean;
}

/** Partial schedules looked at before the search takes the best it has. */
const SEARCH_LIMIT = 200_000;

/**
 * The slots that need the fewest sheet moves, each lift and each putting back counting one. Depth-first branch
 * and bound over the classes: a slot never gets cheaper by one more set of sheets (triangle inequality of
 * |A △ B|), so a partial schedule that costs as much as the best one is given up.
 *
 * @param total number of sheets in the stack
 */
export function scheduleRecesses(classes: readonly RecessClass[], total: number): Schedule {
  const order = byPrecedence(classes);
  const slots: Slot[] = new Array(classes.length).fill(BEFORE_ALL);
  const members = new Map<Slot, RecessClass[]>();
  let best: Slot[] = [];
  let least = Number.POSITIVE_INFINITY;
  let looked = 0;

  const costWith = (slot: Slot, item: RecessClass): number =>
    slotMoves(slot, [...(members.get(slot) ?? []), item], total) -
    slotMoves(slot, members.get(slot) ?? [], total);
  const search = (depth: number, cost: number): void => {
    if (cost >= least || looked++ > SEARCH_LIMIT) return;
    if (depth === order.length) {
      [best, least] = [[...slots], cost];
      return;
    }
    const index = order[depth];
    const item = classes[index];
    const choice = possibleSlots(item, slots, total)
      .map((slot) => ({ slot, extra: costWith(slot, item) }))
      .sort((a, b) => a.extra - b.extra || timeOf(a.slot, total) - timeOf(b.slot, total));
    for (const { slot, extra } of choice) {
      slots[index] = slot;
      members.set(slot, [...(members.get(slot) ?? []), item]);
      search(depth + 1, cost + extra);
      members.set(slot, members.get(slot)!.slice(0, -1));
    }
  };
  search(0, 0);
  return { slots: best, moves: least, proven: looked <= SEARCH_LIMIT };
}

/** Slots at which a class may be sawn, given those of the classes before it; in the order of time. */
export function possibleSlots(item: RecessClass, slots: readonly Slot[], total: number): Slot[] {
  const from = Math.max(0, ...item.after.map((i) => timeOf(slots[i], total)));
  const all = item.beforeAll ? [BEFORE_ALL] : [];
  for (let n = item.earliest; n >= item.latest; n--) all.push(n);
  return all.filter((slot) => timeOf(slot, total) >= from);
}

/** The place of a slot in time. */
export function timeOf(slot: Slot, total: number): number {
  return slot === BEFORE_ALL ? 0 : total - slot + 1;
}

/**
 * The sets of sheets held together one after the other in a slot, the passes' own sets left out: the front
 * sheets for what is sawn first, then the recesses, each set after those that hold all of it, in the order
 * with the fewest moves.
 */
export function slotSets(slot: Slot, members: readonly RecessClass[], total: number): SheetSet[] {
  if (members.length === 0) return [];
  const front = Math.max(...members.map((item) => item.front));
  const first = slot === BEFORE_ALL && front > 0 ? [frontSheets(front)] : [];
  const sets = [...new Set(members.map((item) => item.sheets))].filter((set) => set !== first[0]);
  sets.sort((a, b) => countSheets(b) - countSheets(a) || a - b);
  if (sets.length > MOST_SETS || sets.every((set, i) => i === 0 || holdsAll(sets[i - 1], set))) {
    return [...first, ...sets];
  }
  const orders = deepFirstOrders(sets).map((order) => [...first, ...order]);
  const costs = orders.map((order) => wayMoves(slot, order, total));
  return orders[costs.indexOf(Math.min(...costs))];
}

/** Sets that don't lie in each other come only from swapped sheets; more of them than this are taken by size. */
const MOST_SETS = 6;

function deepFirstOrders(sets: readonly SheetSet[]): SheetSet[][] {
  if (sets.length < 2) return [[...sets]];
  return sets
    .filter((set) => !sets.some((other) => other !== set && holdsAll(other, set)))
    .flatMap((set) => deepFirstOrders(sets.filter((other) => other !== set)).map((rest) => [set, ...rest]));
}

/** Sheet moves of a slot: from the stack as it is before it, to the stack of the pass that follows. */
export function slotMoves(slot: Slot, members: readonly RecessClass[], total: number): number {
  return wayMoves(slot, slotSets(slot, members, total), total);
}

function wayMoves(slot: Slot, sets: readonly SheetSet[], total: number): number {
  if (sets.length === 0) return 0;
  const together = frontSheets(slot === BEFORE_ALL ? total : slot);
  const way = slot === BEFORE_ALL ? [...sets, together] : [together, ...sets, together];
  let moves = 0;
  for (let i = 1; i < way.length; i++) moves += countSheets(way[i - 1] ^ way[i]);
  return moves;
}

/** Classes so that each comes after those that it has to follow. */
function byPrecedence(classes: readonly RecessClass[]): number[] {
  const order: number[] = [];
  const placed = new Set<number>();
  const place = (i: number): void => {
    if (placed.has(i)) return;
    placed.add(i);
    for (const j of classes[i].after) place(j);
    order.push(i);
  };
  for (const i of classes.keys()) place(i);
  return order;
}
