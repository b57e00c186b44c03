import { type Color, parseColor } from './color.js';

/** What a `fill` or `stroke` paints with. */
export type Paint =
  | { readonly kind: 'none' }
  | { readonly kind: 'color'; readonly color: Color }
  /** A gradient or pattern; `fallback` counts where the reference leads nowhere. */
  | { readonly kind: 'reference'; readonly id: string; readonly fallback: Paint };

export const NO_PAINT: Paint = { kind: 'none' };
export const BLACK: Paint = { kind: 'color', color: { hex: '#000000', alpha: 1 } };

/** Reads a paint; null when it is none. `current`: the value of `color` here. */
export function parsePaint(text: string, current: Color): Paint | null {
  const value = text.trim();
  const lower = value.toLowerCase();
  if (lower === 'none') return NO_PAINT;
  if (lower === 'currentcolor') return { kind: 'color', color: current };
  // The paint of the element that a marker or `use` stands in: painted, in a colour that is not worked out.
  if (lower === 'context-fill' || lower === 'context-stroke')
    return { kind: 'color', color: { hex: null, alpha: 1 } };
  const reference = splitReference(value);
  if (reference !== null) {
    // A fallback is a colour or none, never another reference (SVG 2).
    const { rest } = reference;
    const fallback = rest === '' || isReference(rest) ? null : parsePaint(rest, current);
    return { kind: 'reference', id: reference.id, fallback: fallback ?? NO_PAINT };
  }
  const color = parseColor(value);
  return color === null ? null : { kind: 'color', color };
}

/** The id in `url(#id)`; null when the text is no reference, the empty string when it leads out of the file. */
export function referencedId(text: string): string | null {
  return splitReference(text.trim())?.id ?? null;
}

function isReference(value: string): boolean {
  return /^url\(/i.test(value);
}

/** Parts `url(#id)` from what follows it; quotes are allowed. */
function splitReference(value: string): { id: string; rest: string } | null {
  if (!isReference(value)) return null;
  const body = value.slice(4).trimStart();
  const quote = body[0] === '"' || body[0] === "'" ? body[0] : '';
  const end = body.indexOf(quote || ')', quote.length);
  const close = quote ? body.indexOf(')', end) : end;
  if (end < 0 || close < 0) return null;
  const target = body.slice(quote.length, end).trim();
  return { id: target.startsWith('#') ? target.slice(1) : '', rest: body.slice(close + 1).trim() };
}
