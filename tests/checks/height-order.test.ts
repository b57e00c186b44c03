import { describe, expect, it } from 'vitest';
import { flushStep } from '../../src/checks/flush-step.js';
import { heightOrder } from '../../src/checks/height-order.js';
import type { RuleFinding } from '../../src/checks/rule.js';
import { DEFAULT_WORKSHOP } from '../../src/workshop/default-workshop.js';
import { type CellRelief, cellMiddle, cellRelief } from '../support/cells.js';
import { describePair } from '../support/check-pair.js';

describePair('height-order');

const input = ({ relief }: CellRelief) => ({ relief, plan: null, workshop: DEFAULT_WORKSHOP });
const order = (cells: CellRelief): RuleFinding[] => heightOrder.find(input(cells), heightOrder.defaults);
const flush = (cells: CellRelief): RuleFinding[] => flushStep.find(input(cells), flushStep.defaults);

const ISLAND = ['aaaaa', 'abbba', 'abcba', 'abbba', 'aaaaa'];

describe('height-order', () => {
  it('never fires for the order of own sheets without recesses', () => {
    for (const face of ['s1', 's2', 's3']) {
      const numbers = [{ at: cellMiddle([1, 0]), depth: '3', face }];
      const cells = cellRelief(['ab'], { a: '2', b: '3' }, '6 mm oak, 3 mm birch, 1 mm ply', { numbers });
      expect(order(cells)).toEqual([]);
    }
  });

  it('fires where turned sheets sink the floor of a recess below its island', () => {
    const numbers = [{ at: cellMiddle([0, 0]), depth: '3', face: 's3' }];
    const stack = '3 mm oak, 3 mm birch, 9 mm poplar';
    expect(order(cellRelief(ISLAND, { a: '3', b: '-1', c: '1' }, stack))).toEqual([]);
    const turned = cellRelief(ISLAND, { a: '3', b: '-1', c: '1' }, '9 mm poplar, 3 mm oak, 3 mm birch', {});
    expect(order(turned)).toMatchObject([{ measured: { value: 6, needed: 9 } }]);
    const mended = cellRelief(ISLAND, { a: '3', b: '-1', c: '1' }, '9 mm poplar, 3 mm oak, 3 mm birch', {
      numbers,
    });
    expect(order(mended)).toEqual([]);
  });

  it('fires for substituted and for extra sheets', () => {
    const stack = '2x 3 mm birch, 9 mm poplar';
    const at = cellMiddle([0, 0]);
    const substitute = [{ at, depth: '1', substitute: { s1: 's3' } }];
    const extra = [{ at, depth: '1', extra: ['s3'] }];
    for (const numbers of [substitute, extra]) {
      expect(order(cellRelief(['ab'], { a: '1', b: '2' }, stack, { numbers }))).toHaveLength(1);
    }
  });

  it('compares tops of add-ons with higher pieces beside them, in both joints', () => {
    const rows = ['aaab', 'aacb', 'aaab'];
    const numbers = { a: '1', b: '3', c: '+' };
    const stack = '9 mm poplar, 2x 3 mm birch';
    const pieces = cellRelief(rows, numbers, stack);
    expect(order(pieces)).toMatchObject([{ regions: [pieces.of('b'), pieces.of('c')] }]);
    const sheets = cellRelief(rows, numbers, '6 mm poplar, 2x 3 mm birch', { joint: 'continuous' });
    expect(sheets.relief.regions[sheets.of('c')].height).toBe(9);
    expect(sheets.relief.regions[sheets.of('b')].height).toBe(12);
    expect(order(sheets)).toEqual([]);
    const higher = cellRelief(rows, { ...numbers, b: '2', a: '0', c: '1' }, stack, { joint: 'continuous' });
    expect(order(higher)).toEqual([]);
  });
});

describe('flush-step', () => {
  it('fires for two sheets that are as thick as one', () => {
    const cells = cellRelief(['aaab', 'aacb', 'aaab'], { a: '1', b: '3', c: '+' }, '6 mm oak, 2x 3 mm birch');
    expect(flush(cells)).toMatchObject([{ message: expect.stringContaining('flush') }]);
  });

  it('fires for a sheet thinner than the smallest step, and not for one as thick', () => {
    expect(flush(cellRelief(['ab'], { a: '1', b: '2' }, '3 mm oak, 0.4 mm veneer'))).toHaveLength(1);
    expect(flush(cellRelief(['ab'], { a: '1', b: '2' }, '3 mm oak, 0.5 mm veneer'))).toEqual([]);
  });

  it('does not fire for equal numbers, whatever their heights', () => {
    const numbers = [{ at: cellMiddle([0, 0]), depth: '1', substitute: { s1: 's2' } }];
    expect(flush(cellRelief(['ab'], { a: '1', b: '1' }, '3 mm oak, 3.1 mm ash', { numbers }))).toEqual([]);
  });
});
