import { defineRule, type NoOptions, type RuleFinding } from './rule.js';
import { namesOf, placeOf } from './words.js';

/** A recess with several pieces around it. Page: docs/checks/recess-between-pieces.md. */
export const recessBetweenPieces = defineRule<'recess-between-pieces', NoOptions>({
  id: 'recess-between-pieces',
  group: 'build',
  level: 'error',
  summary: 'a recess lies between several pieces',
  model: null,
  defaults: {},
  find: ({ relief }) => {
    const found: RuleFinding[] = [];
    for (const { regions, around } of relief.clusters) {
      const recesses = regions.filter((region) => relief.regions[region].mark?.kind === 'recess');
      if (around.length < 2 || recesses.length === 0) continue;
      found.push({
        message: `The recess ${namesOf(relief, recesses)} lies between ${around.length} pieces (${namesOf(relief, around)}); it can be cut into one only.`,
        at: placeOf(relief, recesses[0]),
        regions: [...recesses, ...around],
        fix: 'Close the outline so that one piece surrounds it, make it a piece of its own with a lower number, or number it 0 for a gap.',
      });
    }
    return found;
  },
});
