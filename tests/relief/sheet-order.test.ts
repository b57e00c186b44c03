import { describe, expect, it } from 'vitest';
import { parseStack } from '../../src/relief/parse-stack.js';
import type { SheetRequest } from '../../src/relief/relief.js';
import { orderAddOn, orderPiece } from '../../src/relief/sheet-order.js';
import { levelHeight, stackHeight } from '../../src/relief/stack-height.js';

const stack = parseStack('6 mm walnut (face dark oil), 3 mm birch, 3 mm oak, 4 mm birch');
const ask = (request: Partial<SheetRequest>): SheetRequest => ({
  face: null,
  substitute: {},
  extra: [],
  ...request,
});
const piece = (count: number, request: Partial<SheetRequest>) =>
  orderPiece(stack, count, 'pieces', ask(request));

describe('orderPiece', () => {
  it('takes the front sheets as pieces and the back ones as continuous sheets', () => {
    expect(orderPiece(stack, 2, 'pieces', null).order).toEqual(['s1', 's2']);
    expect(orderPiece(stack, 2, 'continuous', null).order).toEqual(['s3', 's4']);
  });

  it('brings a sheet to the front by id, face or material', () => {
    expect(piece(3, { face: 's3' }).order).toEqual(['s3', 's1', 's2']);
    expect(piece(3, { face: 'Oak' }).order).toEqual(['s3', 's1', 's2']);
    expect(piece(3, { face: 'dark oil' }).order).toEqual(['s1', 's2', 's3']);
    expect(piece(4, { face: 'birch' }).order).toEqual(['s2', 's1', 's3', 's4']);
  });

  it('takes a whole order and refuses half of one', () => {
    expect(piece(3, { face: ['s2', 's3', 's1'] }).order).toEqual(['s2', 's3', 's1']);
    const half = piece(3, { face: ['s2', 's3'] });
    expect(half.order).toEqual(['s1', 's2', 's3']);
    expect(half.refused).toEqual([{ sheet: 's2, s3', reason: 'not-whole' }]);
    expect(piece(2, { face: ['s1', 's1'] }).refused).toEqual([{ sheet: 's1', reason: 'not-own' }]);
  });

  it('refuses a sheet that the piece does not own', () => {
    expect(piece(2, { face: 'oak' })).toEqual({
      order: ['s1', 's2'],
      spares: [],
      refused: [{ sheet: 'oak', reason: 'not-own' }],
    });
  });

  it('substitutes spare parts of sheets further back, each once', () => {
    expect(piece(2, { substitute: { s1: 's4' } })).toEqual({
      order: ['s4', 's2'],
      spares: ['s4'],
      refused: [],
    });
    expect(piece(2, { substitute: { s1: 's4', s2: 's4' } }).refused).toEqual([
      { sheet: 's4', reason: 'no-spare' },
    ]);
    expect(piece(2, { substitute: { s1: 's2' } }).refused).toEqual([{ sheet: 's2', reason: 'no-spare' }]);
    expect(piece(2, { substitute: { s3: 's4' } }).refused).toEqual([{ sheet: 's3', reason: 'not-own' }]);
    expect(piece(2, { substitute: { s1: 's9' } }).refused).toEqual([{ sheet: 's9', reason: 'no-spare' }]);
  });

  it('finds a spare of an own sheet where there are two boards of it', () => {
    const two = parseStack('3 mm oak (boards 2), 3 mm birch');
    expect(orderPiece(two, 1, 'pieces', ask({ extra: ['s1'] })).order).toEqual(['s1', 's1']);
  });

  it('glues extra sheets on behind and can show one of them', () => {
    expect(piece(1, { extra: ['s3'] }).order).toEqual(['s1', 's3']);
    expect(piece(1, { extra: ['s3'], face: 'oak' }).order).toEqual(['s3', 's1']);
  });

  it('swaps nothing as continuous sheets', () => {
    const { order, refused } = orderPiece(stack, 2, 'continuous', ask({ face: 's3' }));
    expect(order).toEqual(['s3', 's4']);
    expect(refused).toEqual([{ sheet: 's3', reason: 'continuous' }]);
  });

  it('changes the height by substitution, never by order', () => {
    const height = (request: Partial<SheetRequest>) => stackHeight(stack, piece(2, request).order);
    expect(height({})).toBe(9);
    expect(height({ face: 's2' })).toBe(9);
    expect(height({ substitute: { s2: 's4' } })).toBe(10);
  });
});

describe('orderAddOn', () => {
  it('takes sheets from the front, or with the asked one first', () => {
    expect(orderAddOn(stack, 2, null).order).toEqual(['s1', 's2']);
    expect(orderAddOn(stack, 2, ask({ face: 'oak' })).order).toEqual(['s3', 's1']);
    expect(orderAddOn(stack, 2, ask({ face: ['s4', 's4'] })).order).toEqual(['s4', 's4']);
  });

  it('refuses what is not in the stack', () => {
    expect(orderAddOn(stack, 1, ask({ face: 'teak' })).refused).toEqual([
      { sheet: 'teak', reason: 'not-own' },
    ]);
    expect(orderAddOn(stack, 1, ask({ face: ['s9'] })).refused).toEqual([{ sheet: 's9', reason: 'not-own' }]);
    expect(orderAddOn(stack, 2, ask({ face: ['s1'] })).refused).toEqual([
      { sheet: 's1', reason: 'not-whole' },
    ]);
  });
});

describe('levelHeight', () => {
  it('counts from the front as pieces and from the back as continuous sheets', () => {
    expect([1, 2, 3, 4].map((n) => levelHeight(stack, n, 'pieces'))).toEqual([6, 9, 12, 16]);
    expect([1, 2, 3, 4].map((n) => levelHeight(stack, n, 'continuous'))).toEqual([4, 7, 10, 16]);
  });
});
