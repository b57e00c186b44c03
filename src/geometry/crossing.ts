/**
 * Predicates on points in grid steps. Coordinates are multiples of 2⁻²⁰ step (see `quantize`) within ±2²⁴, so
 * that differences are exact in doubles; products are not, and where a double cannot tell, BigInt does.
 */

/** Parts of a grid step in which unrounded coordinates are kept: a part is about 10⁻⁹ mm. */
export const STEP_PARTS = 2 ** 20;

/** Adding and taking away 1.5 · 2³² leaves a double no bits below 2⁻²⁰: it is rounded there, halves to even. */
const LATTICE = 1.5 * 2 ** 32;

/** A coordinate in grid steps (within ±2²⁵), on the fine lattice that the predicates work on. */
export function quantize(steps: number): number {
  return steps + LATTICE - LATTICE;
}

/**
 * Twice the signed area of the triangle a, b, c, in doubles: exact for grid points, else good to
 * DOUBT · (|bx − ax| + |by − ay|). With y down, positive means that c lies to the right of the walk from a to b
 * (clockwise on the page).
 */
export function orientation(ax: number, ay: number, bx: number, by: number, cx: number, cy: number): number {
  return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
}

/**
 * Relative doubt of `orientation`: differences reach 2²⁵, each product is good to 2⁻⁵³ of itself and so is their
 * difference: 2²⁵ · (2⁻⁵³ + 2⁻⁵³), doubled for safety.
 */
export const DOUBT = 2 ** -26;

const big = (steps: number): bigint => BigInt(steps * STEP_PARTS);

function exactOrientation(ax: number, ay: number, bx: number, by: number, cx: number, cy: number): bigint {
  return big(bx - ax) * big(cy - ay) - big(by - ay) * big(cx - ax);
}

/** The sign of `orientation`, exact: negative, zero or positive. */
export function exactSide(ax: number, ay: number, bx: number, by: number, cx: number, cy: number): number {
  const o = exactOrientation(ax, ay, bx, by, cx, cy);
  return o < 0n ? -1 : o > 0n ? 1 : 0;
}

/** A place on the grid. */
export interface GridPoint {
  x: number;
  y: number;
}

/**
 * Rounds the crossing of a–b and c–d, which cross properly, to the grid (halves go up) into `into`. `ends` holds
 * ax, ay, bx, by, cx, cy, dx, dy: eight numbers as arguments of a call each would be an object of its own.
 */
export function roundCrossing(ends: Float64Array, into: GridPoint): void {
  const ax = ends[0];
  const ay = ends[1];
  const bx = ends[2];
  const by = ends[3];
  const cx = ends[4];
  const cy = ends[5];
  const dx = ends[6];
  const dy = ends[7];
  const o1 = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
  const o2 = (bx - ax) * (dy - ay) - (by - ay) * (dx - ax);
  const doubt = (Math.abs(bx - ax) + Math.abs(by - ay)) * DOUBT;
  const den = o1 - o2;
  const share = o1 / den;
  // Doubt of the share: of its two orientations, and its own rounding.
  const blur = Math.abs((4 * doubt) / den) + 2 ** -50;
  const x = cx + (dx - cx) * share + 0.5;
  const y = cy + (dy - cy) * share + 0.5;
  const wholeX = Math.floor(x);
  const wholeY = Math.floor(y);
  const blurX = Math.abs(dx - cx) * blur + 2 ** -26;
  const blurY = Math.abs(dy - cy) * blur + 2 ** -26;
  const clear = x - wholeX > blurX && wholeX + 1 - x > blurX && y - wholeY > blurY && wholeY + 1 - y > blurY;
  if (clear) {
    into.x = wholeX | 0;
    into.y = wholeY | 0;
  } else roundExactly(ax, ay, bx, by, cx, cy, dx, dy, into);
}

function roundExactly(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
  into: GridPoint,
): void {
  const first = exactOrientation(ax, ay, bx, by, cx, cy);
  const whole = first - exactOrientation(ax, ay, bx, by, dx, dy);
  into.x = roundAlong(cx, dx, first, whole);
  into.y = roundAlong(cy, dy, first, whole);
}

/** ⌊c + (d − c) · num/den + ½⌋ in exact arithmetic. */
function roundAlong(c: number, d: number, num: bigint, den: bigint): number {
  const parts = BigInt(STEP_PARTS);
  let top = 2n * (big(c) * den + big(d - c) * num) + parts * den;
  let bottom = 2n * parts * den;
  if (bottom < 0n) {
    top = -top;
    bottom = -bottom;
  }
  const quotient = top / bottom;
  return Number(top < 0n && quotient * bottom !== top ? quotient - 1n : quotient);
}

/**
 * Whether the segment from point k to point k + 1 of a line (`x`, `y`) meets the half-open pixel [−½, ½)² about the
 * grid point c. Exact. Touches of the rim are decided as if all segments were shifted by (ε, ε²) with an infinitely
 * small ε, which is the same as the half-open pixel for points, and leaves no special case for segments.
 */
export function meetsPixel(x: Float64Array, y: Float64Array, k: number, cx: number, cy: number): boolean {
  const ax = x[k];
  const bx = x[k + 1];
  if (ax < bx ? bx < cx - 0.5 || ax >= cx + 0.5 : ax < cx - 0.5 || bx >= cx + 0.5) return false;
  const ay = y[k];
  const by = y[k + 1];
  if (ay < by ? by < cy - 0.5 || ay >= cy + 0.5 : ay < cy - 0.5 || by >= cy + 0.5) return false;
  const dx = bx - ax;
  const dy = by - ay;
  const o = dx * (cy - ay) - dy * (cx - ax);
  const reach = 0.5 * (Math.abs(dx) + Math.abs(dy));
  const doubt = 2 * DOUBT * reach;
  if (o < reach - doubt && o > doubt - reach) return true;
  if (o > reach + doubt || o < -reach - doubt) return false;
  return meetsExactly(ax, ay, bx, by, cx, cy);
}

function meetsExactly(ax: number, ay: number, bx: number, by: number, cx: number, cy: number): boolean {
  const dx = bx - ax;
  const dy = by - ay;
  const twice = 2n * exactOrientation(ax, ay, bx, by, cx, cy);
  const reach = big(Math.abs(dx) + Math.abs(dy)) * BigInt(STEP_PARTS);
  if (twice < reach && twice > -reach) return true;
  // On the rim: the shift by (ε, ε²) changes the orientation by dy·ε − dx·ε².
  if (twice === reach) return dy < 0 || (dy === 0 && dx > 0);
  if (twice === -reach) return dy > 0 || (dy === 0 && dx < 0);
  return false;
}
