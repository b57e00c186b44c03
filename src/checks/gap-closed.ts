import { defineRule, type NoOptions } from './rule.js';
import { round2 } from './words.js';

/** A gap that was closed on mapping. Page: docs/checks/gap-closed.md. */
export const gapClosed = defineRule<'gap-closed', NoOptions>({
  id: 'gap-closed',
  group: 'lines',
  level: 'note',
  summary: 'a gap in the drawing was closed',
  model: 'length of the gap, against the gap tolerance of mapping',
  defaults: {},
  find: ({ relief }) =>
    relief.map.healed.map(({ from, to, length, source }) => ({
      message: `A gap of ${round2(length)} mm was closed.`,
      at: [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2],
      regions: [],
      ...(source === null ? {} : { source }),
      measured: { value: length, needed: relief.map.options.gap, unit: 'mm' },
      fix: 'Look whether the two ends belong together; if not, map with a smaller gap tolerance.',
    })),
});
