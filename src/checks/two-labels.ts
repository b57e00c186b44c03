import { formatDepthMark } from '../relief/depth-mark.js';
import { defineRule, type NoOptions, type RuleFinding } from './rule.js';
import { nameOf } from './words.js';

/** Two number labels in one region; a line between them may be missing. Page: docs/checks/two-labels.md. */
export const twoLabels = defineRule<'two-labels', NoOptions>({
  id: 'two-labels',
  group: 'numbers',
  level: 'warning',
  summary: 'two number labels lie in one region',
  model: null,
  defaults: {},
  find: ({ relief }) => {
    const found: RuleFinding[] = [];
    relief.regions.forEach(({ claims }, region) => {
      const labels = claims.filter((claim) => claim.source === 'label' && claim.mark !== null);
      if (labels.length < 2) return;
      const texts = labels.map((claim) => claim.text);
      const agree = new Set(labels.map((claim) => formatDepthMark(claim.mark!))).size === 1;
      found.push({
        message: agree
          ? `${nameOf(relief, region)} carries its number ${texts[0]} ${labels.length} times.`
          : `${nameOf(relief, region)} carries the numbers ${texts.join(' and ')}; ${texts[0]} counts.`,
        at: labels[1].at,
        regions: [region],
        ...(labels[1].place === undefined ? {} : { source: labels[1].place }),
        ...(agree ? { level: 'note' } : {}),
        fix: 'Take one away, or close the line between them if two regions are meant.',
      });
    });
    return found;
  },
});
