import { BLADES, bladeDiagonal } from '../../shared/tables/blades.js';
import { METRIC_DRILLS } from '../../shared/tables/drills.js';
import type { Workshop } from './cut-plan.js';

/** A small set of bits, mm: enough to choose from without many changes. The full tables are `STANDARD_BITS`. */
const DEFAULT_BITS: readonly number[] = [0.6, 0.8, 1, 1.2, 1.5, 2, 2.5, 3];

const BLADE = BLADES.find((b) => b.name === 'No. 5')!;

/**
 * A middling workshop. All values are common practice, no source, or `from memory`; a person should give the
 * own ones, above all the feed, by `knownJob`.
 */
export const DEFAULT_WORKSHOP: Workshop = {
  blade: { name: BLADE.name, width: BLADE.width, thickness: BLADE.thickness },
  bits: METRIC_DRILLS.filter((bit) => DEFAULT_BITS.includes(bit.diameter)),
  // Two inches: what a common scroll saw takes, from memory.
  maxHeight: 50.8,
  drillMargin: 0.5,
  // About 100 mm a minute at a height of 16 mm, from memory.
  feed: 1600,
  easyHeight: BLADE.height[1],
  threadMinutes: 1,
  bladeClearance: 0.1,
  drillMinutes: 0.5,
  cornerMinutes: 0.05,
  moveMinutes: 2,
  setupMinutes: 20,
  knownJob: null,
  clampSide: 'bottom',
};

/** The narrowest hole that the blade can be threaded through, mm: its diagonal and the clearance. */
export function threadingHole(workshop: Workshop): number {
  return bladeDiagonal(workshop.blade) + workshop.bladeClearance;
}
