import type { AreaBoundary } from './area-boundary.js';
import { segmentsInDisc } from './disc-search.js';
import { EQUAL_WIDTH, middle, type PlacedChord } from './neighbouring-necks.js';

/** A third point counts when it is this part of the width away from both ends: nearer ones belong to the ends. */
const APART = 1 / 3;

/**
 * Whether the way out of a chord to one side rises less than `rise` mm before it meets a third piece of boundary, with
 * something narrower behind: such a chord is a place where bars cross, or belongs to the narrower place. With the third
 * point c, the way rises to the disc through both ends and c, and goes on between c and the nearer of the ends. On the
 * disc that has the chord as diameter both ways from c are shorter than the chord (Thales).
 */
export function hasThirdContact(b: AreaBoundary, { chord }: PlacedChord, rise: number): boolean {
  const { from, to, width } = chord;
  if (!(rise > 0) || width === 0) return false;
  const [mx, my] = middle(chord);
  const radius = width / 2;
  // Right above the middle, a point at a distance d from the disc lifts it by d²/width.
  const reach = radius + Math.sqrt(width * rise) + rise;
  let met = false;
  segmentsInDisc(b, mx, my, reach, (i) => {
    const [x, y] = nearestPoint(b, i, mx, my);
    const [p, q] = [Math.hypot(x - from[0], y - from[1]), Math.hypot(x - to[0], y - to[1])];
    const nearer = Math.min(p, q);
    if (nearer < APART * width || nearer > width - EQUAL_WIDTH) return false;
    const doubled = Math.abs((to[0] - from[0]) * (y - from[1]) - (to[1] - from[1]) * (x - from[0]));
    met = p * q * width < (2 * radius + rise) * doubled;
    return met;
  });
  return met;
}

function nearestPoint(b: AreaBoundary, i: number, px: number, py: number): [number, number] {
  const j = b.next[i];
  const [ex, ey] = [b.x[j] - b.x[i], b.y[j] - b.y[i]];
  const t = ((px - b.x[i]) * ex + (py - b.y[i]) * ey) / (ex * ex + ey * ey);
  const part = Math.min(1, Math.max(0, t));
  return [b.x[i] + part * ex, b.y[i] + part * ey];
}
