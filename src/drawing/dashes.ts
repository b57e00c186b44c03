import { curveLength } from '../geometry/curve-length.js';
import type { Subpath } from './drawing.js';
import type { Context } from './scene.js';
import { splitLength } from './size/length.js';
import type { XmlElement } from './xml/xml-tree.js';

/**
 * Whether gaps of the dash pattern show. Where the first dash is longer than every line, none does: animations
 * that draw themselves are made like this. `lines`: what is drawn, mm.
 */
export function isDashed(element: XmlElement, context: Context, lines: readonly Subpath[]): boolean {
  const { dashes, dashOffset } = context.style;
  if (dashes.length === 0) return false;
  const lengths = lines.map((subpath) => subpath.curves.reduce((sum, curve) => sum + curveLength(curve), 0));
  const [a, b, c, d] = context.matrix;
  let scale = Math.sqrt(Math.abs(a * d - b * c));
  const stated = splitLength(element.attributes.pathLength ?? '')?.value ?? 0;
  if (stated > 0) scale = lengths.reduce((sum, length) => sum + length, 0) / stated;
  const first = dashes[0] * scale * (1 + DASH_SLACK);
  return dashOffset !== 0 || lengths.some((length) => length > first);
}

/** Lengths in files are rounded, those of curves by other methods than ours. */
const DASH_SLACK = 0.01;
