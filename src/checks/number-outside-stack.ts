import { defineRule, type NoOptions, type RuleFinding } from './rule.js';
import { countOf, nameOf, placeOf } from './words.js';

/** A number that asks for more sheets than the stack has. Page: docs/checks/number-outside-stack.md. */
export const numberOutsideStack = defineRule<'number-outside-stack', NoOptions>({
  id: 'number-outside-stack',
  group: 'numbers',
  level: 'error',
  summary: 'a number asks for more sheets than the stack has',
  model: 'the sheets that the number asks for, against the sheets of the stack',
  defaults: {},
  find: ({ relief }) => {
    const most = relief.stack.sheets.length;
    const found: RuleFinding[] = [];
    relief.regions.forEach(({ mark, label }, region) => {
      const asked = mark?.kind === 'piece' || mark?.kind === 'add-on' ? mark.sheets : 0;
      if (asked <= most) return;
      found.push({
        message: `${nameOf(relief, region)} is numbered ${label}, and the stack has ${countOf(most, 'sheet')}.`,
        at: placeOf(relief, region),
        regions: [region],
        measured: { value: asked, needed: most, unit: 'sheets' },
        fix: `Give it ${most === 1 ? 'the number 1' : `a number from 1 to ${most}`}, or add ${countOf(asked - most, 'sheet')} to the stack.`,
      });
    });
    return found;
  },
});
