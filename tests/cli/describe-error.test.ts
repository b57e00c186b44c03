import { expect, it } from 'vitest';
import { UsageError } from '../../src/cli/command.js';
import { describeError, InputError } from '../../src/cli/describe-error.js';
import { PlystepError } from '../../src/error.js';

const fault = (line: number, column: number) =>
  new PlystepError('not-xml', 'a tag is not closed.', { line, column });

const stackFault = new PlystepError('bad-stack', 'no stack.', { line: 2, column: 3 });

it('says file, line and column, shows the line with a caret, and what to do', () => {
  const lines = describeError(new InputError('a.json', '[\n  {\n', stackFault)).split('\n');
  expect(lines).toEqual([
    'plystep: a.json:2:3: no stack.',
    '  2 |   {',
    '    |   ^',
    '  List the sheets front to back, for example --stack "6 mm walnut, 3x 1/8 in birch".',
  ]);
});

it('cuts a long line around the caret', () => {
  const text = `${'x'.repeat(5000)}!${'y'.repeat(5000)}`;
  const [, shown, under] = describeError(new InputError('a.svg', text, fault(1, 5001))).split('\n');
  expect(shown.length).toBeLessThan(90);
  expect(shown[under.indexOf('^')]).toBe('!');
});

it('shows no control characters of the file', () => {
  const text = describeError(new InputError('a.svg', '\u001b[31m<svg', fault(1, 6)));
  expect(text).not.toContain('\u001b');
});

it('stays calm where the place lies beyond the text', () => {
  expect(describeError(new InputError('a.svg', '', fault(9, 9)))).toContain('a.svg:9:9');
});

it('never shows a stack trace', () => {
  for (const error of [new Error('boom'), new UsageError('no'), 'text', new PlystepError('file', 'gone')]) {
    expect(describeError(error)).not.toMatch(/\n\s+at /);
  }
});

it('says where a limit is raised', () => {
  const limit = new PlystepError('limit', 'too much; the limit "depth" is 2000. Raise limits.depth.');
  expect(describeError(limit)).toContain('"read": { "limits": { "depth": 4000 } }');
  expect(describeError(limit)).toContain('--config');
});
