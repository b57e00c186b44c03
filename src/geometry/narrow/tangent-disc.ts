import { FAN } from '../box-tree.js';
import type { AreaBoundary } from './area-boundary.js';
import type { Spot } from './spot.js';

/** The largest disc inside that touches the boundary at a given point, and where else it touches. */
export interface TangentDisc {
  /** mm */
  readonly radius: number;
  readonly x: number;
  readonly y: number;
  readonly other: Spot;
}

/** A disc growing from its point, while the search goes on. */
interface Growing {
  readonly px: number;
  readonly py: number;
  /** Unit vector from the point to the disc's centre. */
  readonly nx: number;
  readonly ny: number;
  radius: number;
  segment: number;
  part: number;
}

/**
 * The largest disc inside the area that touches the boundary at (px, py) with its centre towards the unit vector
 * (nx, ny), or null when that has a radius of `limit` mm or more. `own` and `own2` are the segments on which
 * the point lies. By closed form for each segment that comes into question: discs of one point and direction are
 * nested, so a box outside the smallest so far is out.
 */
export function tangentDisc(
  b: AreaBoundary,
  px: number,
  py: number,
  nx: number,
  ny: number,
  own: number,
  own2: number,
  limit: number,
): TangentDisc | null {
  const disc: Growing = { px, py, nx, ny, radius: limit, segment: -1, part: 0 };
  const { boxes, items, levels } = b.tree;
  const stack = [levels.length - 2, levels[levels.length - 1] - 1];
  while (stack.length > 0) {
    const node = stack.pop() as number;
    const depth = stack.pop() as number;
    if (isOutside(boxes, 4 * node, disc)) continue;
    if (depth > 0) {
      const start = levels[depth - 1] + (node - levels[depth]) * FAN;
      const end = Math.min(start + FAN, levels[depth]);
      for (let child = start; child < end; child++) stack.push(depth - 1, child);
      continue;
    }
    const item = items[node];
    for (let i = b.runs[item]; i < b.runs[item + 1]; i++) {
      if (i !== own && i !== own2) shrinkTo(b, i, disc);
    }
  }
  if (disc.segment < 0) return null;
  const { radius, segment, part } = disc;
  return { radius, x: px + radius * nx, y: py + radius * ny, other: { segment, part } };
}

function isOutside(boxes: Float64Array, k: number, { px, py, nx, ny, radius }: Growing): boolean {
  const cx = px + radius * nx;
  const cy = py + radius * ny;
  const dx = Math.max(boxes[k] - cx, 0, cx - boxes[k + 2]);
  const dy = Math.max(boxes[k + 1] - cy, 0, cy - boxes[k + 3]);
  return dx * dx + dy * dy >= radius * radius;
}

/** Lets the disc shrink until it only touches segment i. */
function shrinkTo(b: AreaBoundary, i: number, disc: Growing): void {
  const j = b.next[i];
  const { px, py, nx, ny } = disc;
  const ex = b.x[j] - b.x[i];
  const ey = b.y[j] - b.y[i];
  const wx = px - b.x[i];
  const wy = py - b.y[i];
  const length = Math.sqrt(ex * ex + ey * ey);
  // Height of the point over the segment's line, and how much of it the disc gains as it grows.
  const height = (wy * ex - wx * ey) / length;
  const gain = 1 - (ny * ex - nx * ey) / length;
  if (height > 0 && gain > 0) {
    const radius = height / gain;
    const part = ((wx + radius * nx) * ex + (wy + radius * ny) * ey) / (length * length);
    if (part >= 0 && part <= 1) {
      if (radius < disc.radius) {
        disc.radius = radius;
        disc.segment = i;
        disc.part = part;
      }
      return;
    }
  }
  shrinkToPoint(disc, b.x[i], b.y[i], i, 0);
  shrinkToPoint(disc, b.x[j], b.y[j], i, 1);
}

function shrinkToPoint(disc: Growing, x: number, y: number, segment: number, part: number): void {
  const wx = x - disc.px;
  const wy = y - disc.py;
  const ahead = wx * disc.nx + wy * disc.ny;
  if (ahead <= 0) return;
  const radius = (wx * wx + wy * wy) / (2 * ahead);
  if (radius < disc.radius) {
    disc.radius = radius;
    disc.segment = segment;
    disc.part = part;
  }
}
