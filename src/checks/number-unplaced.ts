import { defineRule, type NoOptions } from './rule.js';

/** A number of the caller or of a sidecar that reaches no region. Page: docs/checks/number-unplaced.md. */
export const numberUnplaced = defineRule<'number-unplaced', NoOptions>({
  id: 'number-unplaced',
  group: 'numbers',
  level: 'error',
  summary: 'a number of the sidecar or the caller reaches no region',
  model: null,
  defaults: {},
  find: ({ relief }) =>
    relief.unplaced.map(({ source, text, at, region }) => ({
      message:
        region === null
          ? `The number ${text} of the ${source} lies at a point that is in no region.`
          : `The number ${text} of the ${source} is for "${region}", and there is no such region.`,
      at,
      regions: [],
      fix:
        region === null
          ? 'Move its point into the region that is meant; the overview shows all regions.'
          : 'Give a point "at": [x, y] instead: ids change when the drawing changes.',
    })),
});
