import { defineRule, type NoOptions } from './rule.js';
import { countOf } from './words.js';

/** Regions without a number in a drawing without any text. Page: docs/checks/no-readable-text.md. */
export const noReadableText = defineRule<'no-readable-text', NoOptions>({
  id: 'no-readable-text',
  group: 'numbers',
  level: 'note',
  summary: 'regions lack a number and the drawing has no text at all',
  model: null,
  defaults: {},
  find: ({ relief }) => {
    const open = relief.regions.filter(({ claims }) => claims.length === 0).length;
    if (open === 0 || relief.map.labels.length > 0) return [];
    return [
      {
        message: `The drawing has ${countOf(open, 'region')} without a number and no text at all: numbers that were turned into outlines are read as cut lines.`,
        at: null,
        regions: [],
        fix: 'Save the drawing with its text kept as text, or fill in a sidecar.',
      },
    ];
  },
});
