import type { Relief } from '../relief/relief.js';
import { forEachPair, HEIGHT_ROUNDING, shownLevels } from './material.js';
import { defineRule, type NoOptions, type RuleFinding } from './rule.js';
import { edgePlace, nameOf, round2 } from './words.js';

/** Two areas that meet, of which the one with more sheets ends up lower. Page: docs/checks/height-order.md. */
export const heightOrder = defineRule<'height-order', NoOptions>({
  id: 'height-order',
  group: 'build',
  level: 'error',
  summary: 'what should stand out further ends up lower',
  model: 'heights of what shows: the sheets of the piece in their order, recess floors, tops of add-ons',
  defaults: {},
  find: ({ relief }) => {
    const found: RuleFinding[] = [];
    forEachStep(relief, ({ high, low, rise, edges }) => {
      if (rise > -HEIGHT_ROUNDING) return;
      const heights = [relief.regions[high].height!, relief.regions[low].height!];
      found.push({
        message: `${nameOf(relief, high)} keeps more sheets than ${nameOf(relief, low)} beside it, and ends up ${round2(-rise)} mm lower.`,
        at: edgePlace(relief.map, edges),
        regions: [high, low],
        measured: { value: round2(heights[0]), needed: round2(heights[1]), unit: 'mm' },
        fix: 'Change the order or the choice of sheets of one of the two, or exchange their numbers.',
      });
    });
    return found;
  },
});

/** Two regions that meet and differ in the sheets that show; `rise` is how much higher `high` comes out, mm. */
export interface Step {
  /** The one that keeps more sheets. */
  readonly high: number;
  readonly low: number;
  readonly rise: number;
  readonly edges: readonly number[];
}

/** Calls back for every border that is meant as a step and whose two heights are known. */
export function forEachStep(relief: Relief, visit: (step: Step) => void): void {
  const levels = shownLevels(relief);
  forEachPair(relief, ({ a, b, edges }) => {
    const [high, low] = levels[a] > levels[b] ? [a, b] : [b, a];
    const top = relief.regions[high].height;
    const bottom = relief.regions[low].height;
    if (!(levels[high] > levels[low]) || top === null || bottom === null) return;
    visit({ high, low, rise: top - bottom, edges });
  });
}
