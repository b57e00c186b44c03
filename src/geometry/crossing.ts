/**
 * Twice the signed area of the triangle a, b, c. Exact for grid points (see MAX_STEPS). With y down, positive
 * means that c lies to the right of the walk from a to b (clockwise on the page).
 */
export function orientation(ax: number, ay: number, bx: number, by: number, cx: number, cy: number): number {
  return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
}

/**
 * Doubles place a crossing to within 2⁻²⁵ steps (25-bit differences times a quotient good to 2⁻⁵¹, few
 * roundings); nearer than this to a rounding boundary, exact arithmetic decides.
 */
const FILTER = 2 ** -22;

/**
 * One coordinate of the crossing of two grid segments, rounded to the grid (halves go up): `c + d · num/den`
 * with integers, `den > 0`, `0 ≤ num ≤ den`.
 */
export function roundedAlong(c: number, d: number, num: number, den: number): number {
  const shifted = c + d * (num / den) + 0.5;
  const whole = Math.floor(shifted);
  const rest = shifted - whole;
  if (rest > FILTER && rest < 1 - FILTER) return whole;
  return roundedExactly(c, d, num, den);
}

function roundedExactly(c: number, d: number, num: number, den: number): number {
  const top = 2n * BigInt(d) * BigInt(num) + BigInt(den);
  const bottom = 2n * BigInt(den);
  const quotient = top / bottom;
  const floor = top < 0n && quotient * bottom !== top ? quotient - 1n : quotient;
  return c + Number(floor);
}

/**
 * Whether the segment a–b (grid points) meets the half-open pixel [−½, ½)² about the grid point c. Exact:
 * separating axes are x, y and the segment's normal; a touch of the pixel's rim counts only at its (−½, −½)
 * corner. For the vertical and horizontal rims integer end points leave no doubtful case.
 */
export function meetsPixel(ax: number, ay: number, bx: number, by: number, cx: number, cy: number): boolean {
  if (ax < bx ? cx < ax || cx > bx : cx < bx || cx > ax) return false;
  if (ay < by ? cy < ay || cy > by : cy < by || cy > ay) return false;
  const dx = bx - ax;
  const dy = by - ay;
  const o = dx * (cy - ay) - dy * (cx - ax);
  const reach = 0.5 * (Math.abs(dx) + Math.abs(dy));
  if (o < reach && o > -reach) return true;
  if (o === reach) return (dx > 0 && dy < 0) || reach === 0;
  if (o === -reach) return dx < 0 && dy > 0;
  return false;
}
