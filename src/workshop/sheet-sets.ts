import { PlystepError } from '../error.js';
import { OUTSIDE, type RegionMap } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';

/**
 * A set of the stack's sheets in one number: bit `j` stands for sheet `j`, counted from 0 at the front.
 */
export type SheetSet = number;

/** As many sheets as a set can hold with its sign bit left alone. */
export const MOST_SHEETS = 30;

/** The front `n` sheets. */
export function frontSheets(n: number): SheetSet {
  return 2 ** n - 1;
}

/** How many sheets are in a set. */
export function countSheets(set: SheetSet): number {
  let count = 0;
  for (let rest = set; rest !== 0; rest &= rest - 1) count++;
  return count;
}

/** Whether `whole` holds all of `part`. */
export function holdsAll(whole: SheetSet, part: SheetSet): boolean {
  return (whole & part) === part;
}

/** The places of the sheets in a set, front to back. */
export function sheetPlaces(set: SheetSet): number[] {
  const places: number[] = [];
  for (let j = 0; set >> j !== 0; j++) if ((set >> j) & 1) places.push(j);
  return places;
}

/** What every region of a relief of pieces asks of the sheets. Arrays by region index unless said. */
export interface SheetDemand {
  /** Index into `relief.bodies`, -1 where no body is. */
  readonly body: Int32Array;
  /** Sheets in which the region's material belongs to the body at the end. */
  readonly kept: Int32Array;
  /** Sheets that come out of the body as a cutout: those of a recess, all of an opening. */
  readonly cutout: Int32Array;
  /** By body: the number of the pass in which it comes free, so how many front sheets the saw goes through. */
  readonly passOf: Int32Array;
}

/**
 * Works out the demand. A body is sawn in the pass of its own number, or earlier: where one of its sheets is a
 * spare part from further back, and where all lines around it are sawn in earlier passes, so that it comes loose
 * there whatever its number. A recess goes through the first sheets of the body's order, which are not the front
 * ones where sheets are swapped. Throws `limit` above `MOST_SHEETS` sheets.
 *
 * @param stays bodies that wait for the pass of their own number although they are loose before
 */
export function sheetDemand(relief: Relief, stays: (body: number) => boolean = () => false): SheetDemand {
  const sheets = relief.stack.sheets;
  if (sheets.length > MOST_SHEETS) {
    throw new PlystepError(
      'limit',
      `A stack of ${sheets.length} sheets: planning takes ${MOST_SHEETS} at most.`,
    );
  }
  const placeOf = new Map(sheets.map((sheet, j) => [sheet.id, j]));
  const own = Int32Array.from(relief.bodies, ({ order }) =>
    Math.max(0, ...order.map((id) => placeOf.get(id)! + 1)),
  );
  const loose = loosePasses(relief, demandWith(relief, placeOf, own));
  const passOf = own.map((pass, b) => (stays(b) ? pass : loose[b]));
  return demandWith(relief, placeOf, passOf);
}

function demandWith(relief: Relief, placeOf: ReadonlyMap<string, number>, passOf: Int32Array): SheetDemand {
  const setOf = (ids: readonly string[]): SheetSet =>
    ids.reduce((set, id) => set | (1 << placeOf.get(id)!), 0);
  const n = relief.regions.length;
  const demand = {
    body: new Int32Array(n).fill(-1),
    kept: new Int32Array(n),
    cutout: new Int32Array(n),
    passOf,
  };
  relief.regions.forEach(({ body, down }, r) => {
    if (body === null || relief.map.regions[r].addOn) return;
    const { order } = relief.bodies[body];
    demand.body[r] = body;
    demand.kept[r] = setOf(order.slice(down));
    // An opening takes along what lies behind the piece's own sheets: it is sawn with the whole pass.
    demand.cutout[r] = down >= order.length ? frontSheets(passOf[body]) : setOf(order.slice(0, down));
  });
  return demand;
}

/** The pass in which the last line around each body is sawn, by its neighbours, where that is before its own. */
function loosePasses(relief: Relief, demand: SheetDemand): Int32Array {
  const { body, kept, passOf } = demand;
  const needed = neededSheets(relief, demand);
  const last = new Int32Array(passOf.length).fill(MOST_SHEETS + 1);
  relief.map.edges.forEach(({ left, right, kind }, e) => {
    const outer = left === OUTSIDE || right === OUTSIDE;
    if (kind !== 'border' || isAddOnEdge(relief.map, e) || (outer && relief.frame !== 'cut')) return;
    const bodyAt = (r: number): number => (r === OUTSIDE || kept[r] === 0 ? -1 : body[r]);
    if (!outer && body[left] === body[right]) return;
    for (const b of [bodyAt(left), bodyAt(right)]) {
      if (b >= 0) last[b] = Math.min(last[b], countSheets(needed[e]));
    }
  });
  return passOf.map((own, b) => (last[b] > MOST_SHEETS ? own : Math.max(own, last[b])));
}

/** An edge of an add-on that was mapped on its own: it takes no part in the sawing of the stack. */
export function isAddOnEdge(map: RegionMap, edge: number): boolean {
  const { left, right } = map.edges[edge];
  return (left !== OUTSIDE && map.regions[left].addOn) || (right !== OUTSIDE && map.regions[right].addOn);
}

/**
 * The sheets that each line must be sawn through, by edge; 0: it is not sawn.
 *
 * - Between two bodies, and between a body and a void, an opening's outside or the waste around: all sheets of
 *   the earlier of the two passes. Behind a body's own sheets there is only waste.
 * - Inside a body: the deeper of the two cutouts; nothing where they are alike.
 * - Veins: all sheets of the body's pass.
 */
export function neededSheets(relief: Relief, demand: SheetDemand): Int32Array {
  const { map, frame } = relief;
  const { body, cutout, passOf } = demand;
  const through = (region: number): SheetSet => {
    if (region === OUTSIDE || body[region] < 0 || isThrough(region)) return 0;
    return frontSheets(passOf[body[region]]);
  };
  const isThrough = (region: number): boolean => demand.kept[region] === 0;
  return Int32Array.from(map.edges, ({ left, right, kind }, e) => {
    if (isAddOnEdge(map, e)) return 0;
    if (kind !== 'border') return through(left);
    if (left === OUTSIDE || right === OUTSIDE) return frame === 'cut' ? through(left) | through(right) : 0;
    if (body[left] < 0 || body[left] !== body[right]) return through(left) | through(right);
    return cutout[left] === cutout[right] ? 0 : cutout[left] | cutout[right];
  });
}
