import { isNumberText } from '../relief/number-claims.js';
import { defineRule, type RuleFinding } from './rule.js';
import { nameOf, round2 } from './words.js';

export interface LabelOnLineOptions {
  /** Least distance from the middle of a number to the nearest line, mm. */
  readonly room?: number;
}

/** A number whose middle lies on a line: it is not clear which side is meant. Page: docs/checks/label-on-line.md. */
export const labelOnLine = defineRule<'label-on-line', LabelOnLineOptions>({
  id: 'label-on-line',
  group: 'numbers',
  level: 'warning',
  summary: 'a number lies on a line',
  model: 'distance from the middle of the number to the nearest line',
  defaults: { room: 0.25 },
  find: ({ relief }, { room }) => {
    const found: RuleFinding[] = [];
    for (const label of relief.map.labels) {
      if (!isNumberText(label.text) || label.room >= room) continue;
      const inside = label.region >= 0;
      const taken = inside
        ? `it was read as the number of ${nameOf(relief, label.region)}`
        : 'it was not read';
      found.push({
        message: `The number ${label.text} lies on a line (${round2(label.room)} mm from it); ${taken}.`,
        at: label.at,
        regions: inside ? [label.region] : [],
        source: label.source,
        measured: { value: label.room, needed: room, unit: 'mm' },
        fix: 'Move the number well into the region that is meant.',
      });
    }
    return found;
  },
});
