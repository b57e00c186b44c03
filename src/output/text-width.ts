/**
 * Widths of the characters that labels use, in parts of the type size, for the sans-serif that the pictures
 * ask for (Helvetica's published metrics; Arial and Liberation Sans share them). Others count as the widest.
 */
const WIDTHS: Readonly<Record<string, number>> = {
  ...Object.fromEntries([...'0123456789'].map((digit) => [digit, 0.556])),
  ' ': 0.278,
  r: 0.333,
  p: 0.556,
  '.': 0.278,
  '/': 0.278,
  '+': 0.584,
  '\u2212': 0.584,
};

const OTHER = 0.6;

/** Bold type is wider by about this factor; these have widths of their own (Helvetica-Bold). */
const BOLD = 1.05;
const BOLD_WIDTHS: Readonly<Record<string, number>> = {
  '\u00b7': 0.278,
  ';': 0.333,
  e: 0.556,
  m: 0.889,
  s: 0.556,
  t: 0.333,
};

/** The width of a text set at `size`, in the unit of `size`; an estimate for words, exact for numbers. */
export function textWidth(text: string, size: number, bold = false): number {
  let width = 0;
  for (const char of text) {
    width += (bold ? BOLD_WIDTHS[char] : undefined) ?? (WIDTHS[char] ?? OTHER) * (bold ? BOLD : 1);
  }
  return width * size;
}

/** The type family of all written pictures. */
export const FONT_FAMILY = "Helvetica, Arial, 'Liberation Sans', sans-serif";

/** How far below the middle of a line of digits its baseline lies, in parts of the size (half the digit height). */
export const BASELINE = 0.36;
