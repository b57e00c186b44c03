import { describe, expect, it } from 'vitest';
import { boardTooSmall } from '../../src/checks/board-too-small.js';
import { DEFAULT_WORKSHOP } from '../../src/workshop/default-workshop.js';
import { cellRelief } from '../support/cells.js';
import { describePair } from '../support/check-pair.js';

describePair('board-too-small');

/** A picture of 40 x 20 mm: two pieces of 20 x 20 mm side by side, of one and of two sheets. */
function find(stack: string, options = {}) {
  const { relief } = cellRelief(['aabb', 'aabb'], { a: '1', b: '2' }, stack);
  const input = { relief, plan: null, workshop: DEFAULT_WORKSHOP };
  return boardTooSmall.find(input, { ...boardTooSmall.defaults, ...options });
}

describe('board-too-small', () => {
  it('says nothing of boards without a size', () => {
    expect(find('3 mm oak, 3 mm ash')).toEqual([]);
  });

  it('asks of each sheet only what is cut from it', () => {
    expect(find('3 mm oak (board 40 x 20 mm), 3 mm ash (board 20 x 20 mm)')).toEqual([]);
    const [only, ...more] = find('3 mm oak (board 30 x 20 mm), 3 mm ash (board 20 x 20 mm)');
    expect(more).toEqual([]);
    expect(only.measured).toEqual({ value: 30, needed: 40, unit: 'mm' });
    expect(only.regions).toHaveLength(2);
  });

  it('turns a board that has no grain, and leaves one that has', () => {
    expect(find('3 mm mdf (board 20 x 40 mm; no grain), 3 mm ash')).toEqual([]);
    expect(find('3 mm oak (board 20 x 40 mm; grain 0), 3 mm ash')).toHaveLength(1);
  });

  it('shares the pieces out among several boards', () => {
    expect(find('3 mm oak (board 20 x 20 mm; boards 2), 3 mm ash')).toEqual([]);
    expect(find('3 mm oak (board 15 x 15 mm; boards 2), 3 mm ash')).toHaveLength(2);
  });

  it('leaves a margin for holding where one is asked for', () => {
    expect(find('3 mm oak (board 50 x 30 mm), 3 mm ash', { margin: 5 })).toEqual([]);
    expect(find('3 mm oak (board 50 x 30 mm), 3 mm ash', { margin: 6 })).toHaveLength(1);
  });
});
