import { describe, expect, it } from 'vitest';
import { fallsOut } from '../../src/checks/falls-out.js';
import { DEFAULT_WORKSHOP } from '../../src/workshop/default-workshop.js';
import { type CellRelief, cellRelief } from '../support/cells.js';
import { describePair } from '../support/check-pair.js';

describePair('falls-out');

const find = ({ relief }: CellRelief, options = {}) =>
  fallsOut.find({ relief, plan: null, workshop: DEFAULT_WORKSHOP }, { ...fallsOut.defaults, ...options });

const RING = ['aaaaa', 'abbba', 'abcba', 'abbba', 'aaaaa'];

describe('falls-out', () => {
  it('lets a piece rest against the floor of a recess', () => {
    expect(find(cellRelief(RING, { a: '3', b: '-1', c: '2' }, '3x 3 mm birch'))).toEqual([]);
    expect(find(cellRelief(RING, { a: '3', b: '0', c: '2' }, '3x 3 mm birch'))).toHaveLength(1);
  });

  it('measures length of border times common height', () => {
    const pair = cellRelief(['ab'], { a: '1', b: '3' }, '3x 2 mm birch');
    expect(find(pair, { contact: 20 })).toEqual([]);
    expect(find(pair, { contact: 20.1 })).toMatchObject([
      { level: 'warning', measured: { value: expect.closeTo(20, 9), needed: 20.1 } },
    ]);
  });

  it('counts all contacts of a part with the rest together', () => {
    const cross = cellRelief(['ab', 'cc', 'cc'], { a: '1', b: '1', c: '1' }, '2 mm birch');
    expect(find(cross, { contact: 40 })).toEqual([]);
    expect(find(cross, { contact: 41 })).not.toEqual([]);
    const joined = cellRelief(['aaad', 'aaad', 'bbbd', 'bbbd'], { a: '1', b: '1', d: '1' }, '2 mm birch');
    expect(find(joined, { contact: 60 })).toEqual([]);
  });

  it('reports a group of pieces that hold together once', () => {
    const group = ['aaaaaa', 'abbbba', 'abcdba', 'abbbba', 'aaaaaa'];
    const [only, ...more] = find(cellRelief(group, { a: '2', b: '0', c: '1', d: '1' }, '2x 3 mm birch'));
    expect(more).toEqual([]);
    expect(only.regions).toHaveLength(2);
  });

  it('only warns of a part of its own at the outside', () => {
    const apart = cellRelief(['a.b'], { a: '1', b: '1' }, '3 mm birch');
    expect(find(apart)).toMatchObject([
      { level: 'warning', message: expect.stringContaining('stands apart') },
    ]);
  });

  it('looks at the wood itself as continuous sheets', () => {
    const numbers = { a: '2', b: '0', c: '1' };
    expect(find(cellRelief(RING, numbers, '2x 3 mm birch', { joint: 'continuous' }))).toHaveLength(1);
    const held = { ...numbers, b: '1' };
    expect(find(cellRelief(RING, held, '2x 3 mm birch', { joint: 'continuous' }))).toEqual([]);
  });

  it('finds nothing where a board lies behind', () => {
    expect(find(cellRelief(RING, { a: '2', b: '0', c: '1' }, '2x 3 mm birch'), { backing: true })).toEqual(
      [],
    );
  });
});
