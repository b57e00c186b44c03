import { defineRule, type NoOptions } from './rule.js';
import { nameOf, placeOf } from './words.js';

/** A text where a depth number should stand, and it is none. Page: docs/checks/number-unreadable.md. */
export const numberUnreadable = defineRule<'number-unreadable', NoOptions>({
  id: 'number-unreadable',
  group: 'numbers',
  level: 'error',
  summary: 'a text given as depth number is none',
  model: null,
  defaults: {},
  find: ({ relief }) =>
    relief.regions.flatMap(({ claims }, region) =>
      claims
        .filter((claim) => claim.mark === null && claim.inherited !== true)
        .map((claim) => ({
          message: `The ${claim.source} of ${nameOf(relief, region)} says "${claim.text}", which is no depth number.`,
          at: claim.at ?? placeOf(relief, region),
          regions: [region],
          ...(claim.place === undefined ? {} : { source: claim.place }),
          fix: 'Write 1, 2, 3 … for a piece, 0 for an opening, -1 for a recess, + for an add-on.',
        })),
    ),
});
