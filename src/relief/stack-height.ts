import type { Sheet, Stack } from './stack.js';

/** The height of some sheets of a stack laid on each other, mm; a repeated id counts each time. */
export function stackHeight(stack: Stack, ids: readonly string[]): number {
  let height = 0;
  for (const id of ids) height += sheetOf(stack, id).thickness;
  return height;
}

/** The sheet with an id; the id must be one of the stack's. */
export function sheetOf(stack: Stack, id: string): Sheet {
  for (const sheet of stack.sheets) if (sheet.id === id) return sheet;
  throw new RangeError(`the stack has no sheet "${id}"`);
}

/**
 * The height of a piece of `count` sheets of the stack, mm: of the front sheets as pieces, of the back ones as
 * continuous sheets.
 */
export function levelHeight(stack: Stack, count: number, joint: 'pieces' | 'continuous'): number {
  const { sheets } = stack;
  const own = joint === 'pieces' ? sheets.slice(0, count) : sheets.slice(Math.max(0, sheets.length - count));
  return own.reduce((height, sheet) => height + sheet.thickness, 0);
}
