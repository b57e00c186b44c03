import { demandOneOf, demandText, isMembers } from '../arguments.js';

/**
 * What a number on a drawing says.
 * piece: a body of the front `sheets` sheets; opening: right through what surrounds it;
 * recess: `down` sheets down from the face of what surrounds it; add-on: `sheets` extra sheets on top.
 */
export type DepthMark =
  | { readonly kind: 'piece'; readonly sheets: number }
  | { readonly kind: 'opening' }
  | { readonly kind: 'recess'; readonly down: number }
  | { readonly kind: 'add-on'; readonly sheets: number };

const MARK = /^([+\-\u2212]?)(\d{0,3})$/;

/**
 * Reads a number as written on a drawing: `3`, `0`, `-1` (hyphen or true minus), `+`, `+2`.
 * Returns null for any other text.
 */
export function parseDepthMark(text: string): DepthMark | null {
  demandText(text, 'parseDepthMark');
  const match = MARK.exec(text.trim());
  if (match === null || match[0] === '') return null;
  const [, sign, digits] = match as unknown as [string, string, string];
  const value = digits === '' ? Number.NaN : Number(digits);
  if (sign === '+') {
    if (digits === '') return { kind: 'add-on', sheets: 1 };
    return value >= 1 ? { kind: 'add-on', sheets: value } : null;
  }
  if (Number.isNaN(value)) return null;
  if (sign === '') return value === 0 ? { kind: 'opening' } : { kind: 'piece', sheets: value };
  return value >= 1 ? { kind: 'recess', down: value } : null;
}

/** Writes a mark as a drawing would: `3`, `0`, `-1`, `+`, `+2`. */
export function formatDepthMark(mark: DepthMark): string {
  const kind = isMembers(mark) ? mark.kind : mark;
  demandOneOf(kind, ['piece', 'opening', 'recess', 'add-on'], 'formatDepthMark', 'the kind of mark');
  switch (mark.kind) {
    case 'piece':
      return String(mark.sheets);
    case 'opening':
      return '0';
    case 'recess':
      return `-${mark.down}`;
    case 'add-on':
      return mark.sheets === 1 ? '+' : `+${mark.sheets}`;
  }
}
