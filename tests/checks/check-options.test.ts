import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import type { CheckOptions } from '../../src/checks/check-options.js';
import { checkRelief } from '../../src/checks/check-relief.js';
import { readCheckOptions } from '../../src/checks/read-check-options.js';
import { PlystepError } from '../../src/error.js';
import { nearestName } from '../../src/nearest-name.js';
import { cellMiddle, cellRelief } from '../support/cells.js';
import { textAt } from '../support/check-pair.js';

const schema = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(
  JSON.parse(textAt('shared/schema/checks.json')),
);

/** Two regions without a number, beside one that has one. */
const { relief, of } = cellRelief(['abc'], { a: '1' }, '2x 3 mm birch');
const sliver = {
  rule: 'sliver-merged',
  level: 'note',
  message: 'A strip.',
  at: [5, 5],
  regions: [],
} as const;
const withFinding = { ...relief, findings: [sliver] };
const idOf = (letter: string): string => relief.map.regions[of(letter)].id;
const missing = (options: CheckOptions) =>
  checkRelief(relief, null, options).filter((finding) => finding.rule === 'number-missing');

describe('settings of checkRelief', () => {
  it('raise, lower and switch off a rule', () => {
    expect(missing({}).map((finding) => finding.level)).toEqual(['error', 'error']);
    expect(missing({ rules: { 'number-missing': 'note' } })[0].level).toBe('note');
    expect(missing({ rules: { 'number-missing': { level: 'warning' } } })[0].level).toBe('warning');
    expect(missing({ rules: { 'number-missing': 'off' } })).toEqual([]);
  });

  it('keep the reason in the report', () => {
    const lowered = missing({ rules: { 'number-missing': { level: 'note', reason: 'a draft' } } });
    expect(lowered.map((finding) => finding.reason)).toEqual(['a draft', 'a draft']);
    const off = missing({ rules: { 'number-missing': { level: 'off', reason: 'a draft' } } });
    expect(off).toMatchObject([{ level: 'note', reason: 'a draft', regions: [] }]);
  });

  it('make exceptions for one region, by id or by a point', () => {
    for (const place of [{ region: idOf('b') }, { at: cellMiddle([1, 0]) }]) {
      const exceptions = [{ rule: 'number-missing', level: 'off', reason: 'later', ...place }] as const;
      const found = missing({ exceptions });
      expect(found.map(({ regions, level, reason }) => [regions[0], level, reason])).toEqual([
        [idOf('c'), 'error', undefined],
        [idOf('b'), 'note', 'later'],
      ]);
    }
  });

  it('set the level of findings of earlier steps', () => {
    const found = (options: CheckOptions) =>
      checkRelief(withFinding, null, options).filter((finding) => finding.rule === 'sliver-merged');
    expect(found({})).toMatchObject([{ level: 'note' }]);
    expect(found({ stages: { 'sliver-merged': 'error' } })).toMatchObject([{ level: 'error' }]);
    expect(found({ stages: { 'sliver-merged': 'off' } })).toEqual([]);
    const exceptions = [{ rule: 'sliver-merged', at: [5, 6], level: 'warning', reason: 'seen' }] as const;
    expect(found({ exceptions })).toMatchObject([{ level: 'warning', reason: 'seen' }]);
  });

  it('run some groups only', () => {
    expect(missing({ groups: ['build'] })).toEqual([]);
    expect(missing({ groups: ['numbers'] })).toHaveLength(2);
  });

  it('put errors first', () => {
    const order = ['error', 'warning', 'note'];
    const levels = checkRelief(relief, null).map((finding) => order.indexOf(finding.level));
    expect(levels).toEqual([...levels].sort());
  });
});

const WRONG: readonly (readonly [unknown, string])[] = [
  [{ rules: { 'number-mising': 'off' } }, 'Did you mean "number-missing"?'],
  [{ rules: { quux: 'off' } }, 'Known are number-missing'],
  [{ rule: {} }, 'Did you mean "rules"?'],
  [{ rules: { 'flush-step': { smalest: 1 } } }, 'Did you mean "smallest"?'],
  [{ rules: { 'flush-step': { smallest: '1' } } }, 'must be a number'],
  [{ rules: { 'flush-step': { smallest: -1 } } }, 'must be a number'],
  [{ rules: { 'falls-out': { backing: 1 } } }, 'true or false'],
  [{ rules: { 'flush-step': 'fatal' } }, 'it can be off, note, warning, error'],
  [{ rules: { 'flush-step': 3 } }, 'object in braces'],
  [{ exceptions: [{ rule: 'flush-step', level: 'off', region: 'r1' }] }, 'reason is missing'],
  [{ exceptions: [{ rule: 'flush-step', level: 'off', reason: 'so' }] }, 'neither a region nor a point'],
  [
    { exceptions: [{ rule: 'flushstep', level: 'off', reason: 'so', region: 'r1' }] },
    'Did you mean "flush-step"?',
  ],
  [{ exceptions: [{ rule: 'flush-step', level: 'off', reason: 'so', at: [1] }] }, 'write [x, y]'],
  [{ stages: { 'unused-sheets': 'off' } }, 'Did you mean "unused-sheet"?'],
  [{ stages: { 'unused-sheet': { level: 'off' } } }, 'it can be off, note, warning, error'],
  [{ groups: ['colours'] }, 'it can be numbers, build, lines, strength'],
  [[], 'object in braces'],
];

describe('readCheckOptions', () => {
  it.each(WRONG)('refuses %j', (options, words) => {
    let message = '';
    try {
      readCheckOptions(options);
    } catch (error) {
      expect(error).toBeInstanceOf(PlystepError);
      message = (error as PlystepError).message;
    }
    expect(message).toContain(words);
    expect(schema(options)).toBe(false);
  });

  it('accepts what the schema accepts, as the example of the index', () => {
    const example = /```json\n([\s\S]*?)```/.exec(textAt('docs/checks.md'))![1];
    const options = JSON.parse(example);
    expect(schema(options)).toBe(true);
    expect(readCheckOptions(options)).toEqual(options);
  });
});

describe('nearestName', () => {
  it('finds a name with a letter wrong, missing, or too many', () => {
    const known = ['falls-out', 'flush-step', 'sliver'];
    expect(nearestName('fals-out', known)).toBe('falls-out');
    expect(nearestName('Flush-Step', known)).toBe('flush-step');
    expect(nearestName('slivers', known)).toBe('sliver');
    expect(nearestName('thickness', known)).toBeNull();
  });
});
