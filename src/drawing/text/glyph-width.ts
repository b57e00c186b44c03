/**
 * Widths of characters in em. No font is read: these are the rounded widths of a common sans-serif face (digits
 * 0.556, from memory), good enough to find the middle of a label.
 */
const NARROW = new Set([...".,:;'!|iljI ftr()[]/\\-\u00a0"]);
const WIDE = new Set([...'mwMW@%']);

export function glyphWidth(character: string): number {
  const code = character.codePointAt(0) ?? 0;
  if (code >= 0x300 && code <= 0x36f) return 0;
  if (code >= 0x1100 && (code <= 0x11ff || (code >= 0x2e80 && code <= 0xffef))) return 1;
  if (NARROW.has(character)) return 0.3;
  if (WIDE.has(character)) return 0.85;
  if (character >= '0' && character <= '9') return 0.556;
  return character !== character.toLowerCase() ? 0.68 : 0.52;
}
