import { describe, expect, it } from 'vitest';
import { touchInPoint } from '../../src/checks/touch-in-point.js';
import type { Joint } from '../../src/relief/relief.js';
import { DEFAULT_WORKSHOP } from '../../src/workshop/default-workshop.js';
import { cellRelief } from '../support/cells.js';
import { describePair } from '../support/check-pair.js';

describePair('touch-in-point');

const STACK = '3x 3 mm birch';

function messages(
  rows: readonly string[],
  numbers: Readonly<Record<string, string>>,
  joint: Joint,
): string[] {
  const { relief } = cellRelief(rows, numbers, STACK, { joint });
  const input = { relief, plan: null, workshop: DEFAULT_WORKSHOP };
  return touchInPoint.find(input, touchInPoint.defaults).map((finding) => finding.message);
}

describe('touch-in-point', () => {
  it('lets four pieces meet in a point', () => {
    const numbers = { a: '3', b: '1', c: '1', d: '3' };
    expect(messages(['ab', 'cd'], numbers, 'pieces')).toEqual([]);
  });

  it('finds two pieces that meet across two voids, and a piece that meets itself', () => {
    expect(messages(['ab', 'cd'], { a: '3', b: '0', c: '0', d: '3' }, 'pieces')).toHaveLength(1);
    expect(messages(['a.', '.d'], { a: '3', d: '3' }, 'pieces')).toHaveLength(1);
  });

  it('looks at every sheet where they are continuous', () => {
    const [only] = messages(['ab', 'cd'], { a: '3', b: '1', c: '1', d: '3' }, 'continuous');
    expect(only).toContain('level 2');
  });

  it('takes a recess with a floor for wood', () => {
    const rows = ['aaaa', 'abaa', 'aaca', 'aaaa'];
    expect(messages(rows, { a: '2', b: '-1', c: '-1' }, 'pieces')).toEqual([]);
    expect(messages(rows, { a: '2', b: '-1', c: '0' }, 'pieces')).toEqual([]);
    expect(messages(rows, { a: '2', b: '0', c: '0' }, 'pieces')).toHaveLength(1);
  });
});
