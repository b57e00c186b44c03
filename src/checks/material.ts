import type { Relief } from '../relief/relief.js';
import { stackHeight } from '../relief/stack-height.js';

/**
 * Height of the wood at each region above the common back, mm, add-ons left aside: 0 where nothing stays, and
 * where it is not known.
 */
export function woodHeights(relief: Relief): Float64Array {
  return Float64Array.from(relief.regions, ({ role, height, body, down }) => {
    if (role !== 'add-on') return height ?? 0;
    return body === null ? 0 : stackHeight(relief.stack, relief.bodies[body].order.slice(down));
  });
}

/**
 * Sheets kept at each region, add-ons left aside: 0 where nothing stays, NaN where it is not known or where
 * the region lies over others.
 */
export function woodLevels(relief: Relief): Float64Array {
  return Float64Array.from(relief.regions, ({ depth }, region) =>
    relief.map.regions[region].addOn ? Number.NaN : (depth ?? Number.NaN),
  );
}

/** What shows at each region, in sheets: like `woodLevels`, with the sheets of add-ons counted. */
export function shownLevels(relief: Relief): Float64Array {
  const levels = Float64Array.from(relief.regions, ({ depth }) => depth ?? Number.NaN);
  for (const { region, sheets } of relief.addOns) levels[region] = levels[region] + sheets;
  return levels;
}

/** Two regions that share border, the smaller index first. */
export interface BorderPair {
  readonly a: number;
  readonly b: number;
  /** mm */
  readonly length: number;
  readonly edges: readonly number[];
}

/** Calls back for every two regions that share border, each pair once. */
export function forEachPair(relief: Relief, visit: (pair: BorderPair) => void): void {
  relief.map.regions.forEach(({ neighbours }, a) => {
    for (const { region: b, length, edges } of neighbours) if (b > a) visit({ a, b, length, edges });
  });
}

/** Heights that differ by less than this, mm, are equal: sums of thicknesses round in their last bits. */
export const HEIGHT_ROUNDING = 1e-6;
