import { PlystepError } from '../error.js';
import { checkSheets } from './check-sheets.js';
import { parseStack } from './parse-stack.js';
import type { Stack } from './stack.js';

/**
 * Reads a stack in any of its forms: the list of its sheets, `{ sheets: [...] }`, or words as for `parseStack`
 * (`"6 mm walnut, 3x 1/8 in birch"`). What may be left out is filled in: sheet ids (`s1`, `s2`, … from the front);
 * thicknesses may be text (`"1/8 in"`). Lengths in mm.
 *
 * @param where the place of the value in a larger file, for messages; then errors have no line and column, which would
 *   be those of the text of the stack alone
 * @throws PlystepError 'bad-stack' naming the sheet and what is wrong with it.
 */
export function readStack(value: unknown, where?: string): Stack {
  try {
    if (typeof value === 'string') return parseStack(value);
    const list = Array.isArray(value) ? value : (value as { sheets?: unknown } | null | undefined)?.sheets;
    if (Array.isArray(list)) return checkSheets(list);
  } catch (error) {
    if (where === undefined || !(error instanceof PlystepError)) throw error;
    const { column } = error.place;
    const place = column === undefined ? where : `${where}, character ${column}`;
    throw new PlystepError(error.code, `${error.message} (at ${place})`);
  }
  throw new PlystepError(
    'bad-stack',
    `A stack is a list of sheets, front to back, or one text such as "6 mm walnut, 3x 1/8 in birch".${where === undefined ? '' : ` (at ${where})`}`,
  );
}
