import { defineRule, type RuleFinding } from './rule.js';
import { nameOf, placeOf, round2 } from './words.js';

export interface SliverOptions {
  /** Narrowest mean width of a region, mm. */
  readonly narrowest?: number;
}

/** A region so narrow that two lines were probably meant as one. Page: docs/checks/sliver.md. */
export const sliver = defineRule<'sliver', SliverOptions>({
  id: 'sliver',
  group: 'lines',
  level: 'warning',
  summary: 'a region is so narrow that the saw takes all of it',
  model: 'mean width: twice the area by the length of the border',
  // The kerf of a middling blade.
  defaults: { narrowest: 0.4 },
  find: ({ relief }, { narrowest }) => {
    const { map } = relief;
    const found: RuleFinding[] = [];
    map.regions.forEach(({ loops, area }, region) => {
      const border = loops.flat().reduce((sum, { edge }) => sum + map.edges[edge].length, 0);
      const width = (2 * area) / border;
      if (width >= narrowest) return;
      found.push({
        message: `${nameOf(relief, region)} is ${round2(width)} mm wide on average; two lines may have been meant as one.`,
        at: placeOf(relief, region),
        regions: [region],
        measured: { value: width, needed: narrowest, unit: 'mm' },
        fix: 'Take one of the two lines out, or draw them further apart.',
      });
    });
    return found;
  },
});
