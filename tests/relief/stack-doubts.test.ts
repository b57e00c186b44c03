import { expect, it } from 'vitest';
import { PlystepError } from '../../src/error.js';
import { parseStack } from '../../src/relief/parse-stack.js';

function refusal(text: string): PlystepError {
  try {
    parseStack(text);
  } catch (error) {
    if (error instanceof PlystepError) return error;
    throw error;
  }
  throw new Error(`"${text}" was taken`);
}

it.each([
  ['3,2 mm birch', 1, '"3.2 mm birch"'],
  ['6 mm walnut, 3,2 mm birch', 14, '"3.2 mm birch"'],
  ['6 mm walnut, 3x 3,2 mm birch', 14, '"3x 3.2 mm birch"'],
  ['3,2', 1, '"3.2"'],
  ['3,2 birch', 1, '"3.2 birch"'],
  ['3, 2 mm birch', 1, 'reads as two sheets, the first of 3 mm'],
  ['6 mm walnut 3 mm birch', 1, '"6 mm walnut, 3 mm birch"'],
  ['6 mm walnut;3 mm birch', 1, '"6 mm walnut, 3 mm birch"'],
  ['6 mm walnut; birch', 1, '"6 mm walnut, birch"'],
  ['6 mm walnut + 3x 1/8 in birch', 1, '"6 mm walnut, 3x 1/8 in birch"'],
  ['6 mm walnut 3 birch', 1, '"6 mm walnut, 3 birch"'],
  ['6 mm walnut 3 mm', 1, '"6 mm walnut, 3 mm"'],
  ['3 mm oak, 6 mm walnut 1/8" birch (grain 0)', 11, '"6 mm walnut, 1/8" birch"'],
  ['6 3 mm birch', 1, 'commas between them'],
  ['3 furlong birch', 1, 'unit "furlong"'],
  ['3 millimetres birch', 1, 'unit "millimetres"'],
  ['3 m birch', 1, 'unit "m"'],
  ['3 nm birch', 1, 'unit "nm"'],
  ["3' birch", 1, `unit "'"`],
  ['3 mm birch (board 300,5 x 200 mm)', 1, 'no size'],
])('says how it read %j at column %i, and how to write it', (text, column, words) => {
  const error = refusal(text);
  expect(error.code).toBe('bad-stack');
  expect(error.place.column).toBe(column);
  expect(error.message).toContain(words);
});

it.each([
  ['3 mm, 2 mm birch', ['wood', 'birch']],
  ['3, 3', ['wood', 'wood']],
  ['3, 3x 1/8 in birch', ['wood', 'birch', 'birch', 'birch']],
  ['3, 3.2 mm birch', ['wood', 'birch']],
  ['3, 1/8 in birch', ['wood', 'birch']],
  ['6 mm walnut,3 mm birch', ['walnut', 'birch']],
  ['3.2 mm birch 3-ply', ['birch 3-ply']],
  ['3 mm 5 ply birch', ['5 ply birch']],
  ['3 mm birch B/BB grade 2', ['birch B/BB grade 2']],
  ['3 PE', ['PE']],
  ['3 birch', ['birch']],
])('takes %j', (text, materials) => {
  expect(parseStack(text).sheets.map((sheet) => sheet.material)).toEqual(materials);
});
