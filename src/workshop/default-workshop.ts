import { BLADES, bladeDiagonal } from '../../shared/tables/blades.js';
import { METRIC_DRILLS } from '../../shared/tables/drills.js';
import { PlystepError } from '../error.js';
import type { Workshop } from './cut-plan.js';
import { NEEDED_WIDTH_DEFAULTS } from './needed-width.js';

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

const POSITIVE = ['maxHeight', 'feed', 'easyHeight'] as const;
const NOT_NEGATIVE = [
  'drillMargin',
  'threadMinutes',
  'bladeClearance',
  'drillMinutes',
  'cornerMinutes',
  'moveMinutes',
  'setupMinutes',
] as const;

/**
 * Fills a workshop up with the defaults; bits come out in ascending order. The easy height is that of the blade
 * where the table has it.
 * Throws `bad-option` where a value is not a number that makes sense.
 */
export function completeWorkshop(given: Partial<Workshop> = {}): Workshop {
  const known = Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined));
  const packet = BLADES.find((b) => b.name === given.blade?.name);
  const byBlade = packet === undefined ? {} : { easyHeight: packet.height[1] };
  const workshop: Workshop = { ...DEFAULT_WORKSHOP, ...byBlade, ...known };
  for (const name of POSITIVE) demand(workshop[name], name, workshop[name] > 0, 'above 0');
  for (const name of NOT_NEGATIVE) demand(workshop[name], name, workshop[name] >= 0, '0 or more');
  const { blade, bits, knownJob } = workshop;
  demand(blade.width, 'blade.width', blade.width > 0, 'above 0');
  demand(blade.thickness, 'blade.thickness', blade.thickness > 0, 'above 0');
  for (const bit of bits) demand(bit.diameter, `bit ${bit.name}`, bit.diameter > 0, 'above 0');
  if (knownJob !== null) {
    for (const name of ['length', 'height', 'minutes'] as const) {
      demand(knownJob[name], `knownJob.${name}`, knownJob[name] > 0, 'above 0');
    }
  }
  for (const [name, value] of Object.entries(workshop.bridges ?? {})) {
    demand(
      value,
      `bridges.${name}`,
      value >= 0 && name in NEEDED_WIDTH_DEFAULTS,
      '0 or more of a known name',
    );
  }
  return { ...workshop, bits: [...bits].sort((a, b) => a.diameter - b.diameter) };
}

function demand(value: unknown, name: string, fine: boolean, wanted: string): void {
  if (typeof value === 'number' && Number.isFinite(value) && fine) return;
  throw new PlystepError(
    'bad-option',
    `Workshop: ${name} is ${String(value)}; it must be a number ${wanted}.`,
  );
}
