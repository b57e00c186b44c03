import { describe, expect, it } from 'vitest';
import { sheetNotOwned } from '../../src/checks/sheet-not-owned.js';
import type { RegionNumber, ReliefOptions } from '../../src/relief/relief.js';
import { DEFAULT_WORKSHOP } from '../../src/workshop/default-workshop.js';
import { cellMiddle, cellRelief } from '../support/cells.js';
import { describePair } from '../support/check-pair.js';

describePair('sheet-not-owned');

const ROWS = ['aaaa', 'abca', 'aaaa'];
const NUMBERS = { a: '3', b: '-1', c: '2' };

/** Messages for a request on the region of a letter at a cell. */
function messages(
  cell: readonly [number, number],
  depth: string,
  request: Omit<RegionNumber, 'at' | 'depth'>,
  options: Partial<ReliefOptions> = {},
): string[] {
  const numbers = [{ at: cellMiddle(cell), depth, ...request }];
  const { relief } = cellRelief(ROWS, NUMBERS, '3 mm oak, 3 mm ash, 3 mm elm, 3 mm fir', {
    ...options,
    numbers,
  });
  const input = { relief, plan: null, workshop: DEFAULT_WORKSHOP };
  return sheetNotOwned.find(input, {}).map((finding) => finding.message);
}

describe('sheet-not-owned', () => {
  it('grants what a piece owns or can have as a spare', () => {
    expect(messages([2, 1], '2', { face: 'ash' })).toEqual([]);
    expect(messages([2, 1], '2', { face: 'elm', substitute: { s1: 's3' } })).toEqual([]);
    expect(messages([0, 0], '3', { extra: ['s4'] })).toEqual([]);
  });

  it('says why it refuses', () => {
    expect(messages([2, 1], '2', { face: 'elm' })[0]).toContain('does not own');
    expect(messages([2, 1], '2', { extra: ['s1'] })[0]).toContain('no spare');
    expect(messages([2, 1], '2', { face: ['s2'] })[0]).toContain('leaves out');
    expect(messages([2, 1], '2', { face: 'ash' }, { joint: 'continuous' })[0]).toContain('one sheet for all');
  });

  it('does not pass over a request for what is no piece', () => {
    expect(messages([1, 1], '-1', { face: 'ash' })).toEqual([expect.stringContaining('no piece (recess)')]);
  });
});
