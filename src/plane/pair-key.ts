/** One number for two of `count` curves, whichever comes first. */
export const pairKey = (a: number, b: number, count: number): number =>
  a < b ? a * count + b : b * count + a;
