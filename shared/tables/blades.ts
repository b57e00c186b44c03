import { MM_PER_INCH } from './drills.js';

/**
 * Scroll saw blades, plain end, by their universal numbers.
 *
 * Source: all `from memory`; makers differ by some hundredths of a millimetre, so what is printed on the packet
 * counts. Stack heights and materials for each number are common practice, no source.
 */

/** A blade; lengths in mm. */
export interface Blade {
  readonly name: string;
  /** Front to back; decides how tightly it can turn. */
  readonly width: number;
  /** The kerf. */
  readonly thickness: number;
  /** Height of middling hard wood that it cuts at ease, from and to. */
  readonly height: readonly [least: number, most: number];
}

type Row = readonly [number: number, width: number, thickness: number, least: number, most: number];

const ROWS: readonly Row[] = [
  [1, 0.026, 0.013, 1.5, 6.5],
  [3, 0.032, 0.014, 3, 13],
  [5, 0.038, 0.016, 6, 20],
  [7, 0.045, 0.017, 13, 30],
  [9, 0.053, 0.018, 19, 50],
];

/** Ascending by number, width, thickness and height. */
export const BLADES: readonly Blade[] = ROWS.map(([number, width, thickness, least, most]) => ({
  name: `No. ${number}`,
  width: round(width * MM_PER_INCH),
  thickness: round(thickness * MM_PER_INCH),
  height: [least, most],
}));

/** A twist drill must pass this corner to corner of the blade, mm. */
export function bladeDiagonal(blade: { readonly width: number; readonly thickness: number }): number {
  return Math.hypot(blade.width, blade.thickness);
}

function round(mm: number): number {
  return Math.round(mm * 1e4) / 1e4;
}
