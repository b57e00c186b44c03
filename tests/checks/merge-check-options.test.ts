import { expect, it } from 'vitest';
import { mergeCheckOptions } from '../../src/checks/merge-check-options.js';

it('lets the settings of one drawing count more, and adds up exceptions', () => {
  const here = { rule: 'sliver', at: [1, 2], level: 'off', reason: 'meant so' } as const;
  const there = { ...here, at: [3, 4] } as const;
  const many = {
    rules: { sliver: 'error', 'small-piece': 'off' },
    stages: { 'unused-sheet': 'off' },
    exceptions: [there],
    groups: ['lines'],
  } as const;
  expect(mergeCheckOptions(many, { rules: { sliver: 'note' }, exceptions: [here] })).toEqual({
    rules: { sliver: 'note', 'small-piece': 'off' },
    stages: { 'unused-sheet': 'off' },
    exceptions: [here, there],
    groups: ['lines'],
  });
  expect(mergeCheckOptions(many, { groups: ['build'] }).groups).toEqual(['build']);
  expect(mergeCheckOptions({}, {})).toEqual({ rules: {}, stages: {}, exceptions: [] });
});
