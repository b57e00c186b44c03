import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PlystepError } from '../../src/error.js';
import { parseStack } from '../../src/relief/parse-stack.js';
import { formatMm, parseThickness } from '../../src/relief/parse-thickness.js';
import { readStack } from '../../src/relief/read-stack.js';

function errorOf(run: () => unknown): PlystepError {
  try {
    run();
  } catch (error) {
    if (error instanceof PlystepError) return error;
    throw error;
  }
  throw new Error('nothing was thrown');
}

describe('parseThickness', () => {
  it.each([
    ['3.2 mm', 3.2],
    ['3', 3],
    ['.5mm', 0.5],
    ['1/8 in', 3.175],
    ['1/4"', 6.35],
    ['1/4\u2033', 6.35],
    ['1 1/2 in', 38.1],
    ['1-1/2 inch', 38.1],
    ['0.25 IN', 6.35],
    ['1.2 cm', 12],
    ['0 mm', 0],
  ])('reads %s', (text, mm) => {
    expect(parseThickness(text)).toBeCloseTo(mm, 12);
  });

  it.each(['', 'thick', '1/8', '1/0 in', '-3 mm', '3 mmm', '3 miles', '1/8 in birch', '1e3', '3,2 mm'])(
    'refuses %s',
    (text) => {
      expect(parseThickness(text)).toBeNull();
    },
  );

  it('reads every fraction of an inch as the division says', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 5 }), fc.integer({ min: 1, max: 64 }), (whole, top) => {
        const mm = (whole + top / 64) * 25.4;
        expect(parseThickness(`${whole} ${top}/64 in`)).toBeCloseTo(mm, 12);
        expect(parseThickness(formatMm(mm))).toBeCloseTo(mm, 1);
      }),
    );
  });
});

describe('parseStack', () => {
  it('reads sheets front to back, with counts', () => {
    const { sheets } = parseStack('6 mm walnut, 3x 1/8 in basswood');
    expect(sheets.map((s) => s.id)).toEqual(['s1', 's2', 's3', 's4']);
    expect(sheets.map((s) => s.thickness)).toEqual([6, 3.175, 3.175, 3.175]);
    expect(sheets.map((s) => s.material)).toEqual(['walnut', 'basswood', 'basswood', 'basswood']);
  });

  it('reads details', () => {
    const text =
      '1/4" white oak (grain 90; board 300 x 200 mm; boards 2; color #AABBCC; face dark oil; id front), 2 x 3 plywood (no grain)';
    const { sheets } = parseStack(text);
    expect(sheets[0]).toEqual({
      id: 'front',
      thickness: 6.35,
      material: 'white oak',
      grain: 90,
      width: 300,
      height: 200,
      count: 2,
      color: '#aabbcc',
      face: 'dark oil',
    });
    expect(sheets[2]).toEqual({ id: 's3', thickness: 3, material: 'plywood', grain: null });
  });

  it('takes the unit of the second length of a board for both', () => {
    const { sheets } = parseStack('3 mm birch (board 12 x 8 in)');
    expect([sheets[0]!.width, sheets[0]!.height]).toEqual([304.8, 8 * 25.4]);
  });

  it('calls a sheet without a material wood', () => {
    expect(parseStack('3').sheets[0]!.material).toBe('wood');
  });

  it.each([
    ['', 1, 'empty'],
    ['3 mm birch, , 2 mm oak', 13, 'missing'],
    ['birch', 1, 'no sheet'],
    ['3 mm birch, 1/8 birch', 13, 'no sheet'],
    ['3 mm birch, 0x 2 mm oak', 13, 'at least one'],
    ['3 mm birch (grain up)', 1, 'number'],
    ['3 mm birch (colour red)', 1, 'no detail'],
    ['3 mm birch (board 300)', 1, 'no size'],
    ['3 mm birch (grain 0', 19, 'not closed'],
    ['3 mm birch )', 12, 'out of place'],
    ['2x 3 mm birch (id a)', 1, 'one id'],
  ])('refuses %j at column %i', (text, column, words) => {
    const error = errorOf(() => parseStack(text));
    expect(error.code).toBe('bad-stack');
    expect(error.place.column).toBe(column);
    expect(error.message).toContain(words);
  });

  it('throws nothing but its own error on any text', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.string({ unit: fc.constantFrom(...'0123x/."(),; mincbord') })),
        (text) => {
          try {
            parseStack(text);
          } catch (error) {
            expect(error).toBeInstanceOf(PlystepError);
          }
        },
      ),
    );
  });
});

describe('readStack', () => {
  it('accepts a bare list and an object, and reads thickness as text', () => {
    const sheets = [
      { thickness: '1/8 in' },
      { id: 'back', thickness: 3, material: 'ply', grain: null, count: 2 },
    ];
    expect(readStack(sheets)).toEqual(readStack({ sheets }));
    expect(readStack(sheets).sheets[0]).toEqual({ id: 's1', thickness: 3.175, material: 'wood' });
  });

  it('gives a stack that it reads back unchanged', () => {
    const stack = parseStack('6 mm walnut (grain 0; board 20 x 10 cm), 3x 1/8 in basswood');
    expect(readStack(JSON.parse(JSON.stringify(stack)))).toEqual(stack);
  });

  it.each([
    [null, 'list of sheets'],
    [[], 'no sheets'],
    [[3], 'not an object'],
    [[{}], 'missing'],
    [[{ thickness: 0 }], 'above 0'],
    [[{ thickness: -3 }], 'above 0'],
    [[{ thickness: Number.NaN }], 'thickness'],
    [[{ thickness: Number.POSITIVE_INFINITY }], 'thickness'],
    [[{ thickness: '-3 mm' }], 'thickness'],
    [[{ thickness: 500 }], 'no sheet'],
    [[{ thickness: 3, color: 'red' }], '#rrggbb'],
    [[{ thickness: 3, grain: 'up' }], 'grain'],
    [[{ thickness: 3, count: 1.5 }], 'count'],
    [[{ thickness: 3, width: 0 }], 'width'],
    [[{ thickness: 3, material: 7 }], 'material'],
    [
      [
        { thickness: 3, id: 'a' },
        { thickness: 3, id: 'a' },
      ],
      'two sheets',
    ],
    [Array.from({ length: 65 }, () => ({ thickness: 1 })), '65'],
  ])('refuses %j', (value, words) => {
    const error = errorOf(() => readStack(value));
    expect(error.code).toBe('bad-stack');
    expect(error.message.toLowerCase()).toContain(words);
  });
});
