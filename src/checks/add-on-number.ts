import { chosenClaim } from '../relief/number-claims.js';
import { defineRule, type NoOptions } from './rule.js';
import { nameOf, placeOf } from './words.js';

/** A shape drawn as an add-on, and numbered as something else elsewhere. Page: docs/checks/add-on-number.md. */
export const addOnNumber = defineRule<'add-on-number', NoOptions>({
  id: 'add-on-number',
  group: 'numbers',
  level: 'warning',
  summary: 'a shape drawn as an add-on has another number',
  model: null,
  defaults: {},
  find: ({ relief }) =>
    relief.addOns
      .filter(({ region, shared }) => {
        const kind = chosenClaim(relief.regions[region].claims)?.mark.kind;
        return !shared && kind !== undefined && kind !== 'add-on';
      })
      .map(({ region }) => ({
        message: `${nameOf(relief, region)} is drawn as an add-on and numbered ${relief.regions[region].label}; it stays an add-on of one sheet.`,
        at: placeOf(relief, region),
        regions: [region],
        fix: 'Number it + or +2, or change its data-depth or label in the drawing so that its outline is cut.',
      })),
});
