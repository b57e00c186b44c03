import { type Affine, applyToPoint } from '../../geometry/affine.js';
import type { Curve } from '../../geometry/curve.js';
import type { Bounds, Point } from '../../geometry/point.js';
import type { Subpath } from '../drawing.js';
import type { Box } from '../size/view-box.js';

/** One outline of a clip: closed subpaths in mm with their filling rule. */
export interface ClipPart {
  readonly outline: readonly Subpath[];
  readonly rule: 'nonzero' | 'evenodd';
  /** The part counts only inside of this. */
  readonly within: ClipRegion | null;
}

/** What may show: the union of the parts, inside of `within`. */
export interface ClipRegion {
  readonly parts: readonly ClipPart[];
  readonly within: ClipRegion | null;
}

/** Corners farther out than this, mm, are no clip for anything on a page. */
const FAR = 1e9;

/** A rectangle in user units as a region; `within` is what clips around it. */
export function boxRegion(box: Box, matrix: Affine, within: ClipRegion | null): ClipRegion | null {
  const corners = [
    [box.x, box.y],
    [box.x + box.width, box.y],
    [box.x + box.width, box.y + box.height],
    [box.x, box.y + box.height],
  ].map(([x, y]) => applyToPoint(matrix, [x, y]));
  // Beyond all that is ever drawn; also not a number.
  if (!corners.every(([x, y]) => Math.abs(x) <= FAR && Math.abs(y) <= FAR)) return within;
  return { parts: [{ outline: [polygon(corners)], rule: 'nonzero', within: null }], within };
}

function polygon(corners: readonly Point[]): Subpath {
  const curves: Curve[] = corners.map((from, i) => ({
    kind: 'line',
    from,
    to: corners[(i + 1) % corners.length],
  }));
  return { curves, closed: true };
}

/**
 * The box that a region is, when it and all around it are single rectangles along the axes; null otherwise.
 * Most clips of real files (pages, nested viewports, artboards) are, and most shapes lie inside them.
 */
export function plainBox(region: ClipRegion): Bounds | null {
  let box: Bounds = [
    Number.NEGATIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    Number.POSITIVE_INFINITY,
    Number.POSITIVE_INFINITY,
  ];
  for (let at: ClipRegion | null = region; at !== null; at = at.within) {
    const own = rectangleOf(at);
    if (own === null) return null;
    box = [
      Math.max(box[0], own[0]),
      Math.max(box[1], own[1]),
      Math.min(box[2], own[2]),
      Math.min(box[3], own[3]),
    ];
  }
  return box;
}

function rectangleOf(region: ClipRegion): Bounds | null {
  const [part] = region.parts;
  if (region.parts.length !== 1 || part.within !== null || part.outline.length !== 1) return null;
  const { curves } = part.outline[0];
  if (curves.length !== 4 || curves.some((c) => c.kind !== 'line')) return null;
  for (const [i, { from, to }] of curves.entries()) {
    const level = from[1] === to[1] && from[0] !== to[0];
    const upright = from[0] === to[0] && from[1] !== to[1];
    const before = curves[(i + 3) % 4];
    const beforeLevel = before.from[1] === before.to[1];
    if (!(level || upright) || level === beforeLevel) return null;
  }
  const xs = curves.map((c) => c.from[0]);
  const ys = curves.map((c) => c.from[1]);
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}
