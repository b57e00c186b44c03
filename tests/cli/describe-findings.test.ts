import { expect, it } from 'vitest';
import { countFindings, describeFindings, reaches } from '../../src/cli/describe-findings.js';
import type { Finding } from '../../src/finding.js';

const finding = (part: Partial<Finding>): Finding => ({
  rule: 'open-line',
  level: 'warning',
  message: 'A line ends.',
  at: [1.25, 2],
  regions: [],
  ...part,
});

it('puts errors first, and what to do once for findings that ask the same', () => {
  const text = describeFindings('a.svg', [
    finding({ fix: 'Close it.', source: { line: 3, column: 5, element: 'path' } }),
    finding({
      rule: 'number-missing',
      level: 'error',
      message: 'r12 has no number.',
      regions: ['r12'],
      fix: 'Give one.',
    }),
    finding({ fix: 'Close it.', regions: ['r1', 'r2'] }),
    finding({ level: 'note', at: null }),
  ]);
  expect(text.trimEnd().split('\n')).toEqual([
    'a.svg: error: r12 has no number. (at 1.3, 2.0 mm) [number-missing]',
    '    Give one.',
    'a.svg:3:5: warning: A line ends. (at 1.3, 2.0 mm) [open-line]',
    'a.svg: warning: A line ends. (at 1.3, 2.0 mm, r1 r2) [open-line]',
    '    Close it.',
    'a.svg: note: A line ends. [open-line]',
  ]);
});

it('counts, and tells whether a level is reached', () => {
  const some = [finding({}), finding({ level: 'note' })];
  expect(countFindings(some)).toBe('0 errors, 1 warning, 1 note');
  expect([reaches(some, 'error'), reaches(some, 'warning'), reaches([], 'note')]).toEqual([
    false,
    true,
    false,
  ]);
});
