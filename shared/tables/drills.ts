/**
 * Standard twist drills: number, fractional and metric sizes.
 *
 * Sources. Numbers: ASME B94.11M (edition not seen), #1 to #80 in inches as recalled and as one stored public
 * table gives them, alike on all eighty; #1 to #4, #7, #10, #21, #25 and #80 also on independent pages.
 * Fractions: every 1/64 in, by arithmetic. Metric: every 0.1 mm, as ISO 235 jobber drills are sold (`from
 * memory`). The sizes themselves are facts, free to use.
 */

/** 1 in in mm: CSS Values and Units, and the inch of 1959. */
export const MM_PER_INCH = 25.4;

/** A drill bit by its trade name; diameter in mm. */
export interface Bit {
  /** `#56`, `3/64 in`, `1.2 mm`. */
  readonly name: string;
  readonly diameter: number;
}

/** Diameters of the number drills in inches, `NUMBER_DRILLS_INCH[0]` being #1; strictly falling. */
export const NUMBER_DRILLS_INCH: readonly number[] = [
  0.228, 0.221, 0.213, 0.209, 0.2055, 0.204, 0.201, 0.199, 0.196, 0.1935, 0.191, 0.189, 0.185, 0.182, 0.18,
  0.177, 0.173, 0.1695, 0.166, 0.161, 0.159, 0.157, 0.154, 0.152, 0.1495, 0.147, 0.144, 0.1405, 0.136, 0.1285,
  0.12, 0.116, 0.113, 0.111, 0.11, 0.1065, 0.104, 0.1015, 0.0995, 0.098, 0.096, 0.0935, 0.089, 0.086, 0.082,
  0.081, 0.0785, 0.076, 0.073, 0.07, 0.067, 0.0635, 0.0595, 0.055, 0.052, 0.0465, 0.043, 0.042, 0.041, 0.04,
  0.039, 0.038, 0.037, 0.036, 0.035, 0.033, 0.032, 0.031, 0.0292, 0.028, 0.026, 0.025, 0.024, 0.0225, 0.021,
  0.02, 0.018, 0.016, 0.0145, 0.0135,
];

/** #80 to #1, ascending. */
export const NUMBER_DRILLS: readonly Bit[] = NUMBER_DRILLS_INCH.map((inch, i) => ({
  name: `#${i + 1}`,
  diameter: round(inch * MM_PER_INCH),
})).reverse();

/** 1/64 in to 1/4 in, ascending. */
export const FRACTIONAL_DRILLS: readonly Bit[] = Array.from({ length: 16 }, (_, i) => ({
  name: `${inLowestTerms(i + 1, 64)} in`,
  diameter: round(((i + 1) / 64) * MM_PER_INCH),
}));

/** 0.3 mm to 6.5 mm, ascending. */
export const METRIC_DRILLS: readonly Bit[] = Array.from({ length: 63 }, (_, i) => ({
  name: `${((i + 3) / 10).toFixed(1)} mm`,
  diameter: (i + 3) / 10,
}));

/** All three series in one, ascending; of two equal diameters the metric name comes last. */
export const STANDARD_BITS: readonly Bit[] = [...NUMBER_DRILLS, ...FRACTIONAL_DRILLS, ...METRIC_DRILLS].sort(
  (a, b) => a.diameter - b.diameter,
);

/** Ten-thousandths of a millimetre hold every size exactly. */
function round(mm: number): number {
  return Math.round(mm * 1e5) / 1e5;
}

function inLowestTerms(numerator: number, denominator: number): string {
  let [a, b] = [numerator, denominator];
  while (a % 2 === 0) [a, b] = [a / 2, b / 2];
  return `${a}/${b}`;
}
