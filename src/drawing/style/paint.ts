import { type Color, parseColor } from './color.js';

/** What a `fill` or `stroke` paints with. */
export type Paint =
  | { readonly kind: 'none' }
  | { readonly kind: 'color'; readonly color: Color }
  /** A gradient or pattern; `fallback` counts where the reference leads nowhere. */
  | { readonly kind: 'reference'; readonly id: string; readonly fallback: Paint };

export const NO_PAINT: Paint = { kind: 'none' };
export const BLACK: Paint = { kind: 'color', color: { hex: '#000000', alpha: 1 } };

const REFERENCE = /^url\(\s*(?:"([^"]*)"|'([^']*)'|([^"')\s]*))\s*\)\s*(.*)$/s;

/** Reads a paint; null when it is none. `current`: the value of `color` here. */
export function parsePaint(text: string, current: Color): Paint | null {
  const value = text.trim();
  const lower = value.toLowerCase();
  if (lower === 'none') return NO_PAINT;
  if (lower === 'currentcolor') return { kind: 'color', color: current };
  // The paint of the element that a marker or `use` stands in: painted, in a colour that is not worked out.
  if (lower === 'context-fill' || lower === 'context-stroke')
    return { kind: 'color', color: { hex: null, alpha: 1 } };
  const reference = REFERENCE.exec(value);
  if (reference) {
    const target = reference[1] ?? reference[2] ?? reference[3];
    const fallback = reference[4] === '' ? NO_PAINT : (parsePaint(reference[4], current) ?? NO_PAINT);
    return { kind: 'reference', id: target.startsWith('#') ? target.slice(1) : '', fallback };
  }
  const color = parseColor(value);
  return color === null ? null : { kind: 'color', color };
}

/** The id in `url(#id)`; null when the text is no reference, the empty string when it leads out of the file. */
export function referencedId(text: string): string | null {
  const found = REFERENCE.exec(text.trim());
  if (!found) return null;
  const target = found[1] ?? found[2] ?? found[3];
  return target.startsWith('#') ? target.slice(1) : '';
}
