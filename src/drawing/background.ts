import { type Bounds, distance } from '../geometry/point.js';
import type { Drawing, Shape, Subpath } from './drawing.js';
import { subpathBounds } from './outline.js';

type Page = Drawing['page'];

/** How far (mm) a background rectangle may miss the edge of the page: editors round to 0.1 mm and worse. */
const PAGE_MISS = 0.2;

/**
 * Marks the background: the lowest of all shapes, if it is filled, a rectangle with sides along the axes, and
 * covers the whole page. One that reaches beyond the page gets the page itself as its outline.
 */
export function markBackground(shapes: readonly Shape[], page: Page): Shape[] {
  const first = shapes[0];
  if (first === undefined || first.fill === null || page.width <= 0 || page.height <= 0) return [...shapes];
  const outline = first.cover ?? first.subpaths;
  if (outline.length !== 1 || !isRectangle(outline[0])) return [...shapes];
  const [x0, y0, x1, y1] = subpathBounds(outline);
  const edges: Bounds = [page.x, page.y, page.x + page.width, page.y + page.height];
  const covers =
    x0 <= edges[0] + PAGE_MISS &&
    y0 <= edges[1] + PAGE_MISS &&
    x1 >= edges[2] - PAGE_MISS &&
    y1 >= edges[3] - PAGE_MISS;
  if (!covers) return [...shapes];
  const beyond =
    x0 < edges[0] - PAGE_MISS ||
    y0 < edges[1] - PAGE_MISS ||
    x1 > edges[2] + PAGE_MISS ||
    y1 > edges[3] + PAGE_MISS;
  const { cover: _, ...rest } = first;
  const subpaths = beyond ? [rectangle(edges)] : first.cover ? outline : first.subpaths;
  return [{ ...rest, subpaths, background: true }, ...shapes.slice(1)];
}

function isRectangle(subpath: Subpath): boolean {
  const lines = subpath.curves.filter((c) => c.kind !== 'line' || distance(c.from, c.to) > 0);
  if (lines.length < 4 || lines.some((c) => c.kind !== 'line')) return false;
  const [x0, y0, x1, y1] = subpathBounds([subpath]);
  return lines.every(({ from, to }) => {
    const upright = from[0] === to[0] && (from[0] === x0 || from[0] === x1);
    const level = from[1] === to[1] && (from[1] === y0 || from[1] === y1);
    return upright || level;
  });
}

function rectangle([x0, y0, x1, y1]: Bounds): Subpath {
  return {
    curves: [
      { kind: 'line', from: [x0, y0], to: [x1, y0] },
      { kind: 'line', from: [x1, y0], to: [x1, y1] },
      { kind: 'line', from: [x1, y1], to: [x0, y1] },
      { kind: 'line', from: [x0, y1], to: [x0, y0] },
    ],
    closed: true,
  };
}
