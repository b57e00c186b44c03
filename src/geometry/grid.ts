/** Grid steps in a millimetre: nodes lie on multiples of 2⁻¹⁰ mm (about a micrometre). */
export const STEPS_PER_MM = 1024;

/** One grid step, mm. */
export const GRID_STEP = 1 / STEPS_PER_MM;

/**
 * Largest coordinate, in grid steps, either way (±16 m). With it, differences stay within 2²⁵ and each
 * product of two within 2⁵⁰, so the orientation of three grid points is exact in a double.
 */
export const MAX_STEPS = 2 ** 24;

/** The grid coordinate nearest to a coordinate in mm; halves go up, so a pixel is [−½, ½) about its point. */
export function toGrid(mm: number): number {
  return Math.floor(mm * STEPS_PER_MM + 0.5);
}

/** A grid coordinate in mm; exact. */
export function fromGrid(steps: number): number {
  return steps * GRID_STEP;
}
