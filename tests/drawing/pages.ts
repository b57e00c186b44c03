import type { Drawing, Shape } from '../../src/drawing/drawing.js';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import type { ReadOptions } from '../../src/drawing/read-options.js';
import { curveBounds } from '../../src/geometry/curve-bounds.js';
import { type Bounds, EMPTY_BOUNDS, joinBounds } from '../../src/geometry/point.js';

/** A page of 100 × 100 mm with a user unit of 1 mm, and `content` on it. */
export function svg(content: string, attributes = ''): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100"${attributes}>${content}</svg>`;
}

export function read(content: string, options: ReadOptions = {}): Drawing {
  return readDrawing(svg(content), options);
}

/** The box of a shape's lines, rounded to 10⁻⁶ mm. */
export function boxOf(shape: Shape): number[] {
  return rounded(boundsOf(shape));
}

function boundsOf(shape: Shape): Bounds {
  return shape.subpaths
    .flatMap((subpath) => subpath.curves)
    .reduce((bounds, curve) => joinBounds(bounds, curveBounds(curve)), EMPTY_BOUNDS);
}

export function rounded(values: readonly number[]): number[] {
  // Adding 0 turns -0 into 0.
  return values.map((value) => Math.round(value * 1e6) / 1e6 + 0);
}

/** Boxes of all shapes in paint order. */
export function boxes(drawing: Drawing): number[][] {
  return drawing.shapes.map(boxOf);
}

export function rules(drawing: Drawing): string[] {
  return drawing.findings.map((finding) => finding.rule);
}
