import { defineRule, type NoOptions, type RuleFinding } from './rule.js';
import { nameOf, placeOf, round2 } from './words.js';

/** A region without a depth number: nobody knows whether it is wood or air. Page: docs/checks/number-missing.md. */
export const numberMissing = defineRule<'number-missing', NoOptions>({
  id: 'number-missing',
  group: 'numbers',
  level: 'error',
  summary: 'a region has no depth number',
  model: null,
  defaults: {},
  find: ({ relief }) => {
    const found: RuleFinding[] = [];
    relief.regions.forEach(({ mark, claims }, region) => {
      if (mark !== null || claims.length > 0) return;
      const at = placeOf(relief, region);
      found.push({
        message: `${nameOf(relief, region)} has no depth number.`,
        at,
        regions: [region],
        fix: `Write a number into it, or give it one in the sidecar at [${round2(at[0])}, ${round2(at[1])}].`,
      });
    });
    return found;
  },
});
