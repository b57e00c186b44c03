import { demandText } from '../arguments.js';

/** mm in five of each unit, whole numbers so that inches come out rounded once (CSS Values and Units). */
const MM_IN_FIVE: Readonly<Record<string, number>> = {
  mm: 5,
  cm: 50,
  in: 127,
  inch: 127,
  inches: 127,
  '"': 127,
  '\u2033': 127,
};

const NUMBER = String.raw`(\d+)[ -]+(\d+)\s*\/\s*(\d+)|(\d+)\s*\/\s*(\d+)|(\d+(?:\.\d*)?|\.\d+)`;
const UNIT = String.raw`mm|cm|inches|inch|in|"|\u2033`;
const LENGTH = new RegExp(String.raw`^\s*(?:${NUMBER})\s*(${UNIT})?(?![A-Za-z0-9./])`, 'i');

/** A length read from the start of a text: mm, and how many characters it took. */
export interface ReadLength {
  readonly mm: number;
  readonly end: number;
}

/**
 * Reads a length from the start of a text: a decimal (`3.2`, `.25`), a fraction (`1/8`) or both (`1 1/2`,
 * `1-1/2`), then `mm`, `cm`, `in`, `inch` or an inch mark. A decimal without a unit is in mm; a fraction
 * needs its unit. Returns null where the text starts with no such length.
 */
export function readLengthAt(text: string): ReadLength | null {
  const match = LENGTH.exec(text);
  if (match === null) return null;
  const [all, whole, top, bottom, onlyTop, onlyBottom, decimal, unit] = match;
  if (unit === undefined && decimal === undefined) return null;
  const numerator = top ?? onlyTop;
  const denominator = bottom ?? onlyBottom;
  if (denominator !== undefined && Number(denominator) === 0) return null;
  const fraction = numerator === undefined ? 0 : Number(numerator) / Number(denominator);
  const value = Number(whole ?? decimal ?? 0) + fraction;
  return { mm: (value * MM_IN_FIVE[(unit ?? 'mm').toLowerCase()]) / 5, end: all!.length };
}

/**
 * Reads a thickness: `3.2 mm`, `1/8 in`, `1/4"`, `1 1/2 in`, `3` (mm). Returns mm, or null where the text is
 * something else. Zero is read; whether it makes sense is for the caller to say.
 */
export function parseThickness(text: string): number | null {
  demandText(text, 'parseThickness');
  const read = readLengthAt(text);
  return read !== null && text.slice(read.end).trim() === '' ? read.mm : null;
}

/** mm as text with up to two decimals: `3.18 mm`. */
export function formatMm(mm: number): string {
  return `${Math.round(mm * 100) / 100} mm`;
}
