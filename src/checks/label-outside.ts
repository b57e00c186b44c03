import { OUTSIDE } from '../plane/region-map.js';
import { isNumberText } from '../relief/number-claims.js';
import { labelOnLine } from './label-on-line.js';
import { defineRule, type NoOptions } from './rule.js';

/** A number that lies outside every region. Page: docs/checks/label-outside.md. */
export const labelOutside = defineRule<'label-outside', NoOptions>({
  id: 'label-outside',
  group: 'numbers',
  level: 'warning',
  summary: 'a number lies outside every region',
  model: null,
  defaults: {},
  find: ({ relief }) =>
    relief.map.labels
      .filter(({ text, region, room }) => {
        // A number on the outermost line is reported by its own rule.
        const onLine = room < labelOnLine.defaults.room;
        return region === OUTSIDE && isNumberText(text) && !onLine;
      })
      .map(({ text, at, source }) => ({
        message: `The number ${text} lies outside every region.`,
        at,
        regions: [],
        source,
        fix: 'Move it into its region; if it lies in one, look for a gap in the outline around it.',
      })),
});
