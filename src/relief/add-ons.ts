import type { RegionMap } from '../plane/region-map.js';
import type { DepthMark } from './depth-mark.js';
import type { Ground } from './ground.js';
import type { RegionClaims } from './number-claims.js';
import type { AddOn } from './relief.js';
import { orderAddOn } from './sheet-order.js';
import type { Stack } from './stack.js';
import { stackHeight } from './stack-height.js';

/** The add-ons of a map, in the order of their regions. */
export function makeAddOns(
  map: RegionMap,
  stack: Stack,
  marks: readonly (DepthMark | null)[],
  claims: readonly RegionClaims[],
  base: Int32Array,
): AddOn[] {
  const addOns: AddOn[] = [];
  marks.forEach((mark, region) => {
    if (mark?.kind !== 'add-on') return;
    const shared = !map.regions[region].addOn;
    const under = base[region] === region ? [] : [base[region]];
    const count = Math.min(mark.sheets, stack.sheets.length);
    const { order, refused } = orderAddOn(stack, count, claims[region].request);
    addOns.push({
      id: `a${addOns.length + 1}`,
      region,
      sheets: order.length,
      seats: shared ? under : map.regions[region].seats,
      shared,
      order,
      thickness: stackHeight(stack, order),
      refused,
    });
  });
  return addOns;
}

/**
 * The ground that carries an add-on: its highest seat, since that is what it touches. An add-on without a seat
 * lies on nothing and has no height.
 */
export function seatGround(ground: readonly Ground[], seats: readonly number[]): Ground | null {
  let best: Ground | null = null;
  for (const seat of seats) {
    const under = ground[seat];
    if (under !== undefined && (best === null || (under.height ?? -1) > (best.height ?? -1))) best = under;
  }
  return best;
}
